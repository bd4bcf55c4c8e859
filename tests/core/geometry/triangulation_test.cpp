// SPDX-License-Identifier: MIT
#include "core/geometry/triangulation.hpp"
#include "tests/support/csv_table.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace bedlore {
namespace {

using testing::CsvTable;

CsvTable reference(const std::string& name) {
    return testing::readCsvTable(std::string(BEDLORE_REFERENCE_DIR) + "/" + name);
}

TriangulatedSurface frankeSurface() {
    const CsvTable table = reference("case03_franke_ds1_points.csv");
    std::vector<Point> places;
    std::vector<double> values;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        places.push_back({table.number(i, "x"), table.number(i, "y")});
        values.push_back(table.number(i, "z"));
    }
    return {places, values};
}

// Source: Franke's data set 1 (Franke 1979) with scipy 1.10.1, LinearNDInterpolator.
TEST(TriangulatedSurface, AgreesWithAnIndependentProgramOnFrankesPoints) {
    const TriangulatedSurface surface = frankeSurface();
    const CsvTable table = reference("case03_franke_interpolation_expected.csv");
    ASSERT_EQ(table.rows.size(), 15U);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const auto value = surface.at({table.number(i, "x"), table.number(i, "y")});
        ASSERT_TRUE(value.has_value());
        EXPECT_NEAR(*value, table.number(i, "linear_tin_scipy"), 1e-9);
    }
}

/// Source: Franke (1979), NPS-53-79-003.
double franke(double x, double y) {
    const auto square = [](double v) { return v * v; };
    return 0.75 * std::exp(-(square(9 * x - 2) + square(9 * y - 2)) / 4) +
           0.75 * std::exp(-square(9 * x + 1) / 49 - (9 * y + 1) / 10) +
           0.5 * std::exp(-(square(9 * x - 7) + square(9 * y - 3)) / 4) -
           0.2 * std::exp(-square(9 * x - 4) - square(9 * y - 7));
}

// Source: the row `linear` of case03_franke_rms_33x33.csv: 1076 nodes in the hull, error
// 0.029006354.
TEST(TriangulatedSurface, HasTheKnownErrorOverFrankesSquare) {
    const TriangulatedSurface surface = frankeSurface();
    std::vector<Point> nodes;
    for (int row = 0; row <= 32; ++row) {
        for (int column = 0; column <= 32; ++column) {
            nodes.push_back({column / 32.0, row / 32.0});
        }
    }
    double squares = 0.0;
    int inside = 0;
    const auto values = surface.at(nodes);
    for (std::size_t i = 0; i < nodes.size(); ++i) {
        if (values[i]) {
            ++inside;
            squares += std::pow(*values[i] - franke(nodes[i].east, nodes[i].north), 2);
        }
    }
    EXPECT_EQ(inside, 1076);
    EXPECT_NEAR(std::sqrt(squares / inside), 0.029006354, 1e-9);
}

TEST(TriangulatedSurface, IsExactOnAPlaneFarFromTheOrigin) {
    // By hand: values 2 + x/10 - y/20 about (400000, 5700000), which any triangles reproduce.
    const Point corner{400000.0, 5700000.0};
    std::vector<Point> places;
    std::vector<double> values;
    for (const Point offset :
         {Point{0, 0}, Point{50, 3}, Point{20, 40}, Point{55, 60}, Point{30, 20}}) {
        places.push_back({corner.east + offset.east, corner.north + offset.north});
        values.push_back(2.0 + offset.east / 10.0 - offset.north / 20.0);
    }
    const TriangulatedSurface surface(places, values);
    const auto value = surface.at({corner.east + 31.0, corner.north + 25.0});
    ASSERT_TRUE(value.has_value());
    EXPECT_NEAR(*value, 2.0 + 3.1 - 1.25, 1e-9);
    EXPECT_FALSE(surface.at({corner.east - 1.0, corner.north}).has_value());
}

TEST(TriangulatedSurface, OfNoneTwoOrCollinearPlacesKnowsNothing) {
    const std::vector<Point> places{{0, 0}, {1, 1}, {2, 2}, {3, 3}};
    const std::vector<double> values{1, 2, 3, 4};
    for (const std::size_t count : {0U, 1U, 2U, 4U}) {
        const std::span<const Point> firstPlaces(places.data(), count);
        const std::span<const double> firstValues(values.data(), count);
        const TriangulatedSurface surface(firstPlaces, firstValues);
        EXPECT_FALSE(surface.at({1, 1}).has_value());
        EXPECT_EQ(surface.at(places).size(), places.size());
    }
}

TEST(TriangulatedSurface, AveragesValuesAtOnePlaceAndLeavesOutWhatIsNoNumber) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<Point> places{{0, 0}, {10, 0}, {0, 10}, {0, 0}, {nan, 1}, {3, 3}};
    const std::vector<double> values{1, 1, 1, 3, 50, nan};
    const TriangulatedSurface surface(places, values);
    // By hand: (1 + 3) / 2 at the corner; half way to a corner of 1 it is 1.5.
    EXPECT_NEAR(surface.at({0, 0}).value(), 2.0, 1e-12);
    EXPECT_NEAR(surface.at({5, 0}).value(), 1.5, 1e-12);
    EXPECT_FALSE(surface.at({nan, 0}).has_value());
}

} // namespace
} // namespace bedlore
