// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <optional>
#include <span>
#include <vector>

// Closed outlines in the water's plane.

namespace bedlore {

/// Corners in order, either way round; the side from the last back to the first is meant, not
/// repeated. Sides must not cross. Fewer than three corners enclose nothing.
struct Polygon {
    std::vector<Point> corners;
    friend bool operator==(const Polygon&, const Polygon&) = default;
};

/// [m²], never negative.
[[nodiscard]] double area(const Polygon& polygon);
/// [m]
[[nodiscard]] double perimeter(const Polygon& polygon);
/// Centre of the enclosed area; empty where it encloses none.
[[nodiscard]] std::optional<Point> centroid(const Polygon& polygon);
/// Also true on a side or a corner.
[[nodiscard]] bool contains(const Polygon& polygon, Point place);

/// The smallest convex polygon around `places`, clockwise, without corners that lie on a side.
/// Fewer than three corners when all places are one or lie on a line (then its ends).
[[nodiscard]] Polygon convexHull(std::span<const Point> places);

} // namespace bedlore
