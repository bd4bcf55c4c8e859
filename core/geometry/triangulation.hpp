// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <memory>
#include <optional>
#include <span>
#include <vector>

// Straight facets between measured places: the plainest surface there is.

namespace bedlore {

/// Linear interpolation of values at scattered places on their Delaunay triangulation. Values at
/// one and the same place are averaged. A value; copies share the triangles. Safe to use from
/// several threads at once. Source: Delaunay (1934), by GDAL's triangulation.
class TriangulatedSurface {
public:
    /// `places` [m] and `values` of equal length. Without three places that span a triangle it is
    /// empty and knows no value anywhere. NaN and infinite places or values are left out.
    TriangulatedSurface(std::span<const Point> places, std::span<const double> values);

    [[nodiscard]] bool empty() const { return triangles_ == nullptr; }

    /// None outside the hull of the places.
    [[nodiscard]] std::optional<double> at(Point place) const;
    /// The same for many places: fast when neighbours in the list are neighbours on the plane.
    [[nodiscard]] std::vector<std::optional<double>> at(std::span<const Point> places) const;

private:
    class Triangles;
    std::shared_ptr<const Triangles> triangles_;
};

} // namespace bedlore
