// SPDX-License-Identifier: MIT
#include "gui/dialogs/file_questions.hpp"

#include "gui/paint/red_light.hpp"

#include <QApplication>
#include <QDir>
#include <QFileDialog>
#include <QFileIconProvider>
#include <QFileInfo>
#include <QToolButton>

#include <map>
#include <memory>

namespace bedlore {

namespace {

/// Pictures of folders and files for the night. They are made beforehand: a file dialog asks for
/// them on another thread.
class NightPictures : public QFileIconProvider {
public:
    NightPictures() {
        for (const IconType kind :
             {Computer, Desktop, Trashcan, Network, Drive, Folder, IconType::File}) {
            pictures_[kind] = inRedLight(QFileIconProvider::icon(kind));
        }
    }
    [[nodiscard]] QIcon icon(IconType kind) const override { return pictures_.at(kind); }
    [[nodiscard]] QIcon icon(const QFileInfo& file) const override {
        return pictures_.at(file.isDir() ? Folder : IconType::File);
    }

private:
    std::map<IconType, QIcon> pictures_;
};

struct Manner {
    QFileDialog::AcceptMode accept = QFileDialog::AcceptOpen;
    QFileDialog::FileMode mode = QFileDialog::ExistingFile;
    QFileDialog::Options options = {};
};

QStringList ask(QWidget* parent, const FileQuestion& question, const Manner& manner) {
    std::unique_ptr<NightPictures> pictures; // outlives the dialog, which asks it to the end
    QFileDialog dialog(parent, question.caption, QString(), question.filter);
    dialog.setAcceptMode(manner.accept);
    dialog.setFileMode(manner.mode);
    dialog.setOptions(manner.options);
    dialog.setDefaultSuffix(question.ending.mid(1));
    // At night the system's own dialogs, which know nothing of it, are not used.
    if (QCoreApplication::testAttribute(Qt::AA_DontUseNativeDialogs)) {
        pictures = std::make_unique<NightPictures>();
        dialog.setIconProvider(pictures.get());
        dialog.setSizeGripEnabled(false); // drawn in grey
        for (auto* button : dialog.findChildren<QToolButton*>()) {
            button->setIcon(inRedLight(button->icon()));
        }
        // The picture beside the folder's name is taken when the folder changes.
        dialog.setDirectory(QDir::rootPath());
    }
    const QFileInfo start(question.start);
    dialog.setDirectory(start.isDir() ? start.filePath() : start.absolutePath());
    if (!start.isDir()) {
        dialog.selectFile(start.fileName());
    }
    return dialog.exec() == QDialog::Accepted ? dialog.selectedFiles() : QStringList();
}

QString askToWrite(QWidget* parent, const FileQuestion& question, QFileDialog::Options options) {
    const QStringList names =
        ask(parent,
            question,
            {.accept = QFileDialog::AcceptSave, .mode = QFileDialog::AnyFile, .options = options});
    return names.isEmpty() ? QString() : withEnding(names.front(), question.ending);
}

} // namespace

QString askFileToRead(QWidget* parent, const FileQuestion& question) {
    return ask(parent, question, {}).value(0);
}

QStringList askFilesToRead(QWidget* parent, const FileQuestion& question) {
    return ask(parent, question, {.mode = QFileDialog::ExistingFiles});
}

QString askFreeName(QWidget* parent, const FileQuestion& question) {
    return askToWrite(parent, question, QFileDialog::DontConfirmOverwrite);
}

QString askNameToWrite(QWidget* parent, const FileQuestion& question) {
    return askToWrite(parent, question, {});
}

QString withEnding(const QString& name, const QString& ending) {
    return name.endsWith(ending, Qt::CaseInsensitive) ? name : name + ending;
}

} // namespace bedlore
