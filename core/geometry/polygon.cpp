// SPDX-License-Identifier: MIT
#include "core/geometry/polygon.hpp"

#include <boost/geometry/algorithms/centroid.hpp>
#include <boost/geometry/algorithms/convex_hull.hpp>
#include <boost/geometry/algorithms/perimeter.hpp>
#include <boost/geometry/geometries/multi_point.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/ring.hpp>
#include <boost/geometry/strategies/strategies.hpp>

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

namespace bg = boost::geometry;
using BoostPoint = bg::model::d2::point_xy<double>;
using BoostRing = bg::model::ring<BoostPoint, false, false>; // anticlockwise, not repeated

BoostRing boostRing(const Ring& ring) {
    BoostRing result;
    result.reserve(ring.size());
    for (const Point vertex : ring) {
        result.emplace_back(vertex.east, vertex.north);
    }
    return result;
}

} // namespace

double perimeter(const Ring& ring) {
    return ring.size() >= 2 ? static_cast<double>(bg::perimeter(boostRing(ring))) : 0.0;
}

std::optional<Point> centroid(const Ring& ring) {
    if (ring.size() < 3 || !(std::abs(signedArea(ring)) > 0.0)) {
        return std::nullopt;
    }
    BoostPoint centre(0.0, 0.0);
    bg::centroid(boostRing(ring), centre);
    return Point{centre.x(), centre.y()};
}

Ring convexHull(std::span<const Point> places) {
    bg::model::multi_point<BoostPoint> points;
    points.reserve(places.size());
    for (const Point place : places) {
        points.emplace_back(place.east, place.north);
    }
    BoostRing found;
    if (!points.empty()) {
        bg::convex_hull(points, found);
    }
    // One place, or the two ends of a line, come back repeated.
    Ring hull;
    for (const BoostPoint& vertex : found) {
        const Point next{vertex.x(), vertex.y()};
        if (std::find(hull.begin(), hull.end(), next) == hull.end()) {
            hull.push_back(next);
        }
    }
    return hull;
}

} // namespace bedlore
