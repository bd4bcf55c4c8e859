// SPDX-License-Identifier: MIT
#include "core/reduction/placement.hpp"
#include "tests/support/csv_table.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bedlore {
namespace {

using testing::CsvTable;
using testing::isWithin;

TEST(PlaceAt, LiesOutFromTheTipAlongTheBearing) {
    // By hand: 100 m at 30° is 50 m east and 86.6025 m north.
    const Point place = placeAt({10.0, 20.0}, PlaneBearing(30.0_deg), {100.0_m});
    EXPECT_NEAR(place.east, 60.0, 1e-9);
    EXPECT_NEAR(place.north, 106.602540378, 1e-9);
}

// Source: tests/reference/case08_polar_covariance.csv, first-order covariance of (R, bearing), also
// confirmed by simulation with 4e6 draws.
TEST(PlaceErrors, TurnedToEastAndNorthAreTheCovarianceOfAPolarPlace) {
    const CsvTable table =
        testing::readCsvTable(BEDLORE_REFERENCE_DIR "/case08_polar_covariance.csv");
    ASSERT_EQ(table.rows.size(), 4U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const double bearing = (table.number(i, "bearing_deg") * degree).si();
        const PlaceErrors errors = placeErrors(
            {.line = LineOut{table.number(i, "range_m") * metre},
             .drop = {},
             .lineSigma = table.number(i, "sigma_range_m") * metre,
             .dropSigma = {},
             .directionSigma = table.number(i, "sigma_bearing_deg") * degree});
        const double along = std::pow(errors.along.si(), 2);
        const double across = std::pow(errors.across.si(), 2);
        const double s = std::sin(bearing);
        const double c = std::cos(bearing);
        EXPECT_NEAR(errors.across.si(), table.number(i, "sigma_across"), 1e-8);
        EXPECT_NEAR(along * s * s + across * c * c, table.number(i, "var_east"), 1e-7);
        EXPECT_NEAR(along * c * c + across * s * s, table.number(i, "var_north"), 1e-7);
        EXPECT_NEAR((along - across) * s * c, table.number(i, "cov_en"), 1e-7);
    }
}

// Source: tests/reference/case08_slant_range.csv, H = √(L² − (h + d)²) and its propagated error.
TEST(PlaceErrors, ALineDownToTheBedCarriesTheErrorsOfTipAndDepth) {
    const CsvTable table = testing::readCsvTable(BEDLORE_REFERENCE_DIR "/case08_slant_range.csv");
    ASSERT_EQ(table.rows.size(), 1U);
    const double drop = table.number(0, "tip_height_above_water_m") + table.number(0, "depth_m");
    const PlaceErrors errors = placeErrors(
        {.line = LineOut{table.number(0, "line_m") * metre},
         .drop = drop * metre,
         .lineSigma = table.number(0, "u_line") * metre,
         .dropSigma = std::hypot(table.number(0, "u_height"), table.number(0, "u_depth")) * metre,
         .directionSigma = {}});
    EXPECT_THAT(errors.along, isWithin(1e-9 * metre, table.number(0, "u_horizontal") * metre));
    EXPECT_EQ(errors.across, Length{});
}

// Source: common practice, 2° at 100 yd is 3.49 yd to the side.
TEST(PlaceErrors, TwoDegreesAtAHundredYardsAreThreeAndAHalfToTheSide) {
    const PlaceErrors errors = placeErrors(
        {.line = LineOut{100.0_yd},
         .drop = {},
         .lineSigma = {},
         .dropSigma = {},
         .directionSigma = 2.0_deg});
    EXPECT_THAT(errors.across, isWithin(0.005_yd, 3.49_yd));
}

TEST(PlaceErrors, StraightBelowTheTipTheErrorIsNoLongerThanTheLine) {
    const PlaceErrors errors = placeErrors(
        {.line = LineOut{5.0000001_m},
         .drop = 5.0_m,
         .lineSigma = 0.5_m,
         .dropSigma = 0.1_m,
         .directionSigma = 1.0_deg});
    EXPECT_LE(errors.along, 5.1_m);
}

TEST(PlaceOnLine, PutsBothEndsOfAStretch) {
    PlacedReading reading;
    reading.line = LineOut{50.0_m};
    reading.lineTo = LineOut{25.0_m};
    // By hand: √(50² − 14²) = 48 and √(25² − 14²) = 20.7123 m, due north.
    ASSERT_TRUE(placeOnLine(reading, {}, PlaneBearing{}, 14.0_m));
    EXPECT_NEAR(reading.place->north, 48.0, 1e-9);
    EXPECT_NEAR(reading.placeTo->north, 20.712315177, 1e-6);
    EXPECT_THAT(reading.range->length, isWithin(1e-9 * metre, 48.0_m));
}

TEST(PlaceOnLine, ALineTooShortMovesNothing) {
    PlacedReading reading;
    reading.line = LineOut{10.0_m};
    EXPECT_FALSE(placeOnLine(reading, {}, PlaneBearing{}, 14.0_m));
    EXPECT_FALSE(reading.place.has_value());
}

} // namespace
} // namespace bedlore
