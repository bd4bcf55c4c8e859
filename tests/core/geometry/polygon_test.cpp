// SPDX-License-Identifier: MIT
#include "core/geometry/polygon.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace bedlore {
namespace {

const Polygon pit{{{0, 0}, {120, 10}, {150, 80}, {90, 140}, {20, 110}, {-15, 45}}};

// Source: tests/reference/case11_polygon.csv, Boost.Geometry 1.74 and a shoelace sum in Python,
// which agree.
TEST(Polygon, AreaPerimeterAndCentroidAreThoseOfTheReference) {
    EXPECT_NEAR(area(pit), 15775.0, 1e-9);
    EXPECT_NEAR(perimeter(pit), 478.8425018512795, 1e-9);
    ASSERT_TRUE(centroid(pit).has_value());
    EXPECT_NEAR(centroid(pit)->east, 66.48441627047015, 1e-9);
    EXPECT_NEAR(centroid(pit)->north, 62.707342842049655, 1e-9);
}

TEST(Polygon, TheWayRoundDoesNotMatter) {
    Polygon turned = pit;
    std::reverse(turned.corners.begin(), turned.corners.end());
    EXPECT_DOUBLE_EQ(area(turned), area(pit));
    EXPECT_NEAR(centroid(turned)->east, centroid(pit)->east, 1e-12);
    EXPECT_TRUE(contains(turned, {60, 60}));
}

TEST(Polygon, ContainsWhatLiesInsideOnASideOrOnACorner) {
    const Polygon square{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}};
    EXPECT_TRUE(contains(square, {5, 5}));
    EXPECT_TRUE(contains(square, {0, 5}));
    EXPECT_TRUE(contains(square, {10, 10}));
    EXPECT_FALSE(contains(square, {10.001, 5}));
    EXPECT_FALSE(contains(square, {std::numeric_limits<double>::quiet_NaN(), 5}));
}

TEST(Polygon, FewerThanThreeCornersEncloseNothing) {
    for (const Polygon& thin : {Polygon{}, Polygon{{{1, 1}}}, Polygon{{{0, 0}, {3, 4}}}}) {
        EXPECT_EQ(area(thin), 0.0);
        EXPECT_FALSE(centroid(thin).has_value());
        EXPECT_FALSE(contains(thin, {1, 1}));
    }
    EXPECT_FALSE(centroid(Polygon{{{0, 0}, {1, 1}, {2, 2}}}).has_value());
}

TEST(ConvexHull, KeepsTheOutermostPlacesOnly) {
    // By hand: the square's corners; the middle and the place on a side fall out.
    const std::vector<Point> places{{0, 0}, {5, 5}, {10, 0}, {10, 10}, {0, 10}, {5, 0}, {0, 0}};
    const Polygon hull = convexHull(places);
    EXPECT_EQ(hull.corners.size(), 4U);
    EXPECT_DOUBLE_EQ(area(hull), 100.0);
    for (const Point place : places) {
        EXPECT_TRUE(contains(hull, place));
    }
}

TEST(ConvexHull, OfNoneOneOrCollinearPlacesIsWhatThereIs) {
    EXPECT_TRUE(convexHull({}).corners.empty());
    const std::vector<Point> one{{3, 4}, {3, 4}};
    EXPECT_EQ(convexHull(one), (Polygon{{{3, 4}}}));
    const std::vector<Point> line{{0, 0}, {1, 1}, {2, 2}};
    const Polygon hull = convexHull(line);
    EXPECT_EQ(hull.corners.size(), 2U);
    EXPECT_NEAR(perimeter(hull), 2.0 * std::sqrt(8.0), 1e-12);
}

} // namespace
} // namespace bedlore
