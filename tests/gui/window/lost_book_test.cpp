// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"

// The book's file goes away while he types.

namespace bedlore::testing {
namespace {

TEST(LostBook, WhatIsTypedGoesOnInACopy) {
    OpenWindow open;
    std::vector<std::string> lines = headers;
    lines.emplace_back("A 32 6'");
    open.typePage(lines);
    std::filesystem::remove(open.book);
    open.type("30 7");
    auto& messages = open.part<MessageBar>("messageBar");
    EXPECT_TRUE(messages.text().contains(QStringLiteral("save a copy")));
    EXPECT_TRUE(open.editor().lines().contains(QStringLiteral("30 7")));
    EXPECT_FALSE(open.window.closeBook()) << "what is typed would be lost";
    const std::filesystem::path copy = open.folder / "copy.gpkg";
    open.window.saveCopy(copy);
    ASSERT_EQ(open.desk().document().path(), std::filesystem::canonical(copy));
    const auto stored = Document::open(copy, BookAccess::ReadOnly);
    ASSERT_TRUE(stored.has_value()) << stored.error().message;
    EXPECT_EQ((*stored)->book()->all<Reading>().size(), 2U);
    EXPECT_NE(storedText(*(*stored)->book()).find("30 7"), std::string::npos);
    open.type("28 8");
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
}

} // namespace
} // namespace bedlore::testing
