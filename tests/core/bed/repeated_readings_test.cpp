// SPDX-License-Identifier: MIT
#include "core/bed/repeated_readings.hpp"
#include "core/bed/surface.hpp"
#include "tests/core/bed/made_reduction.hpp"
#include "tests/support/chance.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bedlore {
namespace {

using bedlore::testing::barAndHole;
using bedlore::testing::Chance;
using bedlore::testing::every;
using bedlore::testing::MadeErrors;
using bedlore::testing::MadeReduction;

/// A fan read as a careful man reads it, to the half foot. `luck` draws his errors.
void addFan(MadeReduction& made, std::size_t visit, std::uint64_t luck, double step = 5.0) {
    Chance chance(luck);
    for (int i = -3; i <= 3; ++i) {
        made.addCast(6.0 * i);
        made.reduction().casts.back().visit = visit;
        const double aim = 6.0 * i + chance.error(1.0);
        for (const double range : every(step, 20.0, 110.0)) {
            const Point lead = made.placeAt(aim, range + chance.error(0.35));
            const double depth = chance.error(0.1) - barAndHole(lead);
            made.reading(6.0 * i, range, -std::round(depth / 0.1524) * 0.1524);
        }
    }
}

/// Another day at the same swim, of which no level is said.
void addVisit(MadeReduction& made) {
    ReducedVisit visit = made.reduction().visits.front();
    visit.visit = {static_cast<std::int64_t>(made.reduction().visits.size()) + 1};
    visit.levelSigma = 0.3 * metre;
    made.reduction().visits.push_back(visit);
}

MadeReduction oneDay(double step) {
    MadeReduction made(
        barAndHole, {.rotationDegrees = 0.3, .rangeScale = 0.003, .rangeOffset = 0.2});
    addFan(made, 0, 1, step);
    return made;
}

std::size_t toldApart(const Reduction& reduction) {
    return withoutRepeats(bedData(reduction).soundings).size();
}

TEST(RepeatedReadings, SameNumbersAgainTellNothingNew) {
    MadeReduction made = oneDay(5.0);
    const std::size_t once = toldApart(made.reduction());
    EXPECT_EQ(once, made.reduction().soundings.size());
    addVisit(made);
    addFan(made, 1, 1);
    EXPECT_EQ(toldApart(made.reduction()), once);
}

TEST(RepeatedReadings, AnotherLevelOfTheDayMakesNoOtherReading) {
    MadeReduction made(barAndHole);
    made.cast(0.0, {60.0, 50.0});
    addVisit(made);
    made.cast(0.0, {60.0, 50.0});
    made.reduction().casts.back().visit = 1;
    for (std::size_t i = 2; i < 4; ++i) {
        made.reduction().soundings[i].level.aboveDatum += 0.35 * metre;
    }
    EXPECT_EQ(toldApart(made.reduction()), 2U);
}

TEST(RepeatedReadings, WhatDiffersInAnyNumberIsKept) {
    MadeReduction made(barAndHole);
    made.addCast(0.0).reading(0.0, 60.0, -3.0);
    made.addCast(0.0).reading(0.0, 60.0, -3.0762); // a quarter of a foot deeper
    made.addCast(0.0).reading(0.0, 60.0762, -3.0); // and as much farther out
    made.addCast(1.0).reading(1.0, 60.0, -3.0);
    EXPECT_EQ(toldApart(made.reduction()), 4U);
    made.addCast(361.0).reading(361.0, 60.0, -3.0); // 1° once more
    EXPECT_EQ(toldApart(made.reduction()), 4U);
}

TEST(RepeatedReadings, DepthsFromElsewhereAreAllKept) {
    MadeReduction made(barAndHole);
    made.fix({0.0, 60.0}, -3.0).fix({0.0, 60.0}, -3.0).fix({0.0, 60.0}, -3.0);
    EXPECT_EQ(toldApart(made.reduction()), 3U);
    EXPECT_TRUE(withoutRepeats({}).empty());
}

class SameDayAgain : public ::testing::TestWithParam<double> {};

// The numbers of one day written down once more under another date, with no level: the bed is known
// wherever it was, and nowhere less well.
TEST_P(SameDayAgain, MakesTheBedNoLessKnown) {
    MadeReduction made = oneDay(GetParam());
    BedSurface before = BedSurface::fit(made.reduction()).value();
    for (std::size_t visit = 1; visit <= 2; ++visit) {
        addVisit(made);
        addFan(made, visit, 1, GetParam());
        const BedSurface after = BedSurface::fit(made.reduction()).value();
        int known = 0;
        for (const double east : every(4.0, -60.0, 60.0)) {
            for (const double north : every(4.0, 10.0, 130.0)) {
                const BedEstimate one = before.at({east, north});
                const BedEstimate two = after.at({east, north});
                SCOPED_TRACE(std::to_string(east) + " " + std::to_string(north));
                EXPECT_TRUE(two.known || !one.known);
                // The aims are bent a little anew, and the slopes with them.
                EXPECT_LE(two.sigma, 1.01 * one.sigma + 0.001);
                known += two.known ? 1 : 0;
            }
        }
        EXPECT_GT(known, 50);
        before = after;
    }
}

INSTANTIATE_TEST_SUITE_P(RepeatedReadings, SameDayAgain, ::testing::Values(5.0, 10.0, 30.0));

// Another day's own readings of the same fan do make it better known.
TEST(RepeatedReadings, AnotherDayOfTheSameFanMakesTheBedBetterKnown) {
    for (const std::uint64_t luck : {2U, 3U, 4U}) {
        SCOPED_TRACE(luck);
        MadeReduction made = oneDay(5.0);
        const BedSurface one = BedSurface::fit(made.reduction()).value();
        addVisit(made);
        addFan(made, 1, luck);
        const BedSurface two = BedSurface::fit(made.reduction()).value();
        double before = 0.0;
        double after = 0.0;
        double errorBefore = 0.0;
        double errorAfter = 0.0;
        for (const double bearing : every(3.0, -18.0, 18.0)) {
            for (const double range : every(5.0, 25.0, 105.0)) {
                const Point place = made.placeAt(bearing, range);
                before += one.at(place).sigma;
                after += two.at(place).sigma;
                errorBefore += std::pow(one.at(place).level - barAndHole(place), 2);
                errorAfter += std::pow(two.at(place).level - barAndHole(place), 2);
            }
        }
        EXPECT_LT(after, 0.95 * before);
        EXPECT_LT(errorAfter, errorBefore);
    }
}

} // namespace
} // namespace bedlore
