// SPDX-License-Identifier: MIT
#include "core/bed/live_bed.hpp"
#include "tests/core/bed/made_reduction.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace bedlore {
namespace {

using testing::barAndHole;
using testing::every;
using testing::fan;
using testing::MadeReduction;

/// The fan of every test with all the errors that readings can share.
MadeReduction sharedFan() {
    return fan(
        {.rotationDegrees = 0.3,
         .rangeScale = 0.01,
         .rangeOffset = 0.2,
         .level = 0.05,
         .swimPlace = 0.5});
}

/// Fitted once: every test begins there.
const BedSurface& fittedFan() {
    static const BedSurface surface =
        BedSurface::fit(sharedFan().reduction(), {}, {.threads = 2}).value();
    return surface;
}

struct Started {
    const BedSurface& surface = fittedFan();
    GridFrame frame = surface.frameFor(1.5);
    LiveBed bed = LiveBed::over(surface, sharedFan().reduction(), frame, {.threads = 2}).value();
};

/// Largest differences of level and error where both know the bed, and the number of cells that one
/// knows and the other does not.
struct Difference {
    double level = 0.0;
    double sigma = 0.0;
    int known = 0;
};

Difference between(const BedGrid& a, const BedGrid& b) {
    Difference most;
    for (std::size_t i = 0; i < a.level.values.size(); ++i) {
        const auto apart = [](float x, float y) { return std::abs(static_cast<double>(x - y)); };
        most.known += a.known.values[i] != b.known.values[i] ? 1 : 0;
        if (a.known.values[i] != 0 && b.known.values[i] != 0) {
            most.level = std::max(most.level, apart(a.level.values[i], b.level.values[i]));
            most.sigma = std::max(most.sigma, apart(a.sigma.values[i], b.sigma.values[i]));
        }
    }
    return most;
}

void expectAsSolvedAnew(const LiveBed& bed, const GridFrame& frame) {
    const auto surface = bed.surface();
    ASSERT_TRUE(surface) << surface.error().message;
    const Difference most = between(bed.grid(), surface->grid(frame).value());
    // Both carry float covariances of a few m²; errors near a reading are roots of small
    // differences of those, hence the wider bound on them.
    EXPECT_LE(most.level, 2e-4);
    EXPECT_LE(most.sigma, 2e-3);
    EXPECT_LE(most.known, 2) << "cells at the very limit";
}

TEST(LiveBed, BeginsAsTheFitHasIt) {
    const Started started;
    const Difference most =
        between(started.bed.grid(), started.surface.grid(started.frame).value());
    EXPECT_LE(most.level, 2e-4);
    EXPECT_LE(most.sigma, 2e-3);
    EXPECT_LE(most.known, 2);
}

TEST(LiveBed, FollowsAReadingMoreOnACastThatIsThere) {
    MadeReduction made = sharedFan();
    Started started;
    made.reading(18.0, 52.0, barAndHole(made.placeAt(18.0, 52.0)) + 0.3);
    ASSERT_TRUE(started.bed.follow(made.reduction()));
    EXPECT_EQ(started.bed.soundingCount(), started.surface.soundingCount() + 1);
    expectAsSolvedAnew(started.bed, started.frame);
}

TEST(LiveBed, FollowsANewCastWithAnAimOfItsOwn) {
    MadeReduction made = sharedFan();
    Started started;
    made.cast(3.0, {85.0, 60.0});
    ASSERT_TRUE(started.bed.follow(made.reduction()));
    expectAsSolvedAnew(started.bed, started.frame);
}

TEST(LiveBed, FollowsAReadingTakenOutAndOneChanged) {
    MadeReduction made = sharedFan();
    Started started;
    Reduction changed = made.reduction();
    changed.soundings.erase(changed.soundings.begin() + 40);
    changed.soundings[7].level.aboveDatum += 0.5 * metre;
    ASSERT_TRUE(started.bed.follow(changed));
    EXPECT_EQ(started.bed.soundingCount(), started.surface.soundingCount() - 1);
    expectAsSolvedAnew(started.bed, started.frame);
}

TEST(LiveBed, EndsWhereItBeganWhenAChangeIsUndone) {
    MadeReduction made = sharedFan();
    const Reduction before = made.reduction();
    Started started;
    const BedGrid first = started.bed.grid();
    made.reading(18.0, 52.0, -2.0);
    ASSERT_TRUE(started.bed.follow(made.reduction()));
    EXPECT_GT(between(first, started.bed.grid()).level, 0.01);
    ASSERT_TRUE(started.bed.follow(before));
    EXPECT_LE(between(first, started.bed.grid()).level, 1e-4);
}

TEST(LiveBed, TwoHundredRandomChangesEndAsSolvedAnew) {
    MadeReduction made = sharedFan();
    Started started;
    const Reduction whole = made.reduction();
    Reduction now = whole;
    std::mt19937 random(3);
    std::normal_distribution<double> slip(0.0, 0.2);
    for (int change = 0; change < 200; ++change) {
        const std::size_t at = random() % now.soundings.size();
        switch (random() % 3) {
        case 0:
            now.soundings[at].level.aboveDatum += slip(random) * metre;
            break;
        case 1:
            if (now.soundings.size() > 100) {
                now.soundings.erase(now.soundings.begin() + static_cast<std::ptrdiff_t>(at));
            }
            break;
        default:
            now.soundings.push_back(whole.soundings[random() % whole.soundings.size()]);
            now.soundings.back().level.aboveDatum += slip(random) * metre;
        }
        ASSERT_TRUE(started.bed.follow(now)) << change;
    }
    expectAsSolvedAnew(started.bed, started.frame);
}

TEST(LiveBed, LeavesAWholePageOrAPlaceBeyondItsFrameToAFit) {
    MadeReduction made = sharedFan();
    made.cast(27.0, every(5.0, 20.0, 110.0));
    EXPECT_FALSE(Started().bed.follow(made.reduction()));
    MadeReduction far = sharedFan();
    far.cast(0.0, {190.0});
    EXPECT_FALSE(Started().bed.follow(far.reduction()));
}

TEST(LiveBed, LeavesAChangedErrorOfAVisitToAFit) {
    MadeReduction made = sharedFan();
    Started started;
    Reduction surer = made.reduction();
    surer.visits[0].rotationSigma = 0.1_deg;
    EXPECT_FALSE(started.bed.follow(surer));
}

TEST(LiveBed, IsNotForAFewReadings) {
    MadeReduction made(barAndHole);
    made.cast(0.0, every(10.0, 20.0, 110.0));
    const BedSurface surface = BedSurface::fit(made.reduction()).value();
    EXPECT_FALSE(LiveBed::over(surface, made.reduction(), surface.frameFor(2.0)));
    const BedSurface none = BedSurface::fit(Reduction{}).value();
    EXPECT_FALSE(LiveBed::over(none, Reduction{}, none.frameFor(2.0)));
}

} // namespace
} // namespace bedlore
