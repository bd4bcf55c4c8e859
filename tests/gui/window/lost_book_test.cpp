// SPDX-License-Identifier: MIT
#include "gui/widgets/message_bar.hpp"
#include "tests/gui/window/open_window.hpp"

#include <gmock/gmock.h>

#include <functional>
#include <utility>

// The book's file goes away while he types.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::HasSubstr;

/// A window whose book lies in a folder of its own.
struct LosingWindow : OpenWindow {
    fs::path inner = folder / "waters";
    fs::path lost = inner / "Pit.gpkg";

    LosingWindow() {
        fs::create_directory(inner);
        EXPECT_TRUE(window.closeBook());
        EXPECT_TRUE(window.newBook(lost));
        std::vector<std::string> lines = headers;
        lines.emplace_back("A 32 6'");
        typePage(lines);
    }
    std::string message() { return part<MessageBar>("messageBar").text().toStdString(); }
    void comeBack() {
        QEvent activated(QEvent::WindowActivate);
        QCoreApplication::sendEvent(&window, &activated);
    }
};

std::size_t readingsIn(const fs::path& path) {
    const auto stored = BookFile::open(path, BookAccess::ReadOnly);
    EXPECT_TRUE(stored.has_value()) << stored.error().message;
    return stored ? stored->book().all<Reading>().size() : 0;
}

/// A way to lose the file, and to bring it back.
struct Loss {
    const char* name;
    std::function<void(const LosingWindow&)> lose;
    std::function<void(const LosingWindow&)> bringBack;
};

const std::vector<Loss>& losses() {
    static const std::vector<Loss> all{
        {"Moved",
         [](const LosingWindow& open) { fs::rename(open.lost, open.inner / "old.gpkg"); },
         [](const LosingWindow& open) { fs::rename(open.inner / "old.gpkg", open.lost); }},
        {"Replaced",
         [](const LosingWindow& open) {
             fs::rename(open.lost, open.inner / "old.gpkg");
             fs::copy_file(open.book, open.lost);
         },
         [](const LosingWindow& open) { fs::rename(open.inner / "old.gpkg", open.lost); }},
        {"FolderRenamed",
         [](const LosingWindow& open) { fs::rename(open.inner, open.folder / "renamed"); },
         [](const LosingWindow& open) { fs::rename(open.folder / "renamed", open.inner); }},
        {"FolderReplaced",
         [](const LosingWindow& open) {
             fs::rename(open.inner, open.folder / "renamed");
             fs::create_directory(open.inner);
             fs::copy_file(open.book, open.lost);
         },
         [](const LosingWindow& open) {
             fs::remove_all(open.inner);
             fs::rename(open.folder / "renamed", open.inner);
         }}};
    return all;
}

class BookGoesAway : public ::testing::TestWithParam<std::size_t> {};

TEST_P(BookGoesAway, IsSaidAndWhatIsTypedIsKeptWhenItIsBack) {
    LosingWindow open;
    const Loss& loss = losses()[GetParam()];
    loss.lose(open);
    open.type("30 7");
    EXPECT_THAT(open.message(), HasSubstr("\"Pit.gpkg\" was moved, removed or replaced"));
    EXPECT_THAT(open.message(), HasSubstr("What you typed stays here"));
    EXPECT_TRUE(open.editor().lines().contains(QStringLiteral("30 7")));
    EXPECT_EQ(open.records()->all<Reading>().size(), 1U);
    EXPECT_FALSE(open.window.close());
    EXPECT_EQ(readingsIn(open.book), 0U) << "the other book is left alone";
    loss.bringBack(open);
    open.type("28 8");
    EXPECT_EQ(open.records()->all<Reading>().size(), 3U);
    EXPECT_EQ(readingsIn(open.lost), 3U);
    EXPECT_TRUE(open.window.close());
}

TEST_P(BookGoesAway, IsSaidWhenHeComesBackAndBeforeItIsClosed) {
    LosingWindow open;
    losses()[GetParam()].lose(open);
    open.comeBack();
    EXPECT_THAT(open.message(), HasSubstr("\"Pit.gpkg\" was moved, removed or replaced"));
    EXPECT_FALSE(open.window.closeBook()) << "nobody else may have what is in it";
    EXPECT_THAT(open.message(), HasSubstr("save a copy under another name. Close once more"));
    EXPECT_TRUE(open.window.closeBook());
}

INSTANTIATE_TEST_SUITE_P(
    Ways,
    BookGoesAway,
    ::testing::Range(std::size_t{0}, losses().size()),
    [](const ::testing::TestParamInfo<std::size_t>& way) { return losses()[way.param].name; });

TEST(LostBook, WhatIsTypedGoesOnInACopy) {
    LosingWindow open;
    fs::remove(open.lost);
    open.type("30 7");
    EXPECT_THAT(open.message(), HasSubstr("save a copy"));
    EXPECT_FALSE(open.window.closeBook()) << "what is typed would be lost";
    const fs::path copy = open.folder / "copy.gpkg";
    open.window.saveCopy(copy);
    ASSERT_EQ(open.desk().document().path(), fs::canonical(copy));
    EXPECT_EQ(readingsIn(copy), 2U);
    EXPECT_NE(storedText(*open.records()).find("30 7"), std::string::npos);
    open.type("28 8");
    EXPECT_EQ(readingsIn(copy), 3U);
}

TEST(LostBook, CopyMayTakeThePlaceOfTheBookThatIsGone) {
    LosingWindow open;
    fs::remove(open.lost);
    open.type("30 7");
    open.window.saveCopy(open.lost);
    EXPECT_THAT(open.message(), HasSubstr("Everything that you typed is kept in it"));
    EXPECT_TRUE(open.desk().document().isWritable());
    EXPECT_EQ(readingsIn(open.lost), 2U);
    open.type("28 8");
    EXPECT_EQ(readingsIn(open.lost), 3U);
    EXPECT_TRUE(open.window.close());
}

TEST(LostBook, NoBookIsCopiedOverAnother) {
    LosingWindow open;
    losses()[1].lose(open); // replaced
    open.type("30 7");
    open.window.saveCopy(open.lost);
    EXPECT_THAT(open.message(), HasSubstr("\"Pit.gpkg\""));
    EXPECT_EQ(readingsIn(open.lost), 0U) << "the book that came in its place";
    EXPECT_TRUE(open.editor().lines().contains(QStringLiteral("30 7")));
    open.window.saveCopy(open.folder / "copy.gpkg");
    EXPECT_EQ(readingsIn(open.folder / "copy.gpkg"), 2U);
}

} // namespace
} // namespace bedlore::testing
