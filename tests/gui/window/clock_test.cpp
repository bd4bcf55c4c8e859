// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/support/disk_log.hpp"
#include "tests/support/run_tool.hpp"

#include <QAction>
#include <QLabel>

// The computer's clock is wrong, or set back while he types: nothing that is noted hangs on it.

namespace bedlore::testing {
namespace {

// Source: 2025-06-01 and 2001-01-01, 00:00 UTC, from `date -u -d DAY +%s`.
constexpr std::int64_t summerOf2025 = 1748736000;
constexpr std::int64_t newYearOf2001 = 978307200;

/// What the file says, for a GIS, about when the table was last changed.
std::string dateInFile(const OpenWindow& open) {
    return runTool(
               "sqlite3 '" + open.book.string() +
               "' \"SELECT last_change FROM gpkg_contents WHERE table_name = 'page_lines'\"")
        .output;
}

TEST(WrongClock, OrderUndoAndTheNextSessionStayAsTheyWere) {
    DiskLog disk;
    OpenWindow open;
    disk.setClock(summerOf2025);
    std::vector<std::string> lines = headers;
    lines.emplace_back("A 32 6'");
    open.typePage(lines);
    EXPECT_EQ(dateInFile(open), "2025-06-01T00:00:00.000Z\n");
    const Book first = *open.records();
    disk.setClock(newYearOf2001);
    open.type("30 7");
    EXPECT_EQ(dateInFile(open), "2001-01-01T00:00:00.000Z\n") << "the clock was not set back";
    const Book second = *open.records();
    open.window.undo();
    EXPECT_EQ(*open.records(), first);
    open.window.redo();
    EXPECT_EQ(*open.records(), second);

    // The same between two sessions, and once more set back in the second.
    ASSERT_TRUE(open.window.closeBook());
    disk.setClock(newYearOf2001 - 86400);
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(open.part<MessageBar>("messageBar").text(), QString());
    EXPECT_EQ(*open.records(), second);
    EXPECT_EQ(storedText(*open.records()), whole(lines) + "30 7\n");
    open.editor().goToLine(static_cast<int>(lines.size()) + 1);
    open.type("");
    open.type("28 8");
    disk.setClock(0);
    open.type("26 9");
    EXPECT_EQ(open.part<QLabel>("kept").text(), QStringLiteral("kept ✓"));
    const auto stored = BookFile::open(open.book, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_TRUE(stored->notices().empty()) << stored->notices().front();
    std::vector<std::string> depths;
    for (const Reading& reading : stored->book().all<Reading>()) {
        depths.push_back(reading.depth->value.text);
    }
    EXPECT_EQ(depths, (std::vector<std::string>{"6'", "7", "8", "9"})) << "as they were typed";
}

} // namespace
} // namespace bedlore::testing
