// SPDX-License-Identifier: MIT
#include "gui/dialogs/import_dialog.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QDragEnterEvent>
#include <QLabel>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QToolButton>
#include <QUrl>

#include <fstream>

// Files that are dropped on the window, and the books that were open last.

namespace bedlore::testing {
namespace {

class Drop : public ::testing::Test {
protected:
    OpenWindow open_;

    std::filesystem::path write(const std::string& name, const std::string& text) {
        std::filesystem::path path = open_.folder / name;
        std::ofstream(path) << text;
        return path;
    }
    std::filesystem::path otherBook(const std::string& name) {
        std::filesystem::path path = open_.folder / name;
        newBook(path).reset();
        return path;
    }
    void carry(const std::vector<std::filesystem::path>& files) {
        QList<QUrl> urls;
        for (const auto& file : files) {
            urls << QUrl::fromLocalFile(QString::fromStdString(file.string()));
        }
        data_.setUrls(urls);
    }
    /// Over the page, which must not take the file's name for text.
    QString dragOverThePage() {
        QDragEnterEvent enter(QPoint(20, 20), Qt::CopyAction, &data_, Qt::LeftButton, {});
        QCoreApplication::sendEvent(open_.editor().viewport(), &enter);
        const auto& hint = open_.part<QLabel>("dropHint");
        return hint.isHidden() ? QString() : hint.text();
    }
    void drop() {
        QDragEnterEvent enter(QPoint(20, 20), Qt::CopyAction, &data_, Qt::LeftButton, {});
        QCoreApplication::sendEvent(&open_.window, &enter);
        QDropEvent event(QPointF(20, 20), Qt::CopyAction, &data_, Qt::LeftButton, {});
        QCoreApplication::sendEvent(&open_.window, &event);
        if (open_.window.desk() != nullptr) {
            EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
        }
    }
    QString message() { return open_.part<QLabel>("message").text(); }
    ImportDialog* dialog() {
        return open_.window.findChild<ImportDialog*>(QStringLiteral("importDialog"));
    }

    QMimeData data_;
};

TEST_F(Drop, OfAPageSaysWhatItDoesAndThenShowsIt) {
    carry({write("page.txt", whole(eveningPage()))});
    EXPECT_EQ(
        dragOverThePage(),
        QStringLiteral("page.txt can be looked through before anything is taken in."));
    drop();
    EXPECT_TRUE(open_.part<QLabel>("dropHint").isHidden());
    ASSERT_NE(dialog(), nullptr);
    EXPECT_TRUE(open_.records()->all<Reading>().empty());
    EXPECT_FALSE(open_.editor().toPlainText().contains(QStringLiteral("page.txt")));
}

TEST_F(Drop, OfABookOpensIt) {
    carry({otherBook("Low Mere.gpkg")});
    EXPECT_EQ(dragOverThePage(), QStringLiteral("The book Low Mere opens."));
    drop();
    EXPECT_EQ(open_.desk().document().name(), QStringLiteral("Low Mere"));
    EXPECT_EQ(dialog(), nullptr);
}

TEST_F(Drop, OfABookAmongOthersOpensItAndTakesTheOthersThere) {
    carry({write("page.txt", whole(eveningPage())), otherBook("Low Mere.gpkg")});
    EXPECT_EQ(
        dragOverThePage(),
        QStringLiteral("The book Low Mere opens. Then page.txt can be looked through and taken "
                       "into it."));
    drop();
    EXPECT_EQ(open_.desk().document().name(), QStringLiteral("Low Mere"));
    EXPECT_NE(dialog(), nullptr);
}

TEST_F(Drop, OfTwoBooksOpensTheFirstAndSaysSo) {
    carry({otherBook("Low Mere.gpkg"), otherBook("Long Water.gpkg")});
    drop();
    EXPECT_EQ(open_.desk().document().name(), QStringLiteral("Low Mere"));
    EXPECT_TRUE(message().contains(QStringLiteral("One book is open at a time")));
}

TEST_F(Drop, OfAPictureIsSaidAndDoesNothing) {
    carry({write("photo.jpg", "x")});
    EXPECT_TRUE(dragOverThePage().startsWith(QStringLiteral("photo.jpg cannot be read here")));
    drop();
    EXPECT_EQ(dialog(), nullptr);
    EXPECT_TRUE(message().startsWith(QStringLiteral("photo.jpg cannot be read here")));
}

TEST_F(Drop, OfAFolderTakesItsTables) {
    open_.typePage(eveningPage());
    const std::filesystem::path tables = open_.folder / "tables";
    open_.window.saveTables(tables);
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    std::ofstream(tables / "notes.pdf") << "no table";
    std::size_t count = 0;
    for (const auto& entry : std::filesystem::directory_iterator(tables)) {
        count += entry.path().extension() == ".csv" ? 1U : 0U;
    }
    ASSERT_GT(count, 1U);
    const Book before = *open_.records();
    ASSERT_TRUE(open_.window.newBook(open_.folder / "twin.gpkg"));
    carry({tables});
    EXPECT_EQ(
        dragOverThePage(),
        QStringLiteral("%1 files can be looked through before anything is taken in.").arg(count));
    drop();
    ASSERT_NE(dialog(), nullptr);
    open_.part<QPushButton>("importTakeIn").click();
    ASSERT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_TRUE(*open_.records() == before);
}

TEST_F(Drop, OfAFolderWithoutATableIsSaidAndDoesNothing) {
    const std::filesystem::path empty = open_.folder / "empty";
    std::filesystem::create_directory(empty);
    carry({empty});
    const QString said = QStringLiteral("There are no tables (.csv) in the folder %1.")
                             .arg(QString::fromStdString(empty.string()));
    EXPECT_EQ(dragOverThePage(), said);
    drop();
    EXPECT_EQ(dialog(), nullptr);
    EXPECT_EQ(message(), said);
    // Beside a file that can be read it does not stand in the way, and is still said.
    carry({empty, write("page.txt", whole(eveningPage()))});
    drop();
    EXPECT_NE(dialog(), nullptr);
    EXPECT_TRUE(message().contains(said)) << message().toStdString();
}

TEST_F(Drop, WithoutABookSaysWhatComesFirst) {
    ASSERT_TRUE(open_.window.closeBook());
    carry({write("page.txt", whole(eveningPage()))});
    drop();
    EXPECT_EQ(
        message(),
        QStringLiteral("Open a book or begin a new one first: then page.txt can be taken in."));
}

class Recent : public Drop {
protected:
    QMenu& menu() { return *open_.window.action(QStringLiteral("recentBooks"))->menu(); }
    QStringList entries() {
        QStringList words;
        for (const QAction* action : menu().actions()) {
            if (!action->isSeparator()) {
                words << action->text();
            }
        }
        return words;
    }
};

TEST_F(Recent, BooksStandByNameTheLatestFirst) {
    ASSERT_TRUE(open_.window.openBook(otherBook("Low & Mere.gpkg")));
    EXPECT_EQ(
        entries(),
        (QStringList{QStringLiteral("&1  Low && Mere"), QStringLiteral("&2  Harl Pit")}));
    EXPECT_TRUE(
        menu().actions().front()->toolTip().contains(QStringLiteral("Low &amp; Mere.gpkg")));
    menu().actions().back()->trigger();
    EXPECT_EQ(open_.desk().document().name(), QStringLiteral("Harl Pit"));
}

TEST_F(Recent, BooksThatAreGoneAreSaidAndTakenOff) {
    const auto gone = otherBook("Low Mere.gpkg");
    ASSERT_TRUE(open_.window.openBook(gone));
    ASSERT_TRUE(open_.window.openBook(open_.book));
    std::filesystem::remove(gone);
    ASSERT_TRUE(open_.window.closeBook());
    ASSERT_TRUE(open_.window.openBook(open_.book));
    EXPECT_TRUE(entries().contains(QStringLiteral("&2  Low Mere: not there any more")));
    menu().findChild<QAction*>(QStringLiteral("forgetGoneBooks"))->trigger();
    EXPECT_EQ(entries(), QStringList{QStringLiteral("&1  Harl Pit")});
}

TEST_F(Recent, TheStartScreenNamesTheWaterFirstAndTheFileBesideIt) {
    open_.typePage(headers); // its water has the name of the book's file
    ASSERT_TRUE(open_.window.closeBook());
    const auto notes = open_.folder / "notes of spring.gpkg";
    std::filesystem::copy_file(open_.book, notes);
    ASSERT_TRUE(open_.window.openBook(notes));
    ASSERT_TRUE(open_.window.closeBook());
    // Not opened for it: what is there now could not be.
    std::ofstream(notes) << "not a book any more";
    open_.window.openBook(notes);
    EXPECT_EQ(open_.window.desk(), nullptr);
    const auto books = open_.window.findChildren<QToolButton*>(QStringLiteral("recentBook"));
    ASSERT_FALSE(books.empty());
    EXPECT_EQ(books.front()->text(), QStringLiteral("Harl Pit"));
    EXPECT_EQ(open_.part<QLabel>("recentFile").text(), QStringLiteral("notes of spring"));
    EXPECT_TRUE(entries().contains(QStringLiteral("&1  Harl Pit (notes of spring)")));
}

TEST_F(Recent, TheStartScreenTakesAGoneBookOffByAKey) {
    const auto gone = otherBook("Low Mere.gpkg");
    ASSERT_TRUE(open_.window.openBook(gone));
    ASSERT_TRUE(open_.window.openBook(open_.book));
    std::filesystem::remove(gone);
    ASSERT_TRUE(open_.window.closeBook());
    EXPECT_EQ(open_.window.findChildren<QToolButton*>(QStringLiteral("recentBook")).size(), 2);
    QTest::keyClick(&open_.part<QToolButton>("forgetBook"), Qt::Key_Space);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    const auto left = open_.window.findChildren<QToolButton*>(QStringLiteral("recentBook"));
    ASSERT_EQ(left.size(), 1);
    QTest::keyClick(left.front(), Qt::Key_Space);
    EXPECT_NE(open_.window.desk(), nullptr);
}

} // namespace
} // namespace bedlore::testing
