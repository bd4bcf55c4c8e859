// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/level_table.hpp"
#include "core/geometry/polygon.hpp"
#include "core/geometry/raster.hpp"

#include <cstddef>
#include <vector>

// The raw lines of equal depth and the outline of the known cells, joined where they meet. Only
// `contours.cpp` needs this.

namespace bedlore::detail {

/// Depths nearer than this to a level are taken this much deeper than it [m]: far below what a pen
/// or a file shows, and no line runs through a node of the mesh, where it could touch others.
inline constexpr double levelClearance = 1e-5;

/// A line as traced, a vertex wherever it crosses an edge of the mesh; deeper water on its left.
struct TracedLine {
    std::size_t level = 0;
    bool closed = false;
    std::vector<Point> vertices;
};

/// Where a line begins or ends on an outline, at vertex `at` of the loop.
struct OutlineStop {
    std::size_t at = 0;
    std::size_t line = 0;
    bool lineBegins = false;
};

/// One loop of the known cells' outline, known cells on its left: anticlockwise round an area,
/// clockwise round a hole. Has a vertex at each corner and each stop. `band` counts the levels that
/// are shallower than the bed at its beginning.
struct OutlineLoop {
    Ring vertices;
    std::vector<OutlineStop> stops;
    std::size_t band = 0;
};

struct TracedContours {
    std::vector<TracedLine> lines;
    std::vector<OutlineLoop> outline;
};

/// Each known cell is a fan of eight triangles round its centre, reaching to the middles of its
/// sides and to its corners, where the depth is the mean of the known cells that meet. On triangles
/// no line of equal depth is ambiguous, and lines of two levels cannot cross.
[[nodiscard]] TracedContours
traceContours(const Raster<float>& depth, const std::vector<ContourLevel>& levels);

} // namespace bedlore::detail
