// SPDX-License-Identifier: MIT
#include "core/io/formats.hpp"
#include "gui/dialogs/file_questions.hpp"
#include "gui/dialogs/import_dialog.hpp"
#include "gui/widgets/foot_line.hpp"
#include "gui/widgets/message_bar.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/recent_books.hpp"

#include <QAction>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMenu>
#include <QMimeData>
#include <QPointer>

#include <utility>

// Files that come into the window: chosen, dropped, looked at, taken in.

namespace bedlore {

namespace {

const auto importFolder = QStringLiteral("import");

/// Whatever can be read, by the endings that the formats have.
QString importFilter() {
    QStringList patterns;
    for (const std::string_view ending : importEndings()) {
        patterns << u'*' + QString::fromUtf8(ending.data(), static_cast<qsizetype>(ending.size()));
    }
    return MainWindow::tr("Notes, tables and shorelines (%1)").arg(patterns.join(u' ')) +
           QStringLiteral(";;") + MainWindow::tr("All files (*)");
}

QStringList namesOf(const std::vector<std::filesystem::path>& files) {
    QStringList names;
    for (const std::filesystem::path& file : files) {
        names << QString::fromStdString(file.filename().string());
    }
    return names;
}

} // namespace

void MainWindow::askImport() {
    const QStringList chosen = askFilesToRead(
        this,
        {.caption = tr("Files to take in"),
         .start = usualFolder(importFolder),
         .filter = importFilter(),
         .ending = {}});
    if (chosen.isEmpty()) {
        return;
    }
    settings_.keepFolder(importFolder, QFileInfo(chosen.front()).absolutePath());
    std::vector<std::filesystem::path> files;
    for (const QString& name : chosen) {
        files.emplace_back(name.toStdString());
    }
    importFiles(files);
}

void MainWindow::importFiles(const std::vector<std::filesystem::path>& files) {
    if (desk_ == nullptr || files.empty() || !desk_->page().keep()) {
        return;
    }
    if (!desk_->document().isWritable()) {
        messages_->warn(
            tr("This book is open for reading only: nothing can be taken in. Close it in "
               "other windows, then choose Open again in the Book menu; or save a copy "
               "and open that."));
        return;
    }
    const auto water = desk_->whereabouts().water;
    const QString waterName =
        water ? QString::fromStdString(desk_->document().book()->get(*water).name)
              : desk_->document().name();
    auto* dialog = new ImportDialog(
        {.files = namesOf(files), .water = waterName, .colours = preferences_.palette}, this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    const auto stop = [this] {
        if (desk_ != nullptr) {
            desk_->jobs().stop(importJob());
            desk_->jobs().stop(takeInJob());
        }
    };
    connect(dialog, &QDialog::rejected, this, stop);
    connect(dialog, &ImportDialog::stopWanted, this, stop);
    connect(
        &desk_->jobs(), &JobBoard::progressed, dialog, [dialog](const QString& kind, double share) {
            if (kind == importJob() || kind == takeInJob()) {
                dialog->showProgress(share);
            }
        });
    dialog->open();
    planImportFor(*dialog, files);
}

void MainWindow::planImportFor(
    ImportDialog& dialog, const std::vector<std::filesystem::path>& files) {
    const auto book = desk_->document().book();
    ImportOptions options;
    // What could be taken in is worked out at once: he decides on what he sees.
    options.badRows = BadRows::Skip;
    options.again = SameFileAgain::Allow;
    options.previewRows = shownImportRows;
    const auto water = desk_->whereabouts().water;
    options.water = water ? book->get(*water).name : desk_->document().name().toStdString();
    desk_->jobs().start(
        importJob(),
        tr("reading the files"),
        [book, files, options, nextId = desk_->document().freeIds().next()](
            const Progress& progress) {
            return std::make_shared<const Result<ImportPlan>>(
                planImport(*book, nextId, files, options, progress));
        },
        [this, book, files, shown = QPointer<ImportDialog>(&dialog)](const SharedPlan& plan) {
            if (shown == nullptr) {
                return;
            }
            if (!*plan) {
                shown->showFailure(QString::fromStdString(plan->error().message));
                return;
            }
            connect(shown, &ImportDialog::takeInWanted, this, [this, book, plan, shown] {
                takeIn(book, plan, *shown);
            });
            shown->showPlan(**plan);
        });
}

void MainWindow::takeIn(
    const std::shared_ptr<const Book>& before, const SharedPlan& plan, ImportDialog& dialog) {
    if (desk_ == nullptr || (*plan)->refused) {
        return;
    }
    if (desk_->document().book() != before) {
        messages_->warn(tr("The book has changed since the files were read, so nothing was taken "
                           "in. Choose them again."));
        dialog.endWriting(false);
        return;
    }
    dialog.showWriting();
    desk_->document().takeInBehind(
        {.jobs = desk_->jobs(), .kind = takeInJob(), .words = tr("writing to the book")},
        "import",
        std::shared_ptr<const ImportPlan>(plan, &**plan),
        [this,
         plan,
         wasEmpty = before->all<Visit>().empty(),
         shown = QPointer<ImportDialog>(&dialog)](const Result<Change>& taken) {
            if (shown != nullptr) {
                shown->endWriting(taken.has_value());
            }
            if (!taken) {
                if (taken.error().fault == Fault::Cancelled) { // else the document has said why
                    messages_->say(tr("Stopped. Nothing was taken in."));
                }
                return;
            }
            if (wasEmpty) {
                desk_->goTo({});
            }
            messages_->say(tr("Taken in: %1.").arg(importCountWords((*plan)->counts)));
        });
}

void MainWindow::stopWork() {
    if (desk_ == nullptr) {
        return;
    }
    JobBoard& jobs = desk_->jobs();
    const bool wrote = jobs.isRunning(exportJob()) || jobs.isRunning(tablesJob());
    for (const QString& job : {importJob(), takeInJob(), exportJob(), tablesJob()}) {
        jobs.stop(job);
    }
    if (wrote) {
        messages_->say(tr("Stopped. A file that was not finished is not there."));
    }
}

void MainWindow::refreshWork() {
    const JobBoard& jobs = desk_->jobs();
    const bool canStop = jobs.isRunning(exportJob()) || jobs.isRunning(tablesJob()) ||
                         jobs.isRunning(importJob()) || jobs.isRunning(takeInJob());
    foot_->setWork(jobs.words(), canStop);
}

void MainWindow::refreshRecent() {
    QAction* recent = action(QStringLiteral("recentBooks"));
    if (recent->menu() == nullptr) {
        recent->setMenu(new QMenu(this));
    }
    fillRecentMenu(
        *recent->menu(),
        recentBooks(settings_),
        {.open = [this](const QString& path) { openBook(path.toStdString()); },
         .forget =
             [this](const std::vector<QString>& paths) {
                 for (const QString& path : paths) {
                     settings_.forgetBook(path);
                 }
                 refreshRecent();
             }});
}

DropDesk MainWindow::deskForDrops() const {
    return desk_ == nullptr                 ? DropDesk::NoBook
           : desk_->document().isWritable() ? DropDesk::Writable
                                            : DropDesk::ReadingOnly;
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    const DroppedFiles files = droppedFiles(*event->mimeData());
    if (files.empty()) {
        return;
    }
    event->setDropAction(Qt::CopyAction);
    event->accept();
    dropHint_->setText(dropWords(files, deskForDrops()));
    // A band under the head of the window: what the files would land on stays in sight.
    constexpr int around = 16;
    const QRect inside = centralWidget()->geometry().adjusted(around, around, -around, 0);
    dropHint_->setGeometry(
        QRect(inside.topLeft(), QSize(inside.width(), dropHint_->heightForWidth(inside.width()))));
    dropHint_->raise();
    dropHint_->show();
}

void MainWindow::dragLeaveEvent(QDragLeaveEvent* /*event*/) {
    dropHint_->hide();
}

void MainWindow::dropEvent(QDropEvent* event) {
    dropHint_->hide();
    const DroppedFiles files = droppedFiles(*event->mimeData());
    event->setDropAction(Qt::CopyAction);
    event->accept();
    const QString words = dropWords(files, deskForDrops());
    if (!dropDoesSomething(files, deskForDrops())) {
        messages_->warn(words);
        return;
    }
    if (!files.books.empty() && !openBook(files.books.front())) {
        return; // said why
    }
    if (files.leavesSome()) {
        messages_->say(words);
    }
    importFiles(files.others);
}

} // namespace bedlore
