// SPDX-License-Identifier: MIT
#include "core/reduction/range_over_bed.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bedlore {
namespace {

TEST(RangeOverBed, OfALevelBedIsThatOfATriangle) {
    // By hand: 3, 4, 5.
    const auto drop = [](Length) { return 3.0 * metre; };
    EXPECT_DOUBLE_EQ(rangeOverBed(5.0 * metre, drop) / metre, 4.0);
}

TEST(RangeOverBed, OfASlopeIsWhereLineAndBedMeet) {
    // By hand: a drop of 3 m and a twentieth of the range; at 60 m it is 6 m.
    const auto drop = [](Length range) { return 3.0 * metre + 0.05 * range; };
    const Length line = std::sqrt(60.0 * 60.0 + 6.0 * 6.0) * metre;
    EXPECT_NEAR(rangeOverBed(line, drop) / metre, 60.0, 0.01);
}

TEST(RangeOverBed, IsNothingWhereTheLineIsShorterThanTheDrop) {
    const auto drop = [](Length) { return 3.0 * metre; };
    EXPECT_EQ(rangeOverBed(2.0 * metre, drop), Length{});
    EXPECT_EQ(rangeOverBed(3.0 * metre, drop), Length{});
}

} // namespace
} // namespace bedlore
