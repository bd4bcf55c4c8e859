// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"
#include "tests/support/cut_off_write.hpp"
#include "tests/support/run_tool.hpp"

#include <QAction>
#include <gmock/gmock.h>

#include <fstream>
#include <iterator>

// Books that were damaged, that another program made, or another version of this one.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

/// A window beside a book that it has written and closed.
struct StrangeWindow : OpenWindow {
    std::string whole;

    StrangeWindow() {
        std::vector<std::string> lines = headers;
        lines.emplace_back("A 32 6'");
        typePage(lines);
        EXPECT_TRUE(window.closeBook());
        whole = bytesOf(book);
    }
    std::string message() { return part<MessageBar>("messageBar").text().toStdString(); }
    /// What the window says of a book of these bytes, which it must refuse and leave alone.
    std::string refusalOf(const std::string& bytes) {
        const fs::path path = folder / "strange.gpkg";
        std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
        EXPECT_FALSE(window.openBook(path));
        EXPECT_EQ(window.desk(), nullptr);
        EXPECT_EQ(bytesOf(path), bytes) << "it was changed";
        EXPECT_FALSE(fs::exists(path.string() + ".lock"));
        return message();
    }
};

TEST(StrangeBook, FlippedBitInWhatWasNotedIsDamage) {
    StrangeWindow open;
    std::string bytes = open.whole;
    const std::size_t at = bytes.find("dead pine");
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'e'; // one bit of the letter d
    const std::string said = open.refusalOf(bytes);
    EXPECT_THAT(said, HasSubstr("\"strange.gpkg\" is damaged"));
    EXPECT_THAT(said, HasSubstr("Use a copy of it from before."));
}

TEST(StrangeBook, TruncatedOneIsDamageWhereverItWasCut) {
    StrangeWindow open;
    for (std::size_t size = open.whole.size() - 1; size > 600; size = size * 2 / 3) {
        SCOPED_TRACE(size);
        const std::string said = open.refusalOf(open.whole.substr(0, size));
        EXPECT_THAT(said, HasSubstr("\"strange.gpkg\""));
        EXPECT_THAT(said, HasSubstr("Use a copy of it from before."));
    }
}

TEST(StrangeBook, NewerOneIsRefused) {
    StrangeWindow open;
    const ToolRun changed =
        runTool("sqlite3 '" + open.book.string() + "' 'UPDATE meta SET format = 2'");
    ASSERT_EQ(changed.status, 0) << changed.output;
    EXPECT_THAT(open.refusalOf(bytesOf(open.book)), HasSubstr("newer Bedlore"));
}

TEST(StrangeBook, WhatIsNoBookIsRefused) {
    StrangeWindow open;
    EXPECT_THAT(
        open.refusalOf("swim the Point\n"),
        ::testing::AllOf(
            HasSubstr("not a Bedlore book"), HasSubstr("take it in there with Import")));
    EXPECT_THAT(open.refusalOf(""), HasSubstr("is empty"));
    EXPECT_FALSE(open.window.openBook(open.folder / "none.gpkg"));
    EXPECT_THAT(open.message(), HasSubstr("There is no book"));
    EXPECT_FALSE(open.window.openBook(open.folder.path()));
    EXPECT_THAT(open.message(), HasSubstr("ends in .gpkg: choose that"));
}

TEST(StrangeBook, RefusedOneLeavesTheWindowReadyForTheNext) {
    StrangeWindow open;
    open.refusalOf(open.whole.substr(0, open.whole.size() / 2));
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_EQ(open.message(), "");
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
}

TEST(StrangeBook, WriteThatWasCutOffIsTakenBackAndSaid) {
    StrangeWindow open;
    cutOffAWrite(open.book);
    ASSERT_FALSE(bytesOf(open.book) == open.whole) << "nothing was cut off";
    ASSERT_TRUE(open.window.openBook(open.book));
    EXPECT_THAT(open.message(), HasSubstr("was cut off before it was finished"));
    EXPECT_THAT(open.message(), HasSubstr("Everything that was shown as kept is here."));
    EXPECT_EQ(open.records()->all<Water>().begin()->name, "Harl Pit");
    EXPECT_TRUE(open.editor().lines().contains(QStringLiteral("A 32 6'")));
    EXPECT_TRUE(bytesOf(open.book) == open.whole);
}

TEST(StrangeBook, OneOfTheFirstFormatIsOpenedAndWrittenIn) {
    StrangeWindow open;
    const fs::path old = open.folder / "old.gpkg";
    fs::copy_file(BEDLORE_TEST_DATA_DIR "/books/version-1.gpkg", old);
    ASSERT_TRUE(open.window.openBook(old)) << open.message();
    EXPECT_EQ(open.message(), "");
    EXPECT_TRUE(open.desk().document().isWritable());
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U); // Source: tests/data/books/SOURCE.md
    open.window.action(QStringLiteral("newPage"))->trigger();
    open.type("swim Old Peg");
    EXPECT_TRUE(open.window.closeBook()) << open.message();
    const auto stored = BookFile::open(old, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_EQ(stored->book().all<Page>().size(), 2U);
}

} // namespace
} // namespace bedlore::testing
