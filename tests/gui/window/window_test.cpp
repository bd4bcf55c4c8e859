// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

// The window as a person uses it: by the keyboard alone, offscreen.

namespace bedlore::testing {
namespace {

TEST(Window, TakesAnEveningsPageByTheKeyboardAlone) {
    OpenWindow open;
    const auto lines = eveningPage();
    open.typePage(lines);
    const auto records = open.records();
    EXPECT_EQ(records->all<Reading>().size(), 51U) << "3 aims of 17 readings";
    EXPECT_EQ(records->all<Cast>().size(), 3U);
    EXPECT_EQ(storedText(*records), whole(lines));
    ASSERT_NE(open.desk().builder().map(), nullptr);
}

TEST(Window, KeepsEveryLineOnTheDiskAsItIsTyped) {
    OpenWindow open;
    const auto lines = eveningPage();
    open.typePage(lines);
    // Opened by another program while the window still stands: what a killed window would leave.
    const auto other = BookFile::open(open.book, BookAccess::ReadOnly);
    ASSERT_TRUE(other.has_value()) << other.error().message;
    EXPECT_EQ(other->book(), *open.records());
}

TEST(Window, UndoAndRedoWalkThroughTheWholePage) {
    OpenWindow open;
    open.typePage(eveningPage());
    const Book full = *open.records();
    int steps = 0;
    while (open.window.action(QStringLiteral("undo"))->isEnabled() && steps < 500) {
        open.window.undo();
        ++steps;
    }
    EXPECT_TRUE(open.records()->all<Reading>().empty());
    EXPECT_GE(steps, 60) << "each line was one act";
    while (open.window.action(QStringLiteral("redo"))->isEnabled() && steps > 0) {
        open.window.redo();
        --steps;
    }
    EXPECT_EQ(*open.records(), full);
}

TEST(Window, ReopensWithTheSamePageAndMap) {
    OpenWindow open;
    const auto lines = eveningPage();
    open.typePage(lines);
    const Book before = *open.records();
    ASSERT_TRUE(open.window.closeBook());
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(*open.records(), before);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(open.editor().toPlainText().startsWith(QStringLiteral("swim the Point\n")));
    EXPECT_NE(open.desk().builder().map(), nullptr);
}

TEST(Window, ABookThatCannotBeOpenedLeavesTheOneOnTheDesk) {
    OpenWindow open;
    open.typePage(headers);
    const std::string before = storedText(*open.records());
    const std::filesystem::path broken = open.folder / "broken.gpkg";
    std::ofstream(broken) << "no book at all";
    EXPECT_FALSE(open.window.openBook(broken));
    EXPECT_FALSE(open.window.openBook(open.folder / "nowhere.gpkg"));
    EXPECT_FALSE(open.window.newBook(broken)) << "that name is taken";
    ASSERT_NE(open.window.desk(), nullptr);
    EXPECT_EQ(open.desk().document().path(), open.book);
    EXPECT_EQ(storedText(*open.records()), before);
    EXPECT_TRUE(open.desk().document().isWritable());
    // The same book once more is still one that can be written in.
    EXPECT_TRUE(open.window.openBook(open.book));
    EXPECT_TRUE(open.desk().document().isWritable());
}

TEST(Window, MarksAnUnclearLineAndMendsItByOneKey) {
    OpenWindow open;
    std::vector<std::string> lines = headers;
    lines.emplace_back("B 110 12");
    open.typePage(lines);
    EXPECT_TRUE(open.records()->all<Reading>().empty());
    EXPECT_EQ(storedText(*open.records()), whole(lines)) << "kept as typed";
    QTest::keyClick(&open.editor(), Qt::Key_Up);
    QTest::keyClick(&open.editor(), Qt::Key_1, Qt::AltModifier);
    ASSERT_EQ(open.records()->all<Reading>().size(), 1U);
    EXPECT_EQ(open.records()->all<Reading>().begin()->from, (Entered{110.0, Unit::Yard, "110y"}));
}

TEST(Window, OtherSticksMoveThePlaceAndLeaveThePageAlone) {
    OpenWindow open;
    std::vector<std::string> lines = headers;
    lines.emplace_back("A 26¾ 9");
    open.typePage(lines);
    const auto range = [&] {
        const auto map = open.desk().builder().map();
        return map->reduction.readings.at(0).line->length / metre;
    };
    // Source: by hand. 26¾ × 12 ft = 321 ft = 97.8408 m; × 13 ft = 347.75 ft = 105.9942 m.
    EXPECT_NEAR(range(), 97.8408, 1e-4);
    open.editor().goToLine(3);
    for (int i = 0; i < 5; ++i) {
        QTest::keyClick(&open.editor(), Qt::Key_Backspace);
    }
    for (const char letter : std::string("13 ft")) {
        QTest::keyClick(&open.editor(), letter);
    }
    QTest::keyClick(&open.editor(), Qt::Key_Down);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_NEAR(range(), 105.9942, 1e-4);
    EXPECT_EQ(open.records()->all<Reading>().begin()->from.text, "26¾");
    open.window.undo();
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_NEAR(range(), 97.8408, 1e-4);
}

TEST(Window, WritesTheMapsThatAreAskedFor) {
    OpenWindow open;
    std::vector<std::string> lines = eveningPage();
    open.typePage(lines);
    const MapFiles files{
        .geotiff = open.folder / "map.tif",
        .geojson = {},
        .pdf = open.folder / "map.pdf",
        .tables = open.folder / "map tables"};
    open.window.writeMap({.tier = SharingTier::All}, files);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(std::filesystem::exists(*files.geotiff));
    EXPECT_TRUE(std::filesystem::exists(*files.pdf));
    EXPECT_TRUE(std::filesystem::exists(*files.tables / "readings.csv"));
}

TEST(Window, ClosesWhileTheBedIsBeingMade) {
    OpenWindow open;
    for (const std::string& line : eveningPage()) {
        open.type(line);
    }
    EXPECT_TRUE(open.window.closeBook());
    EXPECT_EQ(open.window.desk(), nullptr);
}

} // namespace
} // namespace bedlore::testing
