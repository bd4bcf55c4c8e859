// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sqlite_database.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

// Points and lines as a GeoPackage stores them.
// Source: OGC 12-128r14, GeoPackage Encoding Standard 1.2, section 2.1.3 and annex F.3.

namespace bedlore {

/// In the units of the layer's system: longitude and latitude [°], or metres east and north.
struct LayerPoint {
    double x = 0.0;
    double y = 0.0;
    friend bool operator==(const LayerPoint&, const LayerPoint&) = default;
};

struct LayerBox {
    double minX = 0.0;
    double minY = 0.0;
    double maxX = 0.0;
    double maxY = 0.0;
    friend bool operator==(const LayerBox&, const LayerBox&) = default;

    /// Grows to take `point` in.
    void add(LayerPoint point);
};

[[nodiscard]] std::vector<std::byte> encodePoint(int srsId, LayerPoint point);
[[nodiscard]] std::vector<std::byte> encodeLine(int srsId, std::span<const LayerPoint> line);

/// The bounds of a stored geometry: from its header, or from a point itself. None for an empty one,
/// for what is not a geometry, and for other kinds without bounds in their header.
[[nodiscard]] std::optional<LayerBox> boundsOf(std::span<const std::byte> geometry);

/// Gives the connection the functions ST_IsEmpty, ST_MinX, ST_MaxX, ST_MinY and ST_MaxY, which the
/// spatial index that a GIS adds to a layer calls whenever a row is written.
[[nodiscard]] Result<void> registerSpatialFunctions(Database& database);

} // namespace bedlore
