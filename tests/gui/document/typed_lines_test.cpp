// SPDX-License-Identifier: MIT
#include "gui/document/typed_lines.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdint>

namespace bedlore {
namespace {

using ::testing::ElementsAre;

/// A stored page whose lines have the ids 1, 2, 3 …
std::vector<PageLine> page(const std::vector<std::string>& texts) {
    std::vector<PageLine> lines;
    for (const std::string& text : texts) {
        PageLine line;
        line.id = {static_cast<std::int64_t>(lines.size()) + 1};
        line.text = text;
        lines.push_back(line);
    }
    return lines;
}

/// The ids that the typed lines get, 0 for a new line.
std::vector<std::int64_t>
idsAfter(const std::vector<std::string>& before, const std::vector<std::string>& after) {
    const std::vector<PageLine> stored = page(before);
    std::vector<const PageLine*> pointers;
    for (const PageLine& line : stored) {
        pointers.push_back(&line);
    }
    std::vector<std::int64_t> ids;
    for (const TypedLine& line : matchLines(pointers, after)) {
        ids.push_back(line.id ? line.id->value : 0);
    }
    return ids;
}

TEST(TypedLines, ALineAtTheEndIsNew) {
    EXPECT_THAT(idsAfter({"a", "b"}, {"a", "b", "c"}), ElementsAre(1, 2, 0));
}

TEST(TypedLines, AChangedLineStaysItself) {
    EXPECT_THAT(idsAfter({"a", "b", "c"}, {"a", "B", "c"}), ElementsAre(1, 2, 3));
}

TEST(TypedLines, ALineBetweenMovesNoOther) {
    EXPECT_THAT(idsAfter({"a", "b", "c"}, {"a", "x", "b", "c"}), ElementsAre(1, 0, 2, 3));
}

TEST(TypedLines, ATakenOutLineTakesOnlyItself) {
    EXPECT_THAT(idsAfter({"a", "b", "c"}, {"a", "c"}), ElementsAre(1, 3));
}

TEST(TypedLines, ChangesInTwoPlacesKeepWhatIsBetween) {
    EXPECT_THAT(
        idsAfter({"a", "b", "c", "d", "e"}, {"A", "b", "x", "c", "d", "E"}),
        ElementsAre(1, 2, 0, 3, 4, 5));
}

TEST(TypedLines, EqualLinesArePairedInOrder) {
    EXPECT_THAT(idsAfter({"9 gr", "9 gr"}, {"9 gr", "9 gr", "9 gr"}), ElementsAre(1, 2, 0));
}

TEST(TypedLines, AMovedLineStaysItself) {
    EXPECT_THAT(idsAfter({"a", "b", "c"}, {"b", "a", "c"}), ElementsAre(2, 1, 3));
    EXPECT_THAT(idsAfter({"a", "b", "c", "d"}, {"d", "a", "b", "c"}), ElementsAre(4, 1, 2, 3));
}

TEST(TypedLines, EmptyPagesAreNoSpecialCase) {
    EXPECT_THAT(idsAfter({}, {}), ElementsAre());
    EXPECT_THAT(idsAfter({}, {"a"}), ElementsAre(0));
    EXPECT_THAT(idsAfter({"a"}, {}), ElementsAre());
}

TEST(TypedLines, UndoSaysWhatItTakesBack) {
    const std::vector<std::string> page{"a", "b", "c"};
    EXPECT_EQ(words(lineChange(page, {"a", "b", "c", "d"})), "typed line 4");
    EXPECT_EQ(words(lineChange(page, {"a", "B", "c"})), "changed line 2");
    EXPECT_EQ(words(lineChange(page, {"a", "c"})), "took out line 2");
    EXPECT_EQ(words(lineChange(page, {"c"})), "took out 2 lines");
    EXPECT_EQ(words(lineChange({}, page)), "typed 3 lines");
    EXPECT_EQ(words(lineChange(page, {"a", "c", "b"})), "swapped lines 2 and 3");
    EXPECT_EQ(words(lineChange(page, {"c", "a", "b"})), "moved lines between 1 and 3");
    EXPECT_EQ(words(lineChange(page, {"a", "B", "C"})), "changed 2 lines");
    EXPECT_EQ(words(lineChange(page, {"x", "y"})), "put 2 lines in place of 3");
    EXPECT_EQ(words(lineChange(page, {"a", "x", "y", "c"})), "put 2 lines in place of line 2");
    EXPECT_EQ(words(lineChange(page, {"x"})), "put line 1 in place of 3 lines");
}

TEST(MergedLines, ChangesInDifferentPlacesAreBothThere) {
    const std::vector<std::string> before{"a", "b", "c", "d"};
    using Lines = std::vector<std::string>;
    // By hand.
    EXPECT_EQ(
        mergedLines(before, {"a", "b", "c", "d", "mine"}, {"a", "theirs", "c", "d"}),
        (Lines{"a", "theirs", "c", "d", "mine"}));
    EXPECT_EQ(
        mergedLines(before, {"mine", "b", "c", "d"}, {"a", "b", "c", "x", "y", "d"}),
        (Lines{"mine", "b", "c", "x", "y", "d"}));
    EXPECT_EQ(
        mergedLines(before, {"a", "b", "c", "mine"}, {"b", "c", "d"}), (Lines{"b", "c", "mine"}));
    EXPECT_EQ(
        mergedLines(before, {"a", "c", "d"}, {"a", "b", "c", "d", "theirs"}),
        (Lines{"a", "c", "d", "theirs"}));
}

TEST(MergedLines, WhereNobodyOrOneChangedSomethingThatStands) {
    using Lines = std::vector<std::string>;
    const Lines before{"a", "b"};
    const Lines other{"a", "x", "b", "y"};
    EXPECT_EQ(mergedLines(before, before, before), before);
    EXPECT_EQ(mergedLines(before, other, before), other);
    EXPECT_EQ(mergedLines(before, before, other), other);
    EXPECT_EQ(mergedLines({}, other, {}), other);
    EXPECT_EQ(mergedLines(before, {}, before), Lines{});
}

TEST(MergedLines, OfTheSameLineHisOwnStands) {
    EXPECT_EQ(
        mergedLines({"a", "b"}, {"a", "mine"}, {"a", "theirs"}),
        (std::vector<std::string>{"a", "mine"}));
}

} // namespace
} // namespace bedlore
