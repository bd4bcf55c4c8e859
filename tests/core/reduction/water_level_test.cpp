// SPDX-License-Identifier: MIT
#include "core/reduction/water_level.hpp"
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace bedlore {
namespace {

using testing::isWithin;
using testing::m;

const LevelReference steps{
    .words = "steps showing",
    .stepHeight = Entered{18.0, Unit::Centimetre, "18 cm"},
    .counts = LevelCounts::DownWithWater};

TEST(WaterLevel, MetresAreAboveTheZeroWhateverTheReferenceCounts) {
    const auto level = measuredLevel(m(0.35), steps);
    ASSERT_TRUE(level.has_value());
    EXPECT_THAT(level->level.aboveDatum, isWithin(1e-12 * metre, 0.35_m));
    EXPECT_THAT(level->sigma, isWithin(1e-12 * metre, 0.02_m));
}

TEST(WaterLevel, MoreStepsShowingIsLessWater) {
    // By hand: two steps of 18 cm out of the water are 0.36 m below none.
    const auto level = measuredLevel({2.0, Unit::Step, "2 steps"}, steps);
    ASSERT_TRUE(level.has_value());
    EXPECT_THAT(level->level.aboveDatum, isWithin(1e-12 * metre, -0.36_m));
    EXPECT_THAT(level->sigma, isWithin(1e-12 * metre, 0.05_m));
}

TEST(WaterLevel, StepsThatRiseWithTheWaterCountUp) {
    LevelReference gauge = steps;
    gauge.counts = LevelCounts::UpWithWater;
    const auto level = measuredLevel({2.0, Unit::Step, "2 steps"}, gauge);
    EXPECT_THAT(level->level.aboveDatum, isWithin(1e-12 * metre, 0.36_m));
}

TEST(WaterLevel, StepsWithoutAHeightSayNothing) {
    EXPECT_FALSE(measuredLevel({2.0, Unit::Step, "2 steps"}, LevelReference{}).has_value());
    EXPECT_FALSE(measuredLevel(m(std::numeric_limits<double>::quiet_NaN()), steps).has_value());
    EXPECT_FALSE(measuredLevel({2.0, Unit::Wrap, "2w"}, steps).has_value());
}

} // namespace
} // namespace bedlore
