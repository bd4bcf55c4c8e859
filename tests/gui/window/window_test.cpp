// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "gui/document/readout.hpp"
#include "gui/window/main_window.hpp"
#include "tests/gui/support.hpp"

#include <QAction>
#include <QPlainTextEdit>
#include <QTest>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

// The window as a person uses it: by the keyboard alone, offscreen.

namespace bedlore::testing {
namespace {

struct OpenWindow {
    TempFolder folder;
    std::filesystem::path book = folder / "Harl Pit.gpkg";
    MainWindow window{{.book = {}, .practice = {}, .settings = folder / "settings.ini"}};

    OpenWindow() {
        window.show();
        EXPECT_TRUE(window.newBook(book));
    }
    Desk& desk() { return *window.desk(); }
    PageEditor& editor() { return desk().page().editor(); }
    std::shared_ptr<const Book> records() { return desk().document().book(); }

    /// Presses the keys of `line`, then Return.
    void type(const std::string& line) {
        for (const QChar letter : QString::fromStdString(line)) {
            const int key = letter == u' ' ? int(Qt::Key_Space) : 0;
            QKeyEvent press(QEvent::KeyPress, key, Qt::NoModifier, QString(letter));
            QCoreApplication::sendEvent(&editor(), &press);
        }
        QTest::keyClick(&editor(), Qt::Key_Return);
    }
    /// A new page begins with its first two headers, waiting to be completed.
    void typePage(const std::vector<std::string>& lines) {
        editor().selectAll();
        QTest::keyClick(&editor(), Qt::Key_Delete);
        for (const std::string& line : lines) {
            type(line);
        }
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
    }
};

const std::vector<std::string> headers{
    "swim the Point",
    "date 2025-04-12",
    "level 0.35 m",
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "float pulls 12 in + 12 in",
    "tip 6 ft",
    "aim A = dead pine",
    "aim B = A + 10 deg right",
    "aim C = B + 1 fist right"};

/// An evening's page: three aims, some fifty lines.
std::vector<std::string> eveningPage() {
    std::vector<std::string> lines = headers;
    for (const char* aim : {"A", "B", "C"}) {
        lines.push_back(std::string(aim) + " 32 6'");
        for (int wraps = 31; wraps >= 16; --wraps) {
            const std::string depth = wraps % 3 == 0   ? "9p D"
                                      : wraps % 3 == 1 ? "9½ gr"
                                                       : "10 si glide";
            lines.push_back(std::to_string(wraps) + " " + depth);
        }
    }
    lines.emplace_back("wind SW3, 11c rising");
    return lines;
}

std::string whole(const std::vector<std::string>& lines) {
    std::string text;
    for (const std::string& line : lines) {
        text += line + "\n";
    }
    return text;
}

std::string storedText(const Book& book) {
    std::string text = pageText(book, book.all<Page>().begin()->id);
    while (text.ends_with("\n\n")) {
        text.pop_back(); // the line that waits for the next one
    }
    return text;
}

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
        .geotiff = open.folder / "map.tif", .geojson = {}, .pdf = open.folder / "map.pdf"};
    open.window.writeMap({.tier = SharingTier::All}, files);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_TRUE(std::filesystem::exists(*files.geotiff));
    EXPECT_TRUE(std::filesystem::exists(*files.pdf));
}

TEST(Window, ImportsAPageFileAsOneActThatCanBeUndone) {
    OpenWindow open;
    const std::filesystem::path file = open.folder / "page.txt";
    {
        std::ofstream out(file);
        out << whole(eveningPage());
    }
    open.window.importFiles({file}, BadRows::Refuse);
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_EQ(open.records()->all<Reading>().size(), 51U);
    open.window.undo();
    EXPECT_TRUE(open.records()->all<Reading>().empty());
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
