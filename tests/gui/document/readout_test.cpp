// SPDX-License-Identifier: MIT
#include "core/units/format.hpp"
#include "gui/document/readout.hpp"
#include "tests/gui/document/typed_book.hpp"
#include "tests/support/matchers.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

using ::testing::HasSubstr;
using testing::isWithin;
using ::testing::Not;
using testing::TypedBook;

AimLine aimA() {
    AimLine aim;
    aim.label = "A";
    return aim;
}

TEST(Readout, SaysDirectionsByHand) {
    // Fingers are 2° and fists 10° at arm's length, from memory.
    EXPECT_EQ(besideAim(aimA(), 0.4_deg), "on aim A");
    EXPECT_EQ(besideAim(aimA(), 4.0_deg), "aim A 2 fingers right");
    EXPECT_EQ(besideAim(aimA(), -2.0_deg), "aim A 1 finger left");
    EXPECT_EQ(besideAim(aimA(), 15.0_deg), "aim A 1½ fists right");
    EXPECT_EQ(besideAim(aimA(), -50.0_deg), "50° left of aim A");
}

TEST(Readout, NamesTheMarkWhereThereIsOne) {
    AimLine aim = aimA();
    aim.mark = "dead pine";
    EXPECT_EQ(besideAim(aim, 0.0_deg), "on the dead pine");
    EXPECT_EQ(besideAim(aim, 4.0_deg), "the dead pine 2 fingers right");
}

TEST(Readout, PrintsADistanceInHisUnit) {
    // By hand: 26¾ wraps of 12 ft are 321 ft = 107 yd = 97.84 m.
    const Length line = 321.0_ft;
    EXPECT_EQ(printDistance(line, {.distance = Unit::Wrap}, 12.0_ft), "26¾ wraps");
    EXPECT_EQ(printDistance(line, {.distance = Unit::Yard}, 12.0_ft), "107 yd");
    // Sticks 2 m apart: 97.84 m are 48.92 wraps, to the nearest quarter 49.
    EXPECT_EQ(printDistance(line, {.distance = Unit::Wrap}, 2.0_m), "49 wraps");
}

/// Eight readings of 9 ft on one aim, from 28 wraps in to 14.
const std::vector<std::string> oneAim{
    "aim A = 0", "A 28 9 gr", "26 9 gr", "24 9", "22 9", "20 9", "18 9", "16 9 si", "14 9"};

std::shared_ptr<const BedMap> mapOf(const TypedBook& typed) {
    const auto map = makeBedMap(typed.document->book(), typed.request());
    EXPECT_TRUE(map.has_value()) << map.error().message;
    return map ? *map : nullptr;
}

TEST(Readout, OnAReadingSaysItsDepthItsBottomAndHowToReachIt) {
    const TypedBook typed(oneAim);
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    const auto aims = aimLines(*map, std::nullopt);
    ASSERT_EQ(aims.size(), 1U);
    EXPECT_EQ(aims[0].label, "A");
    // By hand: 26 wraps of 12 ft = 312 ft of line, tip 6 ft and depth 9 ft: drop 15 ft, so
    // sqrt(312² − 15²) = 311.64 ft on the ground.
    const Point place = placeOn(aims[0].tip, aims[0].direction, 311.64_ft);
    const PlaceReadout readout = readPlace(*map, aims, place, {});
    EXPECT_TRUE(readout.known);
    EXPECT_EQ(readout.depth, "9 ft");
    EXPECT_THAT(readout.within, HasSubstr("within about"));
    EXPECT_EQ(readout.bottom, "gravel");
    EXPECT_EQ(readout.howFar, "26 wraps");
    EXPECT_EQ(readout.direction, "on aim A");
    EXPECT_THAT(readout.line(), HasSubstr("9 ft, within about"));
    EXPECT_THAT(readout.line(), HasSubstr("26 wraps, on aim A"));
}

TEST(Readout, CountsInTheWrapsOfTheDayWhoseAimsItNames) {
    std::vector<std::string> lines{"sticks 12 ft"};
    lines.insert(lines.end(), oneAim.begin(), oneAim.end());
    lines.insert(lines.end(), {"date 2025-09-20", "sticks 13 ft", "aim B = 0", "B 24 9 gr"});
    const TypedBook typed(lines);
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    const Table<Visit>& visits = map->book->all<Visit>();
    ASSERT_EQ(visits.size(), 2U);
    // By hand, as above: 312 ft of line are 26 wraps of 12 ft, and 24 of 13 ft.
    for (const Visit& visit : visits) {
        const bool isFirst = visit.sticks->number == 12.0;
        const auto aims = aimLines(*map, visit.id);
        ASSERT_EQ(aims.size(), 1U);
        const Point place = placeOn(aims[0].tip, aims[0].direction, 311.64_ft);
        const PlaceReadout readout = readPlace(*map, aims, place, {});
        EXPECT_EQ(readout.howFar, isFirst ? "26 wraps" : "24 wraps");
        EXPECT_EQ(readout.measure, isFirst ? "a wrap is 12 ft" : "a wrap is 13 ft");
        EXPECT_EQ(readout.direction, isFirst ? "on aim A" : "on aim B");
    }
}

TEST(Readout, ThirtyYardsAsideOfOneAimNobodyKnows) {
    const TypedBook typed(oneAim);
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    const auto aims = aimLines(*map, std::nullopt);
    const Point on = placeOn(aims[0].tip, aims[0].direction, 80.0_yd);
    // The aim points north, so thirty yards aside is thirty yards east.
    const PlaceReadout readout = readPlace(*map, aims, {on.east + 30.0 * yard.si(), on.north}, {});
    EXPECT_FALSE(readout.known);
    EXPECT_EQ(readout.depth, "don't know");
    EXPECT_EQ(readout.within, "no reading near");
    EXPECT_THAT(readout.line(), HasSubstr("don't know: no reading near"));
    EXPECT_THAT(readout.line(), Not(HasSubstr("within")));
}

TEST(Aims, StandFromLeftToRightWhateverTheOrderOfEntry) {
    const TypedBook typed(
        {"aim A = 10 true", "aim B = 350 true", "aim C = 40 true", "A 28 9", "B 28 9", "C 28 9"});
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    const auto aims = aimLines(*map, std::nullopt);
    ASSERT_EQ(aims.size(), 3U);
    EXPECT_EQ(aims[0].label + aims[1].label + aims[2].label, "BAC");
}

TEST(Aims, RangeAndLineMeetOnTheBed) {
    const TypedBook typed(oneAim);
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    const auto aims = aimLines(*map, std::nullopt);
    // The same triangle as above; the bed is flat to a few centimetres, hence the tolerance.
    EXPECT_THAT(rangeFor(*map, aims[0], 312.0_ft), isWithin(2.0_cm, 311.64_ft));
    EXPECT_THAT(rangeFor(*map, aims[0], 3.0_ft), isWithin(1.0_mm, 0.0_ft));
}

TEST(Aims, ThereAreNoneWithoutCasts) {
    const TypedBook typed({});
    const auto map = mapOf(typed);
    ASSERT_NE(map, nullptr);
    EXPECT_TRUE(aimLines(*map, std::nullopt).empty());
}

} // namespace
} // namespace bedlore
