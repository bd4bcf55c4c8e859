// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"
#include "tests/core/bed/made_reduction.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <limits>

namespace bedlore {
namespace {

using bedlore::testing::barAndHole;
using bedlore::testing::every;
using bedlore::testing::fan;
using bedlore::testing::MadeErrors;
using bedlore::testing::MadeReduction;

BedSurface surfaceOf(const Reduction& reduction, int threads = 2) {
    return BedSurface::fit(reduction, {}, {.threads = threads}).value();
}

double flat(Point) {
    return -3.0;
}

TEST(BedSurface, HonoursReadingsThatAreSureOfThemselves) {
    MadeReduction made = fan({.aimDegrees = 0.01, .depth = 0.01, .line = 0.01});
    const BedSurface surface = surfaceOf(made.reduction());
    for (const Sounding& sounding : made.reduction().soundings) {
        // The readings are exact and say so to a centimetre: three of their own sigmas.
        EXPECT_NEAR(surface.at(sounding.place).level, sounding.level.aboveDatum.si(), 0.03);
    }
}

TEST(BedSurface, FindsABedBetweenItsReadings) {
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    for (const Point p : {Point{3.0, 70.0}, Point{-8.0, 71.0}, Point{20.0, 95.0}}) {
        const BedEstimate got = surface.at(p);
        EXPECT_TRUE(got.known);
        EXPECT_NEAR(got.level, barAndHole(p), 3.0 * got.sigma);
        EXPECT_LT(got.sigma, 0.4);
    }
}

TEST(BedSurface, RaisingEveryLevelRaisesTheBedAndLeavesItsError) {
    MadeReduction low = fan({.rotationDegrees = 0.3, .rangeOffset = 0.2, .level = 0.05});
    MadeReduction high = low;
    for (Sounding& sounding : high.reduction().soundings) {
        sounding.level.aboveDatum += 128.0 * metre;
    }
    const BedSurface below = surfaceOf(low.reduction());
    const BedSurface above = surfaceOf(high.reduction());
    for (const Point p : {Point{0.0, 50.0}, Point{20.0, 90.0}, Point{60.0, 60.0}}) {
        // Raising by 128 m costs seven of the levels' 53 binary digits: 1e-12 m in each reading.
        EXPECT_NEAR(above.at(p).level - below.at(p).level, 128.0, 1e-8);
        EXPECT_NEAR(above.at(p).sigma, below.at(p).sigma, 1e-8);
    }
}

TEST(BedSurface, TurningAndMovingTheWholeWaterChangesNoLevel) {
    const auto turned = [](double degrees, Point tip) {
        MadeReduction made(flat, {}, tip);
        for (int i = -3; i <= 3; ++i) {
            made.addCast(6.0 * i + degrees);
            for (const double range : every(5.0, 20.0, 110.0)) {
                const MadeReduction plain(flat);
                made.reading(6.0 * i + degrees, range, barAndHole(plain.placeAt(6.0 * i, range)));
            }
        }
        return made;
    };
    MadeReduction here = turned(0.0, {});
    MadeReduction there = turned(137.0, {4000.0, -2500.0});
    const BedSurface a = surfaceOf(here.reduction());
    const BedSurface b = surfaceOf(there.reduction());
    for (const double bearing : {-20.0, -2.0, 7.5}) {
        for (const double range : {15.0, 62.0, 120.0}) {
            const BedEstimate one = a.at(here.placeAt(bearing, range));
            const BedEstimate other = b.at(there.placeAt(bearing + 137.0, range));
            EXPECT_NEAR(one.level, other.level, 1e-6);
            EXPECT_NEAR(one.sigma, other.sigma, 1e-6);
        }
    }
}

TEST(BedSurface, IsLessSureMidwayBetweenTwoAimsThanOnThem) {
    // Depths as a float gives them, to the half foot, over a bed that falls away evenly.
    MadeReduction made(flat);
    for (const double aim : {0.0, 5.0}) {
        made.addCast(aim);
        for (const double range : every(4.0, 20.0, 110.0)) {
            const double feet = (2.0 + 0.03 * range) / foot.si();
            made.reading(aim, range, -std::round(2.0 * feet) / 2.0 * foot.si());
        }
    }
    const BedSurface surface = surfaceOf(made.reduction());
    const double range = (100.0 * yard).si();
    const double middle = surface.at(made.placeAt(2.5, range)).sigma;
    EXPECT_GT(middle, surface.at(made.placeAt(0.0, range)).sigma);
    EXPECT_GT(middle, surface.at(made.placeAt(5.0, range)).sigma);
}

TEST(BedSurface, DoesNotKnowThirtyYardsAsideOfASingleAim) {
    MadeReduction made(barAndHole);
    made.cast(0.0, every(10.0, 30.0, 100.0));
    ASSERT_EQ(made.reduction().soundings.size(), 8U);
    const BedSurface surface = surfaceOf(made.reduction());
    for (const double range : {30.0, 60.0, 90.0}) {
        EXPECT_FALSE(surface.at({(30.0 * yard).si(), range}).known);
        EXPECT_TRUE(surface.at({0.5, range}).known);
    }
}

TEST(BedSurface, KnowsAFlatBedNextToItsReadings) {
    MadeReduction made(flat);
    for (int i = -3; i <= 3; ++i) {
        made.cast(6.0 * i, every(5.0, 20.0, 110.0));
    }
    const BedSurface surface = surfaceOf(made.reduction());
    EXPECT_TRUE(surface.at({0.0, 60.0}).known);
    EXPECT_TRUE(surface.at({3.0, 60.0}).known);
    EXPECT_FALSE(surface.at({0.0, 1000.0}).known);
}

TEST(BedSurface, KnowsNothingAKilometreAway) {
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    for (const Point p : {Point{1000.0, 0.0}, Point{0.0, -1000.0}, Point{-700.0, 700.0}}) {
        EXPECT_FALSE(surface.at(p).known);
    }
}

TEST(BedSurface, KeepsAPlausibleDepthAndALargeErrorFarAway) {
    // The bed of the fan lies 1 to 4.5 m down; a drift that went on would be hundreds of metres
    // deep a kilometre out.
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    for (const Point p : {Point{1000.0, 0.0}, Point{0.0, -1000.0}, Point{-7000.0, 7000.0}}) {
        const BedEstimate got = surface.at(p);
        EXPECT_GT(got.level, -25.0);
        EXPECT_LT(got.level, 15.0);
        EXPECT_GT(got.sigma, 0.5);
        EXPECT_NEAR(got.level, -3.0, 3.0 * got.sigma);
    }
}

TEST(BedSurface, KnowsNothingWithoutReadings) {
    const BedSurface surface = surfaceOf(Reduction{});
    EXPECT_EQ(surface.soundingCount(), 0U);
    EXPECT_FALSE(surface.at(Point{}).known);
    EXPECT_EQ(surface.frameFor(1.0).size(), 0U);
    EXPECT_TRUE(surface.aimErrors().empty());
    const GridFrame frame{.west = 0.0, .north = 10.0, .cell = 1.0, .rows = 10, .columns = 10};
    const BedGrid grid = surface.grid(frame).value();
    EXPECT_EQ(std::count(grid.known.values.begin(), grid.known.values.end(), 1), 0);
}

struct Few {
    const char* name;
    std::function<void(MadeReduction&)> add;
};

class FewReadings : public ::testing::TestWithParam<Few> {};

// Nothing that a bank angler finds is deeper or higher than a dozen metres from what he read
// nearby; an error beyond that, or none at all, would be absurd.
TEST_P(FewReadings, GiveABedWithASaneError) {
    MadeReduction made(barAndHole);
    GetParam().add(made);
    const BedSurface surface = surfaceOf(made.reduction());
    double least = std::numeric_limits<double>::infinity();
    double most = -least;
    for (const Sounding& sounding : made.reduction().soundings) {
        least = std::min(least, sounding.level.aboveDatum.si());
        most = std::max(most, sounding.level.aboveDatum.si());
    }
    for (const double east : {-25.0, -10.0, 0.0, 3.0, 25.0}) {
        for (const double north : {30.0, 50.0, 60.0, 80.0}) {
            const BedEstimate got = surface.at({east, north});
            SCOPED_TRACE(
                std::to_string(east) + " " + std::to_string(north) + ": " +
                std::to_string(got.level) + " ± " + std::to_string(got.sigma));
            EXPECT_GT(got.level, least - 4.0);
            EXPECT_LT(got.level, most + 4.0);
            EXPECT_GT(got.sigma, 0.02);
            EXPECT_LT(got.sigma, 12.0);
        }
    }
    const BedEstimate onReading = surface.at(made.reduction().soundings.front().place);
    EXPECT_LT(onReading.sigma, std::max(1.5, most - least));
}

INSTANTIATE_TEST_SUITE_P(
    BedSurface,
    FewReadings,
    ::testing::Values(
        Few{"One", [](MadeReduction& m) { m.cast(0.0, {60.0}); }},
        Few{"Two",
            [](MadeReduction& m) {
                m.cast(0.0, {60.0, 50.0});
            }},
        Few{"TwoCasts", [](MadeReduction& m) { m.cast(0.0, {60.0}).cast(20.0, {50.0}); }},
        Few{"Three",
            [](MadeReduction& m) {
                m.cast(0.0, {60.0, 50.0}).cast(20.0, {50.0});
            }},
        Few{"OneAim", [](MadeReduction& m) { m.cast(0.0, every(5.0, 20.0, 80.0)); }},
        Few{"OneAimThrice",
            [](MadeReduction& m) {
                m.cast(0.0, every(8.0, 20.0, 80.0))
                    .cast(0.0, every(8.0, 20.0, 80.0))
                    .cast(0.0, every(8.0, 20.0, 80.0));
            }},
        Few{"ExactDuplicates",
            [](MadeReduction& m) {
                m.cast(0.0, {60.0, 60.0, 60.0}).cast(0.0, {60.0, 60.0}).cast(0.0, {60.0});
            }},
        Few{"Contradicting",
            [](MadeReduction& m) {
                m.addCast(0.0).reading(0.0, 60.0, -2.0).reading(0.0, 60.0, -6.0);
                m.addCast(0.0).reading(0.0, 60.0, -3.0);
            }},
        Few{"Twelve",
            [](MadeReduction& m) {
                for (const double a : {-10.0, 0.0, 10.0}) {
                    m.cast(a, {80.0, 65.0, 50.0, 35.0});
                }
            }},
        Few{"RightUnderTheTip",
            [](MadeReduction& m) {
                m.cast(0.0, {0.5, 0.0});
            }}),
    [](const auto& tested) { return std::string(tested.param.name); });

TEST(BedSurface, LeavesOutWhatIsNotANumberAndSaysSo) {
    MadeReduction made = fan();
    made.reduction().soundings[3].level = {std::nan("") * metre};
    made.reduction().soundings[5].place.east = std::numeric_limits<double>::infinity();
    const BedSurface surface = surfaceOf(made.reduction());
    EXPECT_EQ(surface.soundingCount(), made.reduction().soundings.size() - 2);
    ASSERT_EQ(surface.notes().size(), 1U);
    EXPECT_TRUE(std::isfinite(surface.at({0.0, 50.0}).level));
}

TEST(BedSurface, GivesTheSameBytesForAnyThreadsAndAnyOrder) {
    MadeReduction made = fan();
    const BedSurface one = surfaceOf(made.reduction(), 1);
    const GridFrame frame = one.frameFor(2.0);
    const BedGrid grid = one.grid(frame).value();
    std::reverse(made.reduction().soundings.begin(), made.reduction().soundings.end());
    std::swap(made.reduction().soundings[7], made.reduction().soundings[40]);
    for (const int threads : {1, 2, 4}) {
        SCOPED_TRACE(threads);
        const BedGrid other = surfaceOf(made.reduction(), threads).grid(frame).value();
        EXPECT_EQ(grid.level, other.level);
        EXPECT_EQ(grid.sigma, other.sigma);
        EXPECT_EQ(grid.known, other.known);
    }
}

TEST(BedSurface, GridAgreesWithItsPoints) {
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    const GridFrame frame = surface.frameFor(5.0);
    const BedGrid grid = surface.grid(frame).value();
    for (int row = 0; row < frame.rows; row += 3) {
        for (int column = 0; column < frame.columns; column += 3) {
            const BedEstimate point = surface.at(frame.centre(row, column));
            EXPECT_NEAR(static_cast<double>(grid.level.at(row, column)), point.level, 1e-4);
            EXPECT_NEAR(static_cast<double>(grid.sigma.at(row, column)), point.sigma, 1e-3);
        }
    }
}

TEST(BedSurface, ListAgreesWithItsPoints) {
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    std::vector<Point> places;
    for (int i = 0; i < 300; ++i) {
        places.push_back({0.2 * i - 30.0, 0.4 * i});
    }
    const auto list = surface.at(places).value();
    for (std::size_t i = 0; i < places.size(); i += 17) {
        EXPECT_NEAR(list[i].level, surface.at(places[i]).level, 1e-9);
        EXPECT_NEAR(list[i].sigma, surface.at(places[i]).sigma, 1e-9);
    }
}

TEST(BedSurface, FrameHoldsEveryKnownPlaceInWholeCells) {
    MadeReduction made = fan();
    const BedSurface surface = surfaceOf(made.reduction());
    const GridFrame frame = surface.frameFor(2.0);
    EXPECT_DOUBLE_EQ(std::remainder(frame.west, 2.0), 0.0);
    EXPECT_DOUBLE_EQ(std::remainder(frame.north, 2.0), 0.0);
    const GridFrame wider{
        .west = frame.west - 10.0,
        .north = frame.north + 10.0,
        .cell = 2.0,
        .rows = frame.rows + 10,
        .columns = frame.columns + 10};
    const BedGrid grid = surface.grid(wider).value();
    for (int row = 0; row < wider.rows; ++row) {
        for (int column = 0; column < wider.columns; ++column) {
            if (row < 5 || column < 5 || row >= wider.rows - 5 || column >= wider.columns - 5) {
                EXPECT_EQ(grid.known.at(row, column), 0);
            }
        }
    }
}

TEST(BedSurface, FindsACastThatWentWideOfItsAim) {
    // A steep side slope: a cast thrown 2° to the right of what was written reads deeper all along.
    const auto side = [](Point p) { return -3.0 - 0.15 * p.east; };
    MadeReduction made(side, {.depth = 0.05});
    for (int i = -3; i <= 3; ++i) {
        made.addCast(4.0 * i);
        for (const double range : every(5.0, 40.0, 110.0)) {
            const double thrown = 4.0 * i + (i == 0 ? 2.0 : 0.0);
            made.reading(4.0 * i, range, side(made.placeAt(thrown, range)));
        }
    }
    const std::vector<double> errors = surfaceOf(made.reduction()).aimErrors();
    ASSERT_EQ(errors.size(), 7U);
    const double found = errors[3] * 180.0 / std::numbers::pi;
    EXPECT_GT(found, 1.0);
    EXPECT_LT(found, 2.5);
    EXPECT_EQ(std::max_element(errors.begin(), errors.end()) - errors.begin(), 3);
}

TEST(BedSurface, IsStoppedAtOnce) {
    std::stop_source stop;
    stop.request_stop();
    MadeReduction made = fan();
    const auto fitted = BedSurface::fit(made.reduction(), Progress(stop.get_token()));
    ASSERT_FALSE(fitted.has_value());
    EXPECT_EQ(fitted.error().fault, Fault::Cancelled);
    const BedSurface surface = surfaceOf(made.reduction());
    const auto grid = surface.grid(surface.frameFor(1.0), Progress(stop.get_token()));
    ASSERT_FALSE(grid.has_value());
    EXPECT_EQ(grid.error().fault, Fault::Cancelled);
}

} // namespace
} // namespace bedlore
