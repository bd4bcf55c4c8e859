// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "gui/window/main_window.hpp"

#include <QDate>
#include <QFileDialog>
#include <QFileInfo>
#include <QStandardPaths>

#include <utility>

// What the window does with files, and the small actions on the parts of the desk.

namespace bedlore {

namespace {

const auto booksFolder = QStringLiteral("books");

QString bookFilter() {
    return MainWindow::tr("Books (*.gpkg)");
}

Date today() {
    const QDate now = QDate::currentDate();
    return Date{
        std::chrono::year{now.year()},
        std::chrono::month{static_cast<unsigned>(now.month())},
        std::chrono::day{static_cast<unsigned>(now.day())}};
}

} // namespace

QString MainWindow::usualFolder(const QString& kind) const {
    const QString last = settings_.folder(kind);
    if (!last.isEmpty() && QFileInfo(last).isDir()) {
        return last;
    }
    const QStringList books = settings_.lastBooks();
    return books.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)
                           : QFileInfo(books.front()).absolutePath();
}

void MainWindow::askNewBook() {
    QString path = QFileDialog::getSaveFileName(
        this,
        tr("Where the new book lies, named after its water"),
        usualFolder(booksFolder),
        bookFilter());
    if (path.isEmpty()) {
        return;
    }
    if (!path.endsWith(QLatin1String(".gpkg"))) {
        path += QLatin1String(".gpkg");
    }
    settings_.keepFolder(booksFolder, QFileInfo(path).absolutePath());
    newBook(path.toStdString());
}

void MainWindow::askOpenBook() {
    const QString path = QFileDialog::getOpenFileName(
        this, tr("Open a book"), usualFolder(booksFolder), bookFilter());
    if (!path.isEmpty()) {
        settings_.keepFolder(booksFolder, QFileInfo(path).absolutePath());
        openBook(path.toStdString());
    }
}

void MainWindow::openPractice() {
    openBook(options_.practice);
}

void MainWindow::askSaveCopy() {
    const QString path = QFileDialog::getSaveFileName(
        this, tr("Where the copy goes"), usualFolder(booksFolder), bookFilter());
    if (path.isEmpty() || !desk_->page().keep()) {
        return;
    }
    if (desk_->document().saveCopy(path.toStdString())) {
        messages_->say(tr("The copy is written."));
    }
}

void MainWindow::askExport() {
    askExportFor(ExportDialog::Purpose::Files);
}

void MainWindow::askPrint() {
    askExportFor(ExportDialog::Purpose::Print);
}

void MainWindow::askExportFor(ExportDialog::Purpose purpose) {
    const auto map = desk_ != nullptr ? desk_->builder().map() : nullptr;
    if (map == nullptr || !desk_->page().keep()) {
        return;
    }
    const std::filesystem::path book = desk_->document().path();
    ExportDialog dialog(
        map,
        {.purpose = purpose,
         .folder = QString::fromStdString(book.parent_path().string()),
         .name = desk_->document().name(),
         .units = preferences_.units},
        this);
    if (dialog.exec() == QDialog::Accepted) {
        writeMap(dialog.share(), dialog.files());
    }
}

void MainWindow::writeMap(const MapShare& share, const MapFiles& files) {
    const auto map = desk_ != nullptr ? desk_->builder().map() : nullptr;
    if (map == nullptr) {
        return;
    }
    desk_->jobs().start(
        exportJob(),
        tr("writing the map"),
        [map, share, files, printed = today()](const Progress& progress) {
            return writeMapFiles(*map, share, files, printed, progress);
        },
        [this, files](const Result<void>& written) {
            if (!written) {
                messages_->warn(QString::fromStdString(written.error().message));
                return;
            }
            QStringList names;
            for (const std::filesystem::path& path : files.all()) {
                names << QString::fromStdString(path.filename().string());
            }
            messages_->say(tr("Written: %1").arg(names.join(QStringLiteral(", "))));
        });
}

void MainWindow::undo() {
    if (desk_ != nullptr) {
        desk_->undo();
    }
}

void MainWindow::redo() {
    if (desk_ != nullptr) {
        desk_->redo();
    }
}

void MainWindow::newPage() {
    if (desk_ != nullptr) {
        desk_->newPage();
    }
}

void MainWindow::answerFirst() {
    if (desk_ != nullptr) {
        desk_->page().answer(0);
    }
}

void MainWindow::nextQuestion() {
    if (desk_ != nullptr) {
        desk_->page().editor().goToNextQuestion();
    }
}

void MainWindow::showAll() {
    if (desk_ != nullptr) {
        desk_->plan().showAll();
    }
}

void MainWindow::zoomIn() {
    if (desk_ != nullptr) {
        desk_->plan().zoomIn();
    }
}

void MainWindow::zoomOut() {
    if (desk_ != nullptr) {
        desk_->plan().zoomOut();
    }
}

void MainWindow::goToPage() {
    showPanel(Desk::Panel::Page, true);
    if (desk_ != nullptr) {
        desk_->panel(Desk::Panel::Page).setFocus(Qt::ShortcutFocusReason);
        desk_->page().setFocus(Qt::ShortcutFocusReason);
    }
}

void MainWindow::goToPlan() {
    if (desk_ != nullptr) {
        desk_->plan().setFocus(Qt::ShortcutFocusReason);
    }
}

void MainWindow::goToSideView() {
    showPanel(Desk::Panel::SideView, true);
    if (desk_ != nullptr) {
        desk_->sideView().setFocus(Qt::ShortcutFocusReason);
    }
}

} // namespace bedlore
