// SPDX-License-Identifier: MIT
#include "core/bed/gathered_fixes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace bedlore {
namespace {

BedDatum fix(double east, double north, double level, double noise = 0.1) {
    BedDatum datum;
    datum.recorded = {east, north};
    datum.level = level;
    datum.noise = noise;
    datum.placeSigma = 1.0;
    return datum;
}

BedDatum reading(double east, double north) {
    BedDatum datum = fix(east, north, -3.0);
    datum.thrown = ThrowGeometry{};
    return datum;
}

/// Fixes every metre over a square of `side` metres.
std::vector<BedDatum> carpet(int side) {
    std::vector<BedDatum> fixes;
    for (int i = 0; i < side; ++i) {
        for (int j = 0; j < side; ++j) {
            fixes.push_back(fix(i, j, -2.0 - 0.01 * i));
        }
    }
    return fixes;
}

TEST(GatheredFixes, LeavesAFewAsTheyAre) {
    const GatheredFixes got = gatheredFixes(carpet(10), 100);
    EXPECT_EQ(got.from, 0U);
    EXPECT_EQ(got.cell, 0.0);
    ASSERT_EQ(got.soundings.size(), 100U);
    EXPECT_EQ(got.soundings[17].level, -2.01);
}

TEST(GatheredFixes, LeavesNoMoreThanAskedOnTheSmallestSquaresThatDo) {
    const std::vector<BedDatum> many = carpet(100);
    const GatheredFixes got = gatheredFixes(many, 500);
    EXPECT_EQ(got.from, 10000U);
    EXPECT_LE(got.soundings.size(), 500U);
    // One step finer there are more than 500: the carpet is 100 m wide.
    const double finer = got.cell / std::pow(2.0, 0.25);
    EXPECT_GT(std::pow(std::floor(99.0 / finer) + 1.0, 2.0), 500.0);
}

TEST(GatheredFixes, AreMeansWeightedByWhatIsKnownOfEach) {
    // By hand: weights 100 and 25 of sigmas 0.1 and 0.2; the mean lies a fifth of the way, its
    // sigma is 1/√125 = 0.0894. Far apart in level, scatter over root says (1.0 apart, mean −3.2):
    // √((0.2² + 0.8²) / (2·1)) = 0.583.
    const GatheredFixes alike =
        gatheredFixes({fix(0.01, 0.01, -3.0, 0.1), fix(0.02, 0.01, -3.05, 0.2)}, 1);
    ASSERT_EQ(alike.soundings.size(), 1U);
    EXPECT_NEAR(alike.soundings[0].level, -3.01, 1e-12);
    EXPECT_NEAR(alike.soundings[0].recorded.east, 0.012, 1e-12);
    EXPECT_NEAR(alike.soundings[0].noise, 1.0 / std::sqrt(125.0), 1e-12);
    const GatheredFixes apart =
        gatheredFixes({fix(0.01, 0.01, -3.0, 0.1), fix(0.02, 0.01, -4.0, 0.2)}, 1);
    EXPECT_NEAR(apart.soundings[0].noise, std::sqrt((0.04 + 0.64) / 2.0), 1e-12);
}

TEST(GatheredFixes, NeverTouchHisOwnReadings) {
    std::vector<BedDatum> all = carpet(20);
    for (int i = 0; i < 30; ++i) {
        all.push_back(reading(0.01 * i, 5.0));
    }
    const GatheredFixes got = gatheredFixes(all, 100);
    EXPECT_EQ(got.from, 400U);
    EXPECT_LE(got.soundings.size(), 100U);
    EXPECT_EQ(
        std::count_if(
            got.soundings.begin(),
            got.soundings.end(),
            [](const BedDatum& datum) { return datum.thrown.has_value(); }),
        30);
}

TEST(GatheredFixes, BearPlacesBeyondAnySense) {
    const GatheredFixes got =
        gatheredFixes({fix(1e300, -1e300, -1.0), fix(0.0, 0.0, -1.0), fix(0.1, 0.0, -1.0)}, 2);
    EXPECT_EQ(got.soundings.size(), 2U);
}

} // namespace
} // namespace bedlore
