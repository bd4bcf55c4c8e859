// SPDX-License-Identifier: MIT
#include "core/bed/many_fit.hpp"
#include "core/bed/surface.hpp"
#include "tests/core/bed/made_reduction.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <stop_token>
#include <vector>

// Beds from more soundings than can be solved for at once.

namespace bedlore {
namespace {

using testing::barAndHole;
using testing::every;
using testing::MadeErrors;
using testing::MadeReduction;

constexpr double depthSigma = 0.1;

/// Fixes with errors of 0.1 m over the invented bed, 160 m each way.
MadeReduction sounded(std::size_t count, MadeErrors errors = {}) {
    MadeReduction made(barAndHole, errors);
    std::mt19937_64 random(1);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    std::normal_distribution<double> normal;
    for (std::size_t i = 0; i < count; ++i) {
        const Point p{160.0 * share(random) - 80.0, 160.0 * share(random)};
        made.fix(p, barAndHole(p) + depthSigma * normal(random), depthSigma, 0.0);
    }
    return made;
}

struct Score {
    double rmse = 0.0;
    double coverage = 0.0;
};

Score scoreOf(const BedSurface& surface) {
    Score score;
    constexpr int side = 30;
    std::vector<Point> places;
    for (int i = 0; i < side; ++i) {
        for (int j = 0; j < side; ++j) {
            places.push_back({-70.0 + 140.0 * i / side + 0.37, 10.0 + 140.0 * j / side + 0.61});
        }
    }
    const auto got = surface.at(places).value();
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double error = got[i].level - barAndHole(places[i]);
        score.rmse += error * error;
        score.coverage += std::abs(error) <= 1.96 * got[i].sigma ? 1.0 : 0.0;
    }
    const auto n = static_cast<double>(places.size());
    return {.rmse = std::sqrt(score.rmse / n), .coverage = score.coverage / n};
}

TEST(ManyFit, IsBetterWithMoreSoundingsAndKnowsIt) {
    const auto few = BedSurface::fit(sounded(2500).reduction()).value();
    const auto many = BedSurface::fit(sounded(20'000).reduction()).value();
    const Score one = scoreOf(few);
    const Score two = scoreOf(many);
    // 2,500 of them lie 3.2 m apart; each is off by 0.1 m.
    EXPECT_LT(one.rmse, 0.7 * depthSigma);
    EXPECT_LT(two.rmse, 0.7 * one.rmse);
    EXPECT_GT(one.coverage, 0.9);
    EXPECT_GT(two.coverage, 0.9);
    EXPECT_EQ(many.soundingCount(), 20'000U);
}

// The unknowns of parts and of everything at once: the errors stated for the depths are true, so
// that both find a factor of about one, and ranges and sizes of the same order.
TEST(ManyFit, FindsFromPartsWhatAFitOfAllFinds) {
    MadeReduction made = sounded(420);
    const BedParameters dense = BedSurface::fit(made.reduction()).value().parameters();
    const BedTheta theta =
        unknownsFromParts(made.reduction(), bedData(made.reduction()).soundings).value();
    EXPECT_NEAR(std::exp(theta[NoiseFactor]), dense.noiseFactor, 0.25);
    EXPECT_NEAR(theta[LongRange], std::log(dense.longRange), 0.5);
    EXPECT_NEAR(theta[LongSigma], std::log(dense.longSigma), 0.5);
}

TEST(ManyFit, IsTheSameToTheByteForAnyOrderAndAnyNumberOfThreads) {
    MadeReduction made = sounded(2600);
    Reduction shuffled = made.reduction();
    std::shuffle(shuffled.soundings.begin(), shuffled.soundings.end(), std::mt19937_64(9));
    const GridFrame frame{.west = -40.0, .north = 110.0, .cell = 2.0, .rows = 40, .columns = 40};
    const auto one = BedSurface::fit(made.reduction(), {}, {.threads = 1}).value();
    const auto two = BedSurface::fit(shuffled, {}, {.threads = 3}).value();
    const BedGrid a = one.grid(frame).value();
    const BedGrid b = two.grid(frame).value();
    EXPECT_EQ(a.level, b.level);
    EXPECT_EQ(a.sigma, b.sigma);
    EXPECT_EQ(a.known, b.known);
}

TEST(ManyFit, GridAndPlacesSayTheSame) {
    const auto surface = BedSurface::fit(sounded(2600).reduction()).value();
    const GridFrame frame{.west = -40.0, .north = 110.0, .cell = 4.0, .rows = 12, .columns = 12};
    const BedGrid grid = surface.grid(frame).value();
    for (int i = 0; i < 12; i += 3) {
        const BedEstimate got = surface.at(frame.centre(i, 11 - i));
        EXPECT_NEAR(got.level, grid.level.at(i, 11 - i), 1e-6);
        EXPECT_NEAR(got.sigma, grid.sigma.at(i, 11 - i), 1e-5);
        EXPECT_EQ(got.known, grid.known.at(i, 11 - i) != 0);
    }
    EXPECT_FALSE(surface.at(Point{-80.0, 300.0}).known);
    const GridFrame whole = surface.frameFor(1.0);
    EXPECT_NEAR(whole.west, -80.0 - surface.reach(), 2.0);
    EXPECT_NEAR(whole.north, 160.0 + surface.reach(), 2.0);
}

// His own casts among many fixes, aimed to three degrees: one that was off by four shows, since the
// fixes know the bed, and the other is left nearly as it is.
TEST(ManyFit, FindsTheAimOfACastAmongManyFixes) {
    MadeReduction made = sounded(2600, {.aimDegrees = 3.0});
    made.cast(-12.0, every(4.0, 30.0, 110.0));
    made.addCast(10.0);
    for (const double range : every(4.0, 30.0, 110.0)) {
        made.reading(10.0, range, barAndHole(made.placeAt(14.0, range)));
    }
    const auto surface = BedSurface::fit(made.reduction()).value();
    const std::vector<double> aims = surface.aimErrors();
    ASSERT_EQ(aims.size(), 2U);
    EXPECT_NEAR(aims[0] * 57.29578, 0.0, 1.0);
    EXPECT_GT(aims[1] * 57.29578, 1.5);
    EXPECT_LT(scoreOf(surface).rmse, 0.07);
}

// Own readings beyond what is solved for at once: several visits of long evenings.
TEST(ManyFit, TakesThousandsOfHisOwnReadings) {
    MadeReduction made(barAndHole);
    std::mt19937_64 random(4);
    std::normal_distribution<double> normal;
    for (int i = 0; i < 150; ++i) {
        const double aim = -35.0 + 70.0 * i / 149.0;
        made.addCast(aim);
        const double truth = aim + normal(random);
        for (const double range : every(5.0, 30.0, 110.0)) {
            made.reading(
                aim, range, barAndHole(made.placeAt(truth, range)) + depthSigma * normal(random));
        }
    }
    ASSERT_GT(made.reduction().soundings.size(), 2000U);
    const auto surface = BedSurface::fit(made.reduction()).value();
    double squares = 0.0;
    double inside = 0.0;
    double count = 0.0;
    for (double aim = -30.0; aim <= 30.0; aim += 2.3) {
        for (const double range : every(3.7, 35.0, 105.0)) {
            const Point p = made.placeAt(aim, range);
            const BedEstimate got = surface.at(p);
            const double error = got.level - barAndHole(p);
            squares += error * error;
            inside += std::abs(error) <= 1.96 * got.sigma ? 1.0 : 0.0;
            count += 1.0;
        }
    }
    EXPECT_LT(std::sqrt(squares / count), 0.1);
    EXPECT_GT(inside / count, 0.88);
}

TEST(ManyFit, LeavesOutWhatIsNoNumberAndSaysSo) {
    MadeReduction made = sounded(2100);
    made.fix({std::nan(""), 1.0}, -2.0);
    const auto surface = BedSurface::fit(made.reduction()).value();
    EXPECT_EQ(surface.soundingCount(), 2100U);
    ASSERT_FALSE(surface.notes().empty());
    EXPECT_EQ(surface.notes().front(), "1 depths without a usable place were left out.");
    Reduction nothing;
    nothing.soundings.assign(2500, made.reduction().soundings.back());
    const auto empty = BedSurface::fit(nothing).value();
    EXPECT_EQ(empty.soundingCount(), 0U);
    EXPECT_FALSE(empty.at(Point{}).known);
}

TEST(ManyFit, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    const auto got = BedSurface::fit(sounded(3000).reduction(), Progress(stop.get_token()));
    ASSERT_FALSE(got.has_value());
    EXPECT_EQ(got.error().fault, Fault::Cancelled);
}

} // namespace
} // namespace bedlore
