// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/chart/level_table.hpp"
#include "core/geometry/polygon.hpp"
#include "core/geometry/raster.hpp"

#include <vector>

// Lines of equal depth and the areas between them.

namespace bedlore {

/// A line of equal depth, deeper water on its left. `level` counts into the level table. A closed
/// line does not repeat its first vertex.
struct ContourLine {
    std::size_t level = 0;
    double depth = 0.0; ///< [m]
    std::vector<Point> vertices;
    bool closed = false;
    friend bool operator==(const ContourLine&, const ContourLine&) = default;
};

/// The area where the bed is between two depths [m]. The first band begins at the shallowest depth
/// and the last ends at the deepest, both as found.
struct DepthBand {
    double from = 0.0;
    double to = 0.0;
    std::vector<Polygon> areas;
    friend bool operator==(const DepthBand&, const DepthBand&) = default;
};

/// All from one surface: lines are borders of bands, bands meet without gap or overlap and together
/// are the shown area. Lines never cross.
struct Contours {
    LevelTable table;
    std::vector<ContourLine> lines;
    std::vector<DepthBand> bands;
    std::vector<Polygon> shown; ///< where the depth is given
    friend bool operator==(const Contours&, const Contours&) = default;
};

struct ContourOptions {
    /// Vertices nearer than this to the line without them are left out [cells]; less where lines
    /// run close together.
    double simplify = 0.05;
    bool bands = true; ///< else there are none: only files hold them
};

/// Contours of `depth` [m, positive down], cut where it is NaN. The surface is linear between the
/// cells' centres; a cell with a depth is shown whole, out to its edges.
/// What is given when it was stopped is not whole.
[[nodiscard]] Contours contoursOf(
    const Raster<float>& depth,
    const LevelTable& table,
    const ContourOptions& options = {},
    const Progress& progress = {});

} // namespace bedlore
