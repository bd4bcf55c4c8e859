// SPDX-License-Identifier: MIT
#include "core/geodesy/magnetic_model.hpp"
#include "tests/support/csv_table.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using namespace std::chrono;
using testing::CsvTable;
using testing::isWithin;

CsvTable reference(const std::string& name) {
    return testing::readCsvTable(std::string(BEDLORE_REFERENCE_DIR) + "/" + name);
}

/// Angles come to the same direction whichever way round they are written.
void expectSameDirection(Angle found, double expectedDegrees, double toleranceDegrees) {
    const Angle difference = Bearing(found) - Bearing(expectedDegrees * degree);
    EXPECT_NEAR(difference / degree, 0.0, toleranceDegrees);
}

// Source: the agencies' 100 test values of the 2025 model (NOAA NCEI and BGS; see
// tests/reference/SOURCES.md). Angles are printed to 0.01°, so half of that and a little more.
TEST(MagneticModel, MeetsTheAgenciesHundredTestValuesOf2025) {
    const CsvTable table = reference("case05_wmm2025_test_values.csv");
    ASSERT_EQ(table.rows.size(), 100U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        SCOPED_TRACE(::testing::Message() << "row " << i + 2);
        const MagneticField field = magneticFieldAt(
            {table.number(i, "lat_deg"), table.number(i, "lon_deg")},
            table.number(i, "height_km") * 1000.0 * metre,
            table.number(i, "decimal_year"));
        EXPECT_NEAR(field.north, table.number(i, "X_nT"), 0.01);
        EXPECT_NEAR(field.east, table.number(i, "Y_nT"), 0.01);
        EXPECT_NEAR(field.down, table.number(i, "Z_nT"), 0.01);
        EXPECT_NEAR(field.horizontal(), table.number(i, "H_nT"), 0.01);
        expectSameDirection(field.declination(), table.number(i, "decl_deg"), 0.006);
        EXPECT_NEAR(field.inclination() / degree, table.number(i, "incl_deg"), 0.006);
    }
}

// Source: the agencies' test values of the 2020 model, fields printed to 0.1 nT.
TEST(MagneticModel, MeetsTheAgenciesHundredTestValuesOf2020) {
    const CsvTable table = reference("case05_wmm2020_test_values.csv");
    ASSERT_EQ(table.rows.size(), 100U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        SCOPED_TRACE(::testing::Message() << "row " << i + 2);
        const MagneticField field = magneticFieldAt(
            {table.number(i, "lat"), table.number(i, "lon")},
            table.number(i, "alt_km") * 1000.0 * metre,
            table.number(i, "date"));
        EXPECT_NEAR(field.north, table.number(i, "X_nT"), 0.06);
        EXPECT_NEAR(field.east, table.number(i, "Y_nT"), 0.06);
        EXPECT_NEAR(field.down, table.number(i, "Z_nT"), 0.06);
        expectSameDirection(field.declination(), table.number(i, "D_deg"), 0.006);
    }
}

// Source: five lowland sites computed with the npm package geomagnetism 0.2.0 and by the report's
// formulas; the two agree to 1e-9 degrees (tests/reference/SOURCES.md).
TEST(MagneticModel, AgreesWithAnIndependentProgramAtLowlandSites) {
    const CsvTable table = reference("case05_wmm2025_site_values.csv");
    ASSERT_EQ(table.rows.size(), 5U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const MagneticField field = magneticFieldAt(
            {table.number(i, "lat_deg"), table.number(i, "lon_deg")},
            table.number(i, "height_km") * 1000.0 * metre,
            table.number(i, "decimal_year"));
        EXPECT_NEAR(field.declination() / degree, table.number(i, "decl_deg"), 1e-6);
        EXPECT_NEAR(field.north, table.number(i, "X_nT"), 1e-3);
    }
}

TEST(MagneticModel, ADateUsesTheModelOfItsYears) {
    const GeographicPoint place{51.1, 0.5};
    // Source: the site table's row "UK Kent": 2025.0, height 0.
    EXPECT_THAT(
        declinationAt(place, 2025y / January / 1).east, isWithin(1e-6 * degree, 1.139814 * degree));
    // Invariant: the day's share of its year; 2 July 2024 is day 183 of 366, so 2024.5.
    EXPECT_THAT(
        declinationAt(place, 2024y / July / 2).east,
        isWithin(1e-9 * degree, magneticFieldAt(place, Length{}, 2024.5).declination()));
}

TEST(MagneticModel, StatesItsOwnErrorAsTheReportDoes) {
    // Source: sqrt(0.26² + (5417/H)²) degrees, H 19743.8682 nT at "UK Kent" (site table): 5417/H
    // is 0.274364, so sqrt(0.0676 + 0.075276) = 0.37799.
    const Declination found = declinationAt({51.1, 0.5}, 2025y / January / 1);
    EXPECT_THAT(found.sigma, isWithin(0.00001 * degree, 0.37799 * degree));
    EXPECT_FALSE(found.outsideModels);
}

TEST(MagneticModel, OutsideItsYearsTheNearestModelIsHeldAndTheErrorGrowsATenthOfADegreeAYear) {
    const GeographicPoint place{52.2, -1.2};
    const Declination last = declinationAt(place, 2029y / December / 31);
    const Declination late = declinationAt(place, 2034y / January / 1);
    EXPECT_THAT(late.east, isWithin(0.001 * degree, last.east));
    EXPECT_THAT(late.sigma - last.sigma, isWithin(0.001 * degree, 0.4 * degree));
    EXPECT_TRUE(late.outsideModels);
    const Declination first = declinationAt(place, 2015y / January / 1);
    const Declination early = declinationAt(place, 2005y / January / 1);
    EXPECT_FALSE(first.outsideModels);
    EXPECT_TRUE(early.outsideModels);
    EXPECT_THAT(early.east, isWithin(1e-9 * degree, first.east));
    EXPECT_THAT(early.sigma - first.sigma, isWithin(1e-9 * degree, 1.0 * degree));
}

TEST(MagneticModel, TheModelsMeetWhereOneTakesOverFromAnother) {
    // Invariant: successive models describe one field. Their reports state an error of about 0.4°
    // in middle latitudes for each, so the step between two stays below the two together.
    for (const int year : {2020, 2025}) {
        const GeographicPoint place{52.2, -1.2};
        const MagneticField before = magneticFieldAt(place, Length{}, year - 1e-9);
        const MagneticField after = magneticFieldAt(place, Length{}, year);
        EXPECT_THAT(before.declination(), isWithin(0.6 * degree, after.declination()));
    }
}

TEST(MagneticModel, IsFiniteAtThePoles) {
    for (const double latitude : {-90.0, 90.0}) {
        const MagneticField field = magneticFieldAt({latitude, 0.0}, Length{}, 2026.0);
        EXPECT_TRUE(std::isfinite(field.north) && std::isfinite(field.east));
        // Invariant: the field is continuous, so a hundred metres off the pole it is the same.
        const MagneticField beside =
            magneticFieldAt({latitude * (1.0 - 1e-5), 0.0}, Length{}, 2026.0);
        EXPECT_NEAR(field.east, beside.east, 1.0);
        EXPECT_NEAR(field.north, beside.north, 1.0);
    }
}

} // namespace
} // namespace bedlore
