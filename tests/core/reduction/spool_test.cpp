// SPDX-License-Identifier: MIT
#include "core/reduction/spool.hpp"
#include "tests/support/csv_table.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace bedlore {
namespace {

using testing::CsvTable;
using testing::isWithin;

CalibrationPair pair(double turns, double metres) {
    return {.turns = turns, .distance = {metres, Unit::Metre, {}}};
}

SpoolDimensions dimensions(double diameter, double gear, double line, double traverse) {
    return {
        .fullDiameter = {diameter, Unit::Metre, {}},
        .gearRatio = gear,
        .lineDiameter = {line, Unit::Metre, {}},
        .traverse = {traverse, Unit::Metre, {}}};
}

TEST(Spool, TheFirstTurnOfAFullSpoolIsItsRoundTimesTheGear) {
    // Source: common practice, π × 70 mm × 4.6 = 1.0116 m a turn.
    const Spool spool = Spool::fromDimensions(dimensions(0.070, 4.6, 0.00035, 0.035)).value();
    EXPECT_NEAR(spool.a(), 1.0116, 0.00005);
}

// Source: the trade's table of turns over a 35 mm traverse packed to 75 % (full 70 mm, 4.6 : 1):
// line, metres out, turns counted, metres a turn there; printed to 0.1 turn and 1 mm.
TEST(Spool, TurnsOfMonoAndBraidAreThoseOfTheTradesTable) {
    struct Row {
        double line;
        double out;
        double turns;
        double perTurn;
    };
    for (const Row row :
         {Row{0.00035, 50.0, 50.0, 0.987},
          Row{0.00035, 100.0, 101.3, 0.962},
          Row{0.00035, 150.0, 154.0, 0.937},
          Row{0.00040, 150.0, 155.9, 0.912},
          Row{0.00025, 100.0, 100.1, 0.987},
          Row{0.00018, 150.0, 149.7, 0.992}}) {
        const Spool spool = Spool::fromDimensions(dimensions(0.070, 4.6, row.line, 0.035)).value();
        EXPECT_NEAR(spool.turnsFor(row.out * metre).value(), row.turns, 0.06);
        EXPECT_THAT(spool.perTurnAt(row.out * metre), isWithin(0.6_mm, row.perTurn * metre));
    }
}

// Source: case10_spool.csv and case10_spool_payout.csv, line wound layer by layer, exact at full
// layers. There the line lies in square cells, each layer one pitch deeper: a packing of π/4 on a
// traverse of one pitch for every turn of a layer, and the spool turns once for each turn.
TEST(Spool, PaysOutWhatASpoolWoundInLayersPaysOut) {
    const CsvTable spools = testing::readCsvTable(BEDLORE_REFERENCE_DIR "/case10_spool.csv");
    const CsvTable payout = testing::readCsvTable(BEDLORE_REFERENCE_DIR "/case10_spool_payout.csv");
    ASSERT_GE(payout.rows.size(), 3U);
    for (std::size_t i = 0; i < payout.rows.size(); ++i) {
        const double core = payout.number(i, "core_radius_m");
        const double pitch = payout.number(i, "layer_pitch_m");
        const double perLayer = payout.number(i, "turns_per_layer");
        const double layers = payout.number(i, "turns_on_full_spool") / perLayer;
        const double outer = core + layers * pitch;
        EXPECT_NEAR(outer, spools.number(0, "outer_radius_m"), 1e-12);
        SpoolDimensions full = dimensions(2.0 * outer, 1.0, pitch, perLayer * pitch);
        full.packing = std::numbers::pi / 4.0;
        const Spool spool = Spool::fromDimensions(full).value();
        const auto line = spool.lineOut(payout.number(i, "spool_turns_off"));
        EXPECT_THAT(line->line, isWithin(1e-9 * metre, payout.number(i, "length_off_m") * metre));
    }
}

TEST(Spool, GoesThroughMeasuredLengthsThatAgreeWithAnEmptyingSpool) {
    // By hand: D = 1.0·N − 3e-4·N² gives 49.25 m at 50 turns and 115.68 m at 120; b is the usual
    // one, so nothing pulls the fit away.
    const std::vector<CalibrationPair> pairs{pair(50, 49.25), pair(120, 115.68)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    EXPECT_NEAR(spool.a(), 1.0, 1e-9);
    EXPECT_NEAR(spool.b(), 3e-4, 1e-11);
    EXPECT_THAT(spool.lineOut(100.0)->line, isWithin(0.001_mm, 97.0_m));
}

TEST(Spool, FitAndItsErrorAreThoseOfWeightedLeastSquares) {
    // Source: numpy 1.24.2, C = inv(A'WA), θ = C A'Wy with rows (50, −2500), (120, −14400) for the
    // pairs (49 m, 114 m; sd 0.2 m) and (0, 1) for the prior (3e-4; sd 4e-4); at x = (90, −8100).
    const std::vector<CalibrationPair> pairs{pair(50, 49.0), pair(120, 114.0)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    EXPECT_NEAR(spool.a(), 1.00109882, 1e-8);
    EXPECT_NEAR(spool.b(), 4.25564014e-4, 1e-12);
    const auto line = spool.lineOut(90.0);
    EXPECT_THAT(line->line, isWithin(1e-9 * metre, 86.65182560553616 * metre));
    EXPECT_THAT(line->sigma, isWithin(1e-9 * metre, 0.17570090975456365 * metre));
}

TEST(Spool, OneMeasuredLengthIsSureThereAndUnsureElsewhere) {
    // By hand: 100 turns = 96 m, so a = 0.96 + 100 b with b = 3e-4 ± 4e-4. Half way out D = 48 +
    // 2500 b = 48.75 m ± √(0.1² + 1.0²) = 1.004988 m; at 150 turns D = 144 − 7500 b = 141.75 m ±
    // √(0.3² + 3²) = 3.014963 m.
    const std::vector<CalibrationPair> pairs{pair(100, 96.0)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    EXPECT_THAT(spool.lineOut(100.0)->line, isWithin(1e-6 * metre, 96.0_m));
    EXPECT_THAT(spool.lineOut(100.0)->sigma, isWithin(1e-6 * metre, 0.2_m));
    EXPECT_THAT(spool.lineOut(50.0)->line, isWithin(1e-6 * metre, 48.75_m));
    EXPECT_THAT(spool.lineOut(50.0)->sigma, isWithin(1e-5 * metre, 1.004988_m));
    EXPECT_THAT(spool.lineOut(150.0)->line, isWithin(1e-6 * metre, 141.75_m));
    EXPECT_THAT(spool.lineOut(150.0)->sigma, isWithin(1e-5 * metre, 3.014963_m));
}

TEST(Spool, NeverGrowsAsLineLeaves) {
    // By hand: 40 m at 50 turns and 100 m at 100 would need b = −4e-3; held at 0 the line through
    // both is a = (50·40 + 100·100)/(50² + 100²) = 0.96.
    const std::vector<CalibrationPair> pairs{pair(50, 40.0), pair(100, 100.0)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    EXPECT_EQ(spool.b(), 0.0);
    EXPECT_NEAR(spool.a(), 0.96, 1e-12);
    EXPECT_NEAR(spool.turnsFor(96.0_m).value(), 100.0, 1e-9);
}

TEST(Spool, MeasuredInWrapsAWrapIsTwelveFeet) {
    // By hand: 25 wraps of 12 ft are 91.44 m.
    const std::vector<CalibrationPair> pairs{
        {.turns = 95.0, .distance = {25.0, Unit::Wrap, "25w"}}};
    EXPECT_THAT(
        Spool::fromCalibration(pairs)->lineOut(95.0)->line, isWithin(1e-6 * metre, 91.44_m));
}

TEST(Spool, TurnsAndLineLeadBackToEachOther) {
    const std::vector<CalibrationPair> pairs{pair(50, 49.0), pair(120, 114.0)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    for (const double turns : {0.0, 0.5, 33.0, 120.0, 400.0}) {
        EXPECT_NEAR(spool.turnsFor(spool.lineOut(turns)->line).value(), turns, 1e-9);
    }
}

TEST(Spool, RefusesWhatItsCurveCannotGive) {
    // By hand: a = 1, b = 3e-4, so the curve turns at a/2b = 1666.67 turns, a²/4b = 833.33 m.
    const std::vector<CalibrationPair> pairs{pair(50, 49.25), pair(120, 115.68)};
    const Spool spool = Spool::fromCalibration(pairs).value();
    EXPECT_TRUE(spool.lineOut(1666.0).has_value());
    EXPECT_FALSE(spool.lineOut(1667.0).has_value());
    EXPECT_FALSE(spool.lineOut(-1.0).has_value());
    EXPECT_FALSE(spool.lineOut(std::numeric_limits<double>::quiet_NaN()).has_value());
    EXPECT_TRUE(spool.turnsFor(833.0_m).has_value());
    EXPECT_FALSE(spool.turnsFor(834.0_m).has_value());
    EXPECT_EQ(spool.perTurnAt(900.0_m), Length{});
}

TEST(Spool, WithoutAUsableLengthThereIsNone) {
    EXPECT_FALSE(Spool::fromCalibration({}).has_value());
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<CalibrationPair> useless{pair(0, 50), pair(50, -1), pair(nan, 50)};
    EXPECT_FALSE(Spool::fromCalibration(useless).has_value());
    EXPECT_FALSE(Spool::fromDimensions(dimensions(0.07, 0.0, 0.00035, 0.035)).has_value());
    EXPECT_FALSE(Spool::of(Reel{}).has_value());
}

TEST(Spool, MeasuredLengthsCountBeforeDimensions) {
    // By hand: the dimensions' b is π²·4.6²·0.35²mm²/(4·0.75·35 mm) = 2.4365e-4; a measured 98 m at
    // 100 turns then makes a = 0.98 + 100 b = 1.004365, not the full spool's 1.0116.
    Reel reel{.calibration = {pair(100, 98.0)}, .spool = dimensions(0.070, 4.6, 0.00035, 0.035)};
    const Spool both = Spool::of(reel).value();
    EXPECT_NEAR(both.b(), 2.4365e-4, 1e-8);
    EXPECT_NEAR(both.a(), 1.004365, 1e-6);
    reel.calibration.clear();
    EXPECT_NEAR(Spool::of(reel)->a(), 1.0116, 0.00005);
    reel.spool.reset();
    EXPECT_FALSE(Spool::of(reel).has_value());
}

} // namespace
} // namespace bedlore
