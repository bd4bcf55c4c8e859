// SPDX-License-Identifier: MIT
#include "core/geometry/polygon.hpp"

#include <boost/geometry/algorithms/area.hpp>
#include <boost/geometry/algorithms/centroid.hpp>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/covered_by.hpp>
#include <boost/geometry/algorithms/perimeter.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/ring.hpp>
#include <boost/geometry/strategies/strategies.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace bedlore {

namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using Ring = bg::model::ring<BoostPoint, true, false>;

Ring ringOf(const Polygon& polygon) {
    Ring ring;
    ring.reserve(polygon.corners.size());
    for (const Point corner : polygon.corners) {
        ring.emplace_back(corner.east, corner.north);
    }
    return ring;
}

bool encloses(const Polygon& polygon) {
    return polygon.corners.size() >= 3;
}

} // namespace

double area(const Polygon& polygon) {
    return encloses(polygon) ? std::abs(bg::area(ringOf(polygon))) : 0.0;
}

double perimeter(const Polygon& polygon) {
    return polygon.corners.size() >= 2 ? static_cast<double>(bg::perimeter(ringOf(polygon))) : 0.0;
}

std::optional<Point> centroid(const Polygon& polygon) {
    if (!(area(polygon) > 0.0)) {
        return std::nullopt;
    }
    BoostPoint centre(0.0, 0.0);
    bg::centroid(ringOf(polygon), centre);
    return Point{centre.x(), centre.y()};
}

bool contains(const Polygon& polygon, Point place) {
    return encloses(polygon) &&
           bg::covered_by(BoostPoint(place.east, place.north), ringOf(polygon));
}

Polygon convexHull(std::span<const Point> places) {
    bg::model::multi_point<BoostPoint> points;
    points.reserve(places.size());
    for (const Point place : places) {
        points.emplace_back(place.east, place.north);
    }
    Ring ring;
    if (!points.empty()) {
        bg::convex_hull(points, ring);
    }
    // One place, or two ends of a line, come back repeated.
    Polygon hull;
    for (const BoostPoint& corner : ring) {
        const Point next{corner.x(), corner.y()};
        if (std::find(hull.corners.begin(), hull.corners.end(), next) == hull.corners.end()) {
            hull.corners.push_back(next);
        }
    }
    return hull;
}

} // namespace bedlore
