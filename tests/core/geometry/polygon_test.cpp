// SPDX-License-Identifier: MIT
#include "core/geometry/polygon.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace bedlore {
namespace {

const Ring pit{{0, 0}, {120, 10}, {150, 80}, {90, 140}, {20, 110}, {-15, 45}};

Ring turned(Ring ring) {
    std::reverse(ring.begin(), ring.end());
    return ring;
}

// Source: tests/reference/case11_polygon.csv, Boost.Geometry 1.74 and a shoelace sum in Python,
// which agree.
TEST(Polygon, AreaPerimeterAndCentroidAreThoseOfTheReference) {
    EXPECT_NEAR(signedArea(pit), 15775.0, 1e-9);
    EXPECT_NEAR(perimeter(pit), 478.8425018512795, 1e-9);
    ASSERT_TRUE(centroid(pit).has_value());
    EXPECT_NEAR(centroid(pit)->east, 66.48441627047015, 1e-9);
    EXPECT_NEAR(centroid(pit)->north, 62.707342842049655, 1e-9);
}

TEST(Polygon, TurnedRoundTheAreaChangesItsSignAndTheCentreStays) {
    EXPECT_DOUBLE_EQ(signedArea(turned(pit)), -signedArea(pit));
    EXPECT_NEAR(centroid(turned(pit))->east, centroid(pit)->east, 1e-12);
    EXPECT_TRUE(contains(turned(pit), {60, 60}));
}

TEST(Polygon, ItsHolesAreNotPartOfIt) {
    // By hand: a square of 10 m with a hole of 2 m by 2 m has 96 m².
    const Polygon lake{
        .outer = {{0, 0}, {10, 0}, {10, 10}, {0, 10}}, .holes = {{{4, 4}, {4, 6}, {6, 6}, {6, 4}}}};
    EXPECT_DOUBLE_EQ(area(lake), 96.0);
    EXPECT_TRUE(contains(lake, {3, 5}));
    EXPECT_FALSE(contains(lake, {5, 5}));
    EXPECT_FALSE(contains(lake, {10.001, 5}));
    EXPECT_FALSE(contains(lake, {std::numeric_limits<double>::quiet_NaN(), 5}));
}

TEST(Polygon, FewerThanThreeVerticesEncloseNothing) {
    for (const Ring& thin : {Ring{}, Ring{{1, 1}}, Ring{{0, 0}, {3, 4}}}) {
        EXPECT_EQ(signedArea(thin), 0.0);
        EXPECT_FALSE(centroid(thin).has_value());
        EXPECT_FALSE(contains(thin, {1, 1}));
    }
    EXPECT_FALSE(centroid(Ring{{0, 0}, {1, 1}, {2, 2}}).has_value());
}

TEST(ConvexHull, KeepsTheOutermostPlacesOnly) {
    // By hand: the square's corners; the middle and the place on a side fall out.
    const std::vector<Point> places{{0, 0}, {5, 5}, {10, 0}, {10, 10}, {0, 10}, {5, 0}, {0, 0}};
    const Ring hull = convexHull(places);
    EXPECT_EQ(hull.size(), 4U);
    EXPECT_DOUBLE_EQ(signedArea(hull), 100.0) << "anticlockwise";
    EXPECT_TRUE(contains(hull, {5, 5}));
}

TEST(ConvexHull, OfNoneOneOrCollinearPlacesIsWhatThereIs) {
    EXPECT_TRUE(convexHull({}).empty());
    const std::vector<Point> one{{3, 4}, {3, 4}};
    EXPECT_EQ(convexHull(one), (Ring{{3, 4}}));
    const std::vector<Point> line{{0, 0}, {1, 1}, {2, 2}};
    const Ring hull = convexHull(line);
    EXPECT_EQ(hull.size(), 2U);
    EXPECT_NEAR(perimeter(hull), 2.0 * std::sqrt(8.0), 1e-12);
}

} // namespace
} // namespace bedlore
