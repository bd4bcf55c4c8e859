// SPDX-License-Identifier: MIT
#include "gui/dialogs/keys_dialog.hpp"
#include "gui/window/actions.hpp"
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QLabel>
#include <QLineEdit>
#include <QTableView>
#include <QTextBlock>

#include <algorithm>
#include <filesystem>

// Looking things up: in the book, and among the keys.

namespace bedlore::testing {
namespace {

class FindInBook : public ::testing::Test {
protected:
    OpenWindow open_;

    FindInBook() {
        std::vector<std::string> lines = headers;
        lines.insert(lines.end(), {"A 28½ 9 gr", "27 8 gr", "a carp showed twice"});
        open_.typePage(lines);
        open_.window.newPage();
        open_.typePage({"swim the Reeds", "date 2025-05-01", "an <b>otter</b> showed"});
    }
    void find(const std::string& words) {
        open_.window.action(QStringLiteral("find"))->trigger();
        auto& line = open_.part<QLineEdit>("findLine");
        line.selectAll();
        QTest::keyClicks(&line, QString::fromStdString(words));
        EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    }
    QAbstractItemModel& results() { return *open_.part<QTableView>("findResults").model(); }
    QString result(int row, int column) { return results().index(row, column).data().toString(); }
    void press(Qt::Key key) { QTest::keyClick(&open_.part<QLineEdit>("findLine"), key); }
    QString count() { return open_.part<QLabel>("findCount").text(); }
};

TEST_F(FindInBook, ListsLinesWithWhereTheyStand) {
    find("SHOWED");
    ASSERT_EQ(results().rowCount(), 2);
    EXPECT_EQ(result(0, 0), QStringLiteral("a carp showed twice"));
    EXPECT_EQ(result(0, 1), QStringLiteral("Harl Pit › the Point › 12 April 2025 › line 14"));
    EXPECT_EQ(result(1, 0), QStringLiteral("an <b>otter</b> showed")) << "as he wrote it";
    EXPECT_EQ(count(), QStringLiteral("2 lines"));
    find("heron");
    EXPECT_EQ(results().rowCount(), 0);
    EXPECT_EQ(count(), QStringLiteral("nothing found"));
}

TEST_F(FindInBook, GoesToThePageAndTheLineByReturn) {
    EXPECT_TRUE(open_.editor().toPlainText().contains(QStringLiteral("otter")));
    find("showed");
    press(Qt::Key_Return);
    EXPECT_TRUE(open_.editor().toPlainText().contains(QStringLiteral("a carp")));
    EXPECT_EQ(open_.editor().currentLine(), 13);
    find("showed");
    press(Qt::Key_Down);
    press(Qt::Key_Return);
    EXPECT_TRUE(open_.editor().toPlainText().contains(QStringLiteral("otter")));
    EXPECT_EQ(open_.editor().currentLine(), 2);
}

TEST(Find, ShowsTheWholeRowOfWhatWasFound) {
    OpenWindow open;
    open.window.resize(1280, 720);
    std::vector<std::string> lines = headers;
    for (int i = 0; i < 60; ++i) {
        lines.push_back("a note of the evening");
        lines.push_back("A " + std::to_string(30 - i % 20) + " 9 gr");
    }
    lines.insert(lines.begin() + 40, "an otter showed");
    open.typePage(lines);
    for (const int times : {1, 2}) { // from the foot of the page, and again from where it is
        SCOPED_TRACE(times);
        open.window.action(QStringLiteral("find"))->trigger();
        auto& line = open.part<QLineEdit>("findLine");
        line.selectAll();
        QTest::keyClicks(&line, QStringLiteral("otter"));
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        QTest::keyClick(&line, Qt::Key_Return);
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        QCoreApplication::processEvents();
        EXPECT_EQ(open.editor().currentLine(), 40);
        const QRect room = open.editor().viewport()->rect();
        const QRect row = open.editor().cursorRect();
        EXPECT_TRUE(room.contains(row)) << row.top() << " in " << room.height();
    }
}

// Readings of a page that came from a file are found by what they mean.
TEST(Find, GoesToTheLineOfAFoundReading) {
    OpenWindow open;
    const auto book = open.folder / "the sample.gpkg";
    std::filesystem::copy_file(
        std::filesystem::path(BEDLORE_SOURCE_DIR) / "samples/harl-pit/harl-pit.gpkg", book);
    ASSERT_TRUE(open.window.openBook(book));
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    open.window.action(QStringLiteral("find"))->trigger();
    auto& line = open.part<QLineEdit>("findLine");
    QTest::keyClicks(&line, QStringLiteral("mussels, hard, tap"));
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    ASSERT_TRUE(open.part<QTableView>("findResults")
                    .model()
                    ->index(0, 1)
                    .data()
                    .toString()
                    .contains(QStringLiteral("a reading")));
    QTest::keyClick(&line, Qt::Key_Return);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    QCoreApplication::processEvents();
    const QString found = open.editor().textCursor().block().text();
    EXPECT_TRUE(found.contains(QStringLiteral("mu"))) << found.toStdString();
    EXPECT_TRUE(open.editor().viewport()->rect().contains(open.editor().cursorRect()));
}

TEST_F(FindInBook, FollowsWhatIsTypedMeanwhile) {
    find("tench");
    EXPECT_EQ(results().rowCount(), 0);
    open_.type("a tench rolled");
    EXPECT_TRUE(waitUntilIdle(open_.desk().jobs()));
    EXPECT_EQ(results().rowCount(), 1);
}

TEST_F(FindInBook, GoesAwayByEscape) {
    find("showed");
    EXPECT_FALSE(open_.part<QWidget>("findPanel").isHidden());
    press(Qt::Key_Escape);
    EXPECT_TRUE(open_.part<QWidget>("findPanel").isHidden());
    EXPECT_FALSE(open_.part<QLineEdit>("findLine").accessibleName().isEmpty());
}

TEST(Keys, ListEveryActionOfTheMenusOnce) {
    OpenWindow open;
    const std::vector<KeyRow> keys = keyRows(open.window);
    for (const QAction* action :
         open.window.findChildren<QAction*>(QString(), Qt::FindDirectChildrenOnly)) {
        if (action->shortcut().isEmpty()) {
            continue;
        }
        const QString key = action->shortcut().toString(QKeySequence::NativeText);
        EXPECT_EQ(
            std::count_if(
                keys.begin(), keys.end(), [&](const KeyRow& row) { return row.key == key; }),
            1)
            << key.toStdString();
    }
    const auto has = [&](const char16_t* key, const char16_t* words) {
        return std::any_of(keys.begin(), keys.end(), [&](const KeyRow& row) {
            return row.key == QString::fromUtf16(key) && row.words == QString::fromUtf16(words);
        });
    };
    EXPECT_TRUE(has(u"Ctrl+I", u"Import files"));
    EXPECT_TRUE(has(u"Alt+V, then D", u"Dark")) << "no key of its own: the way by the menu";
    EXPECT_TRUE(has(u"[ and ]", u"Turn the plan"));
}

TEST(Keys, AreLookedUpByWord) {
    OpenWindow open;
    open.window.action(QStringLiteral("keys"))->trigger();
    auto& dialog = open.part<KeysDialog>("keysDialog");
    auto& line = *dialog.findChild<QLineEdit*>(QStringLiteral("keysLine"));
    const auto& table = *dialog.findChild<QTableView*>(QStringLiteral("keysTable"));
    const int all = table.model()->rowCount();
    QTest::keyClicks(&line, QStringLiteral("side view"));
    EXPECT_GT(table.model()->rowCount(), 0);
    EXPECT_LT(table.model()->rowCount(), all);
    for (int i = 0; i < table.model()->rowCount(); ++i) {
        const QString row = table.model()->index(i, 0).data().toString() + u' ' +
                            table.model()->index(i, 2).data().toString();
        EXPECT_TRUE(row.contains(QStringLiteral("side view"), Qt::CaseInsensitive))
            << row.toStdString();
    }
}

} // namespace
} // namespace bedlore::testing
