// SPDX-License-Identifier: MIT
#include "core/chart/level_table.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>

namespace bedlore {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<std::string> labels(const LevelTable& table) {
    std::vector<std::string> result;
    for (const ContourLevel& level : table.levels) {
        if (level.labelled) {
            result.push_back(level.label);
        }
    }
    return result;
}

TEST(LevelTable, HasALineForEachFootOfAnOrdinaryPit) {
    // By hand: 1.0 m is 3.28 ft and 4.0 m is 13.12 ft, so the whole feet between are 4 to 13.
    const LevelTable table = levelsFor(1.0, 4.0, Unit::Foot);
    EXPECT_EQ(table.unit, Unit::Foot);
    EXPECT_DOUBLE_EQ(table.step, 1.0);
    ASSERT_THAT(table.levels, SizeIs(10));
    EXPECT_NEAR(table.levels.front().depth, 4 * 0.3048, 1e-12);
    EXPECT_NEAR(table.levels.back().depth, 13 * 0.3048, 1e-12);
    EXPECT_THAT(labels(table), ElementsAre("5", "10"));
}

TEST(LevelTable, TakesQuarterMetresWhereTheyAreFewEnough) {
    // By hand: quarters strictly between 1.0 and 4.0 m are 1.25 to 3.75: 11 of them.
    const LevelTable table = levelsFor(1.0, 4.0, Unit::Metre);
    EXPECT_DOUBLE_EQ(table.step, 0.25);
    ASSERT_THAT(table.levels, SizeIs(11));
    EXPECT_THAT(labels(table), ElementsAre("2", "3"));
    EXPECT_DOUBLE_EQ(levelsFor(1.0, 9.0, Unit::Metre).step, 0.5);
    EXPECT_DOUBLE_EQ(levelsFor(0.0, 40.0, Unit::Foot).step, 10.0);
}

TEST(LevelTable, NumbersEveryLineWhereThereAreFew) {
    // By hand: 7.0 to 9.9 ft holds 8 and 9 only, neither a multiple of five.
    EXPECT_THAT(labels(levelsFor(7.0 * 0.3048, 9.9 * 0.3048, Unit::Foot)), ElementsAre("8", "9"));
    EXPECT_THAT(labels(levelsFor(2.3, 2.8, Unit::Metre)), ElementsAre("2.5", "2.75"));
}

TEST(LevelTable, GoesAboveTheWaterWhereTheBedStandsDry) {
    const LevelTable table = levelsFor(-0.6, 0.6, Unit::Metre);
    EXPECT_THAT(labels(table), ElementsAre("-0.5", "-0.25", "0", "0.25", "0.5"));
}

TEST(LevelTable, IsEmptyWithoutARange) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    EXPECT_THAT(levelsFor(2.0, 2.0, Unit::Foot).levels, IsEmpty());
    EXPECT_THAT(levelsFor(3.0, 2.0, Unit::Foot).levels, IsEmpty());
    EXPECT_THAT(levelsFor(nan, 2.0, Unit::Foot).levels, IsEmpty());
    EXPECT_THAT(levelsFor(0.0, inf, Unit::Foot).levels, IsEmpty());
    EXPECT_THAT(levelsFor(2.01, 2.02, Unit::Foot).levels, IsEmpty());
}

TEST(LevelTable, StaysShortForAnyRange) {
    for (const double deepest : {0.3, 3.0, 30.0, 300.0, 3e4, 3e9}) {
        for (const Unit unit : {Unit::Foot, Unit::Metre}) {
            EXPECT_LE(levelsFor(0.0, deepest, unit, 20).levels.size(), 20U) << deepest;
        }
    }
}

} // namespace
} // namespace bedlore
