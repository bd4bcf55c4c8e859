// SPDX-License-Identifier: MIT
#include "core/chart/scale_bar.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using testing::isWithin;

TEST(ScaleBar, IsTheLongestRoundLengthThatFits) {
    // By hand: 45 yd holds 20 yd but not 50; 50 m holds 50 m; 0.7 m holds 0.5 m.
    EXPECT_EQ(scaleBarFor(45.0 * yard, Unit::Yard).label, "20 yd");
    EXPECT_THAT(scaleBarFor(45.0 * yard, Unit::Yard).length, isWithin(1e-9 * metre, 20.0 * yard));
    EXPECT_EQ(scaleBarFor(50.0 * metre, Unit::Metre).label, "50 m");
    EXPECT_EQ(scaleBarFor(50.0 * metre, Unit::Metre).parts, 5);
    EXPECT_EQ(scaleBarFor(0.7 * metre, Unit::Metre).label, "0.5 m");
    EXPECT_EQ(scaleBarFor(1999.0 * metre, Unit::Metre).label, "1000 m");
    EXPECT_EQ(scaleBarFor(12.0 * foot, Unit::Foot).label, "10 ft");
}

TEST(RoundAtMost, IsOneTwoOrFiveTimesAPowerOfTen) {
    // By hand.
    EXPECT_DOUBLE_EQ(roundAtMost(45.0), 20.0);
    EXPECT_DOUBLE_EQ(roundAtMost(50.0), 50.0);
    EXPECT_DOUBLE_EQ(roundAtMost(0.7), 0.5);
    EXPECT_DOUBLE_EQ(roundAtMost(1999.0), 1000.0);
}

TEST(ScaleBar, IsInMetresForUnitsWithoutALength) {
    EXPECT_EQ(scaleBarFor(30.0 * metre, Unit::Wrap).label, "20 m");
}

} // namespace
} // namespace bedlore
