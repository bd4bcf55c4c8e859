// SPDX-License-Identifier: MIT
#include "core/book/history.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

Edits wordEdit(std::int64_t id, const char* text) {
    return {Put<Word>{{.id = {id}, .text = text, .meaning = "gr"}}};
}

TEST(History, UndoAndRedoWalkBackAndForthThroughEveryState) {
    History history;
    std::vector<Book> states(1);
    for (int i = 1; i <= 50; ++i) {
        auto applied = applyEdits(states.back(), wordEdit(1 + i % 7, std::to_string(i).c_str()));
        history.applied("step", applied->inverse);
        states.push_back(applied->book);
    }
    Book book = states.back();
    for (std::size_t i = states.size() - 1; i > 0; --i) {
        auto back = applyEdits(book, history.nextUndo().edits);
        history.undone(back->inverse);
        book = back->book;
        EXPECT_EQ(book, states[i - 1]);
    }
    EXPECT_FALSE(history.canUndo());
    for (std::size_t i = 1; i < states.size(); ++i) {
        auto forth = applyEdits(book, history.nextRedo().edits);
        history.redone(forth->inverse);
        book = forth->book;
        EXPECT_EQ(book, states[i]);
    }
    EXPECT_FALSE(history.canRedo());
}

TEST(History, ANewActDropsWhatWasUndone) {
    History history;
    history.applied("one", {});
    history.undone({});
    ASSERT_TRUE(history.canRedo());
    history.applied("two", {});
    EXPECT_FALSE(history.canRedo());
    EXPECT_EQ(history.nextUndo().label, "two");
}

TEST(History, AnActThatWentOnIsUndoneAsOne) {
    History history;
    const Book empty;
    const auto first = applyEdits(empty, wordEdit(1, "gr"));
    history.applied("typed line 1", first->inverse);
    const auto second = applyEdits(first->book, wordEdit(1, "gravel"));
    history.wentOn(second->inverse);
    EXPECT_EQ(history.nextUndo().label, "typed line 1");
    const auto back = applyEdits(second->book, history.nextUndo().edits);
    ASSERT_TRUE(back.has_value());
    EXPECT_EQ(back->book, empty);
    history.undone(back->inverse);
    EXPECT_FALSE(history.canUndo());
    const auto forth = applyEdits(back->book, history.nextRedo().edits);
    ASSERT_TRUE(forth.has_value());
    EXPECT_EQ(forth->book, second->book);
}

TEST(History, AnActThatWentOnDropsWhatWasUndone) {
    History history;
    history.applied("one", {});
    history.applied("two", {});
    history.undone({});
    history.wentOn({});
    EXPECT_FALSE(history.canRedo());
    EXPECT_EQ(history.nextUndo().label, "one");
}

} // namespace
} // namespace bedlore
