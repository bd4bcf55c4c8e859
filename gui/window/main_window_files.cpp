// SPDX-License-Identifier: MIT
#include "gui/dialogs/bad_rows_dialog.hpp"
#include "gui/widgets/message_bar.hpp"
#include "gui/window/main_window.hpp"

#include <QDate>
#include <QFileDialog>
#include <QStandardPaths>

#include <utility>

// What the window does with files, and the small actions on the parts of the desk.

namespace bedlore {

namespace {

const auto bookFilter = QStringLiteral("Books (*.gpkg)");
const auto importJob = QStringLiteral("import");
const auto exportJob = QStringLiteral("export");

Date today() {
    const QDate now = QDate::currentDate();
    return Date{
        std::chrono::year{now.year()},
        std::chrono::month{static_cast<unsigned>(now.month())},
        std::chrono::day{static_cast<unsigned>(now.day())}};
}

std::vector<std::filesystem::path> toPaths(const QStringList& names) {
    std::vector<std::filesystem::path> paths;
    for (const QString& name : names) {
        paths.emplace_back(name.toStdString());
    }
    return paths;
}

QString counted(std::size_t count, const QString& one, const QString& many) {
    return QString::number(count) + u' ' + (count == 1 ? one : many);
}

QString importWords(const ImportPlan& plan) {
    QStringList sentences;
    if (plan.counts.fixes > 0) {
        sentences << MainWindow::tr("Taken in: %1 depths from elsewhere.").arg(plan.counts.fixes);
    }
    if (plan.counts.readings > 0 || plan.counts.fixes == 0) {
        sentences
            << MainWindow::tr("Taken in: %1 in %2.")
                   .arg(
                       counted(
                           plan.counts.readings,
                           MainWindow::tr("reading"),
                           MainWindow::tr("readings")),
                       counted(plan.counts.casts, MainWindow::tr("cast"), MainWindow::tr("casts")));
    }
    for (const auto& list : {plan.assumed, plan.notices}) {
        for (const std::string& sentence : list) {
            sentences << QString::fromStdString(sentence);
        }
    }
    return sentences.join(u' ');
}

} // namespace

QString MainWindow::usualFolder() const {
    const QStringList books = settings_.lastBooks();
    return books.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)
                           : QFileInfo(books.front()).absolutePath();
}

void MainWindow::askNewBook() {
    QString path = QFileDialog::getSaveFileName(
        this, tr("Where the new book lies, named after its water"), usualFolder(), bookFilter);
    if (path.isEmpty()) {
        return;
    }
    if (!path.endsWith(QLatin1String(".gpkg"))) {
        path += QLatin1String(".gpkg");
    }
    newBook(path.toStdString());
}

void MainWindow::askOpenBook() {
    const QString path =
        QFileDialog::getOpenFileName(this, tr("Open a book"), usualFolder(), bookFilter);
    if (!path.isEmpty()) {
        openBook(path.toStdString());
    }
}

void MainWindow::openPractice() {
    openBook(options_.practice);
}

void MainWindow::askSaveCopy() {
    const QString path =
        QFileDialog::getSaveFileName(this, tr("Where the copy goes"), usualFolder(), bookFilter);
    if (path.isEmpty() || !desk_->page().keep()) {
        return;
    }
    if (desk_->document().saveCopy(path.toStdString())) {
        messages_->say(tr("The copy is written."));
    }
}

void MainWindow::askImport() {
    const QStringList names = QFileDialog::getOpenFileNames(
        this,
        tr("Files to take in"),
        usualFolder(),
        tr("Notes and tables (*.txt *.csv *.geojson *.kml *.gpx);;All files (*)"));
    if (!names.isEmpty()) {
        importFiles(toPaths(names), BadRows::Refuse);
    }
}

void MainWindow::importFiles(const std::vector<std::filesystem::path>& files, BadRows badRows) {
    if (desk_ == nullptr || !desk_->page().keep()) {
        return;
    }
    const auto book = desk_->document().book();
    ImportOptions options;
    options.badRows = badRows;
    const auto water = desk_->whereabouts().water;
    options.water = water ? book->get(*water).name : desk_->document().name().toStdString();
    desk_->jobs().start(
        importJob,
        tr("reading the files"),
        [book, files, options, nextId = desk_->document().freeIds().next()](
            const Progress& progress) {
            return planImport(*book, nextId, files, options, progress);
        },
        [this, book, files](Result<ImportPlan> plan) {
            finishImport(book, std::move(plan), files);
        });
}

void MainWindow::finishImport(
    const std::shared_ptr<const Book>& before,
    Result<ImportPlan> plan,
    const std::vector<std::filesystem::path>& files) {
    if (!plan) {
        messages_->warn(QString::fromStdString(plan.error().message));
        return;
    }
    if (desk_->document().book() != before) {
        // He typed on meanwhile: what was planned no longer fits.
        importFiles(files, BadRows::Refuse);
        return;
    }
    if (plan->refused) {
        BadRowsDialog dialog(plan->bad, this);
        if (dialog.exec() == QDialog::Accepted) {
            importFiles(files, BadRows::Skip);
        }
        return;
    }
    const bool wasEmpty = before->all<Visit>().empty();
    if (desk_->document().apply("import", plan->edits)) {
        if (wasEmpty) {
            desk_->goTo({});
        }
        messages_->say(importWords(*plan));
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
        exportJob,
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
