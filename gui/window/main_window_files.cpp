// SPDX-License-Identifier: MIT
#include "core/book/leaving_book.hpp"
#include "core/io/book_tables.hpp"
#include "gui/dialogs/export_dialog.hpp"
#include "gui/dialogs/file_questions.hpp"
#include "gui/dialogs/help_window.hpp"
#include "gui/dialogs/keys_dialog.hpp"
#include "gui/dialogs/print_dialog.hpp"
#include "gui/dialogs/tables_dialog.hpp"
#include "gui/widgets/message_bar.hpp"
#include "gui/window/actions.hpp"
#include "gui/window/main_window.hpp"
#include "gui/window/tour_guide.hpp"

#include <QAction>
#include <QDate>
#include <QDir>
#include <QFileInfo>
#include <QStandardPaths>

#include <utility>

// What the window does with files, and the small actions on the parts of the desk.

namespace bedlore {

namespace {

const auto booksFolder = QStringLiteral("books");
const auto bookEnding = QStringLiteral(".gpkg");
const auto exportFolder = QStringLiteral("export");

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
    QString last = settings_.folder(kind);
    if (!last.isEmpty() && QFileInfo(last).isDir()) {
        return last;
    }
    const QStringList books = settings_.lastBooks();
    return books.isEmpty() ? QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation)
                           : QFileInfo(books.front()).absolutePath();
}

void MainWindow::askNewBook() {
    const QString path = askFreeName(
        this,
        {.caption = tr("Where the new book lies, named after its water"),
         .start = usualFolder(booksFolder),
         .filter = bookFilter(),
         .ending = bookEnding});
    if (!path.isEmpty()) {
        settings_.keepFolder(booksFolder, QFileInfo(path).absolutePath());
        newBook(path.toStdString());
    }
}

void MainWindow::askOpenBook() {
    const QString path = askFileToRead(
        this,
        {.caption = tr("Open a book"),
         .start = usualFolder(booksFolder),
         .filter = bookFilter(),
         .ending = {}});
    if (!path.isEmpty()) {
        settings_.keepFolder(booksFolder, QFileInfo(path).absolutePath());
        openBook(path.toStdString());
    }
}

void MainWindow::openPractice() {
    guide_->open();
}

void MainWindow::askSaveCopy() {
    const QString path = askFreeName(
        this,
        {.caption = tr("Where the copy goes"),
         .start = usualFolder(booksFolder),
         .filter = bookFilter(),
         .ending = bookEnding});
    if (!path.isEmpty()) {
        saveCopy(path.toStdString());
    }
}

void MainWindow::askSaveTables() {
    PrivateThings privateThings = PrivateThings::LeaveOut;
    const PrivateCounts counts = privateThingsIn(*desk_->document().book());
    if (!counts.isNone()) {
        TablesDialog dialog(counts, this);
        if (dialog.exec() != QDialog::Accepted) {
            return;
        }
        privateThings = dialog.privateThings();
    }
    const QString path = askFreeName(
        this,
        {.caption = privateThings == PrivateThings::Include
                        ? tr("A new folder for the tables: the whole book, what is private too, so "
                             "it is not for sharing")
                    : counts.isNone()
                        ? tr("A new folder for the tables: the whole book, nothing in it private")
                        : tr("A new folder for the tables: the whole book but what is private"),
         .start =
             QDir(usualFolder(booksFolder)).filePath(tr("%1 tables").arg(desk_->document().name())),
         .filter = {},
         .ending = {}});
    if (!path.isEmpty()) {
        saveTables(path.toStdString(), privateThings);
    }
}

void MainWindow::saveTables(const std::filesystem::path& folder, PrivateThings privateThings) {
    if (!desk_->page().keep()) {
        return;
    }
    const QString privateOnes =
        QString::fromStdString(privateWords(privateThingsIn(*desk_->document().book())));
    const QString whatStays = privateOnes.isEmpty() ? QString()
                              : privateThings == PrivateThings::Include
                                  ? tr(", with %1: it is not for sharing").arg(privateOnes)
                                  : tr("; kept back: %1").arg(privateOnes);
    desk_->jobs().start(
        tablesJob(),
        tr("writing the tables"),
        [book = desk_->document().book(),
         next = desk_->document().freeIds().next(),
         folder,
         privateThings](const Progress& progress) {
            return privateThings == PrivateThings::Include
                       ? writeBookTables(*book, next, folder, progress)
                       : writeBookTables(withoutPrivateThings(*book), next, folder, progress);
        },
        [this, folder, stays = whatStays](const Result<std::vector<std::string>>& written) {
            if (!written) {
                messages_->warn(QString::fromStdString(written.error().message));
                return;
            }
            messages_->say(tr("The whole book is written as %1 tables in %2%3.")
                               .arg(written->size())
                               .arg(QString::fromStdString(folder.filename().string()), stays));
        });
}

void MainWindow::saveCopy(const std::filesystem::path& target) {
    // The second time, what another program changed is known.
    const bool kept = desk_->page().keep() || desk_->page().keep();
    if (!desk_->document().saveCopy(target)) {
        return;
    }
    if (kept) {
        messages_->say(tr("The copy is written."));
        return;
    }
    // The book takes nothing any more: what is typed goes on in the copy. Where that stands in the
    // place of the book, its lock must be free.
    std::error_code none;
    if (std::filesystem::equivalent(target, desk_->document().path(), none)) {
        desk_->document().stopWriting();
    }
    Result<std::unique_ptr<Document>> copy = Document::open(target);
    if (!copy || !(*copy)->isWritable()) {
        messages_->warn(tr("The copy is written, but without what you typed last: %1")
                            .arg(
                                copy ? (*copy)->notices().join(u' ')
                                     : QString::fromStdString(copy.error().message)));
        return;
    }
    const QStringList typed = desk_->page().editor().lines();
    const auto page = desk_->page().page();
    dropDesk();
    putOnDesk(std::move(copy));
    if (page) {
        desk_->goToPage(*page);
    } else {
        desk_->newPage();
    }
    desk_->page().editor().setLines(typed);
    if (desk_->page().keep()) {
        messages_->say(tr("The copy is written and open now in place of the book that could not "
                          "be written to. Everything that you typed is kept in it."));
    }
}

void MainWindow::withMapToLeave(const AskWithMap& ask) {
    disconnect(waitsForMap_);
    if (desk_ == nullptr || desk_->builder().map() == nullptr || !desk_->page().keep()) {
        return;
    }
    const BedBuilder& builder = desk_->builder();
    if (builder.showsTheBook()) {
        ask(builder.map());
        return;
    }
    messages_->say(tr("The bed is being drawn with what you typed last; this opens then."));
    // Queued, since a dialog must not stand in the way of the work that follows.
    const auto queued =
        static_cast<Qt::ConnectionType>(Qt::QueuedConnection | Qt::SingleShotConnection);
    waitsForMap_ = connect(
        &builder, &BedBuilder::built, this, [this, ask] { withMapToLeave(ask); }, queued);
    // What could not be drawn is said; a sheet must not open of itself much later.
    disconnect(waitsNoMore_);
    waitsNoMore_ =
        connect(&builder, &BedBuilder::failed, this, [this] { disconnect(waitsForMap_); });
}

void MainWindow::askExport() {
    withMapToLeave([this](const std::shared_ptr<const BedMap>& map) { showExport(map); });
}

void MainWindow::askPrint() {
    withMapToLeave([this](const std::shared_ptr<const BedMap>& map) { showPrint(map); });
}

void MainWindow::showExport(const std::shared_ptr<const BedMap>& map) {
    ExportChoices choices = settings_.exportChoices();
    ExportDialog dialog(
        map,
        {.folder = usualFolder(exportFolder),
         .name = desk_->document().name(),
         .units = preferences_.units,
         .formats =
             {.geotiff = choices.geotiff,
              .geojson = choices.geojson,
              .pdf = choices.pdf,
              .tables = choices.tables}},
        this);
    if (dialog.exec() != QDialog::Accepted) {
        return;
    }
    const MapFormats formats = dialog.formats();
    choices.geotiff = formats.geotiff;
    choices.geojson = formats.geojson;
    choices.pdf = formats.pdf;
    choices.tables = formats.tables;
    settings_.keep(choices);
    const auto files = dialog.files().all();
    if (!files.empty()) {
        settings_.keepFolder(
            exportFolder, QString::fromStdString(files.front().parent_path().string()));
    }
    writeMap(dialog.share(), dialog.files());
}

void MainWindow::showPrint(const std::shared_ptr<const BedMap>& map) {
    const ExportChoices choices = settings_.exportChoices();
    auto* dialog = new PrintDialog(
        map,
        {.folder = usualFolder(exportFolder),
         .name = desk_->document().name(),
         .units = preferences_.units,
         .paper = choices.paper,
         .fill = choices.fill,
         .colours = preferences_.palette,
         .printed = today()},
        this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::finished, this, [this, dialog] {
        ExportChoices kept = settings_.exportChoices();
        kept.paper = dialog->paper();
        kept.fill = dialog->fill();
        settings_.keep(kept);
    });
    dialog->open();
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
            return writeMapFiles(map, share, files, printed, progress);
        },
        [this, files](const Result<void>& written) {
            if (written) {
                messages_->say(QString::fromStdString(writtenWords(files.all())));
            } else {
                messages_->warn(QString::fromStdString(written.error().message));
            }
        });
}

void MainWindow::findInBook() {
    if (desk_ != nullptr) {
        desk_->find().begin();
    }
}

void MainWindow::showKeys() {
    auto* dialog = new KeysDialog(keyRows(*this), this);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->open();
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

void MainWindow::showHelp() {
    if (help_ == nullptr) {
        help_ = new HelpWindow(
            [this](const QString& name) -> std::optional<ActionWords> {
                const QAction* found = action(name);
                if (found == nullptr) {
                    return std::nullopt;
                }
                QString words = found->text().section(u':', 0, 0); // undo says what it would undo
                words.remove(u'&');
                if (words.endsWith(u'…')) {
                    words.chop(1);
                }
                return ActionWords{words, found->shortcut().toString(QKeySequence::NativeText)};
            },
            this);
        help_->setColours(preferences_.palette);
    }
    help_->show();
    help_->raise();
    help_->activateWindow();
    help_->beginToFind();
}

void MainWindow::goToSideView() {
    showPanel(Desk::Panel::SideView, true);
    if (desk_ != nullptr) {
        desk_->sideView().setFocus(Qt::ShortcutFocusReason);
    }
}

} // namespace bedlore
