// SPDX-License-Identifier: MIT
#include "gui/document/level_words.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

// A visit without a level among others that have one is said to be less sure.

namespace bedlore {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::TypedBook;

/// A second visit to the same swim, whose page says `more` under its date.
std::vector<std::string> andMay(const std::vector<std::string>& more) {
    std::vector<std::string> lines{"aim A = 0 true", "A 28 9 gr", "20 8", "date 2025-05-03"};
    lines.insert(lines.end(), more.begin(), more.end());
    lines.insert(lines.end(), {"A 27 10 gr", "19 8", "12 5"});
    return lines;
}

std::shared_ptr<const BedMap> mapOf(const TypedBook& typed) {
    const auto map = makeBedMap(typed.document->book(), typed.request());
    EXPECT_TRUE(map.has_value()) << map.error().message;
    return map ? *map : nullptr;
}

Id<Visit> visitIn(const BedMap& map, unsigned month) {
    for (const Visit& visit : map.book->all<Visit>()) {
        if (visit.date.month() == std::chrono::month{month}) {
            return visit.id;
        }
    }
    return {};
}

TEST(LevelWords, SayNothingWhereNoVisitHasALevel) {
    const auto map = mapOf(TypedBook(andMay({})));
    ASSERT_NE(map, nullptr);
    EXPECT_THAT(levelRemarks(*map, Unit::Foot), IsEmpty());
    EXPECT_EQ(levelRemarkAt(*map, map->reduction.soundings[0].place, Unit::Foot), "");
}

TEST(LevelWords, SayThatTheFirstVisitIsTakenAtTheMarkExactly) {
    // The earliest visit without a level is the zero of levels, with no error of its own.
    const auto map = mapOf(TypedBook(andMay({"level 0.35 m"})));
    ASSERT_NE(map, nullptr);
    const auto remarks = levelRemarks(*map, Unit::Foot);
    ASSERT_EQ(remarks.size(), 1U);
    EXPECT_EQ(
        remarks.at(visitIn(*map, 4)),
        "No level for this visit: the water is taken to have stood at the level mark, as this is "
        "the first day. If you read one, write it, as in \"level 0.35 m\" of 3 May 2025.");
}

TEST(LevelWords, SayHowFarALaterVisitMayBeOut) {
    std::vector<std::string> lines = andMay({});
    lines.insert(lines.begin(), "level 0.35 m");
    const auto map = mapOf(TypedBook(lines));
    ASSERT_NE(map, nullptr);
    // A visit without a level is out by 0.30 m, which is a foot to the nearest half foot.
    const auto feet = levelRemarks(*map, Unit::Foot);
    ASSERT_EQ(feet.size(), 1U);
    EXPECT_THAT(feet.at(visitIn(*map, 5)), HasSubstr("at the level mark, give or take 1 ft."));
    EXPECT_THAT(
        levelRemarks(*map, Unit::Metre).at(visitIn(*map, 5)), HasSubstr("give or take 0.3 m."));
    for (const Sounding& sounding : map->reduction.soundings) {
        const std::size_t cast = sounding.line->cast;
        const ReducedVisit& visit = map->reduction.visits[map->reduction.casts[cast].visit];
        const std::string words = levelRemarkAt(*map, sounding.place, Unit::Foot);
        if (visit.levelSaid) {
            EXPECT_EQ(words, "");
        } else {
            EXPECT_EQ(
                words,
                "the nearest depth is of 3 May 2025; no level was said: it may be out by 1 ft");
        }
    }
}

TEST(LevelWords, SayThatStepsOfNoKnownHeightCountForNothing) {
    std::vector<std::string> lines = andMay({"level 2 steps"});
    const auto map = mapOf(TypedBook(lines));
    ASSERT_NE(map, nullptr);
    const auto remarks = levelRemarks(*map, Unit::Foot);
    ASSERT_EQ(remarks.size(), 1U);
    EXPECT_THAT(remarks.at(visitIn(*map, 5)), HasSubstr("\"2 steps\" gives no height"));
    EXPECT_THAT(remarks.at(visitIn(*map, 5)), Not(HasSubstr("of 12 April")));
}

} // namespace
} // namespace bedlore
