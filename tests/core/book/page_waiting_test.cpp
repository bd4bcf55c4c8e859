// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "core/book/page_waiting.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace bedlore {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<std::string> waitingIn(const std::vector<std::string>& lines) {
    const PageMeaning meaning = readPage(lines, {});
    return waitingWords(meaning, saidByPage(meaning));
}

TEST(PageWaiting, HeadersWordAloneWaitsToBeCompleted) {
    for (const char* line : {"swim", "date", "swim ", "  date\t"}) {
        EXPECT_TRUE(waitsToBeCompleted(line)) << line;
    }
    for (const char* line : {"", "  ", "swim P14", "swims", "level", "date 2025-04-12"}) {
        EXPECT_FALSE(waitsToBeCompleted(line)) << line;
    }
}

TEST(PageWaiting, NothingWaitsUnderASwimAndADate) {
    EXPECT_THAT(
        waitingIn({"swim P14", "date 2025-04-12", "distances wraps", "depths ft", "A 28 9"}),
        IsEmpty());
}

TEST(PageWaiting, PageWithoutReadingsWaitsForNothing) {
    EXPECT_THAT(waitingIn({}), IsEmpty());
    EXPECT_THAT(waitingIn({"swim P14", "wind from the west all day"}), IsEmpty());
}

TEST(PageWaiting, SaysHowManyReadingsWaitForADateAndFromWhere) {
    EXPECT_THAT(
        waitingIn({"swim P14", "distances wraps", "depths ft", "A 28 9 gr", "27 8"}),
        ElementsAre("The 2 readings from line 4 on wait for a date: put a line like "
                    "\"date 2025-04-12\" above them."));
}

TEST(PageWaiting, DateThatIsNoneLeavesTheReadingWaiting) {
    // April has 30 days.
    EXPECT_THAT(
        waitingIn({"swim P14", "date 31/4/25", "distances wraps", "depths ft", "A 28 9 gr"}),
        ElementsAre("The reading on line 5 waits for a date: put a line like "
                    "\"date 2025-04-12\" above it."));
}

TEST(PageWaiting, MissingSwimIsNamedAndBothAre) {
    EXPECT_THAT(
        waitingIn({"date 2025-04-12", "distances wraps", "depths ft", "A 28 9"}),
        ElementsAre("The reading on line 4 waits for a swim: put a line like \"swim P14\" above "
                    "it."));
    EXPECT_THAT(
        waitingIn({"distances wraps", "depths ft", "A 28 9"}),
        ElementsAre("The reading on line 3 waits for a swim and a date: put lines like "
                    "\"swim P14\" and \"date 2025-04-12\" above it."));
}

TEST(PageWaiting, UpdateOfThePagePassesItOn) {
    Book book;
    book.all<Water>().put({.id = {1}, .name = "Harl Pit"});
    IdSource ids{2};
    const Page page{.id = ids.take<Page>(), .water = {1}, .author = {}, .file = {}};
    const std::vector<TypedLine> lines{
        {.id = {}, .text = "swim P14"},
        {.id = {}, .text = "distances wraps"},
        {.id = {}, .text = "depths ft"},
        {.id = {}, .text = "A 28 9"}};
    const auto update = updatePage(book, page, lines, ids);
    ASSERT_TRUE(update.has_value());
    EXPECT_THAT(
        update->notices, ElementsAre(::testing::StartsWith("The reading on line 4 waits for a")));
}

} // namespace
} // namespace bedlore
