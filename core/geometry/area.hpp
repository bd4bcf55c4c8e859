// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <cstddef>
#include <vector>

// Areas with holes in the water's plane.

namespace bedlore {

/// A closed line; the last vertex joins the first and is not repeated.
using Ring = std::vector<Point>;

/// An area with holes. `outer` runs anticlockwise, `holes` clockwise (the right-hand rule of RFC
/// 7946).
struct Area {
    Ring outer;
    std::vector<Ring> holes;
    friend bool operator==(const Area&, const Area&) = default;
};

/// Smallest rectangle along the plane's axes.
struct Extent {
    double west = 0.0;
    double south = 0.0;
    double east = 0.0;
    double north = 0.0;

    [[nodiscard]] double width() const { return east - west; }
    [[nodiscard]] double height() const { return north - south; }
    [[nodiscard]] Point centre() const { return {0.5 * (west + east), 0.5 * (south + north)}; }
    friend bool operator==(const Extent&, const Extent&) = default;
};

/// [m²], positive where the ring runs anticlockwise.
[[nodiscard]] inline double signedArea(const Ring& ring) {
    double twice = 0.0;
    for (std::size_t i = 0, before = ring.size() - 1; i < ring.size(); before = i++) {
        // From the first vertex, so that coordinates far from zero cost no digits.
        const double ax = ring[before].east - ring[0].east;
        const double ay = ring[before].north - ring[0].north;
        const double bx = ring[i].east - ring[0].east;
        const double by = ring[i].north - ring[0].north;
        twice += ax * by - bx * ay;
    }
    return 0.5 * twice;
}

/// [m²], holes taken out.
[[nodiscard]] inline double squareMetres(const Area& area) {
    double sum = signedArea(area.outer);
    for (const Ring& hole : area.holes) {
        sum += signedArea(hole);
    }
    return sum;
}

/// Even-odd rule; a point on the line itself may count either way.
[[nodiscard]] inline bool contains(const Ring& ring, Point p) {
    bool inside = false;
    for (std::size_t i = 0, before = ring.size() - 1; i < ring.size(); before = i++) {
        const Point a = ring[before];
        const Point b = ring[i];
        if ((a.north > p.north) != (b.north > p.north) &&
            p.east < a.east + (b.east - a.east) * (p.north - a.north) / (b.north - a.north)) {
            inside = !inside;
        }
    }
    return inside;
}

[[nodiscard]] inline bool contains(const Area& area, Point p) {
    if (!contains(area.outer, p)) {
        return false;
    }
    for (const Ring& hole : area.holes) {
        if (contains(hole, p)) {
            return false;
        }
    }
    return true;
}

} // namespace bedlore
