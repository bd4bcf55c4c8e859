// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "gui/paint/theme.hpp"

#include <QImage>
#include <QTransform>

// The coloured bed as a picture.

namespace bedlore {

/// `toPlane` takes the picture's pixels to metres east (x) and north (y). Reaches two cells beyond
/// what is shown, so that it can be cut along a smooth edge. Null where nothing is shown.
struct DepthImage {
    QImage image;
    QTransform toPlane;
};

/// Depth by the ramp, in red light only for the night palette; `shaded` as if lit from the upper
/// left of a sheet with the map's own side up, by at most 12 of L*.
[[nodiscard]] DepthImage depthImageOf(const MapDrawing& map, PaletteKind palette, bool shaded);

/// The colour that the picture has at a depth [m] without shade; a bed that stands dry has the
/// palette's own.
[[nodiscard]] QColor depthColourOf(const MapDrawing& map, PaletteKind palette, double depth);

/// The depth at which the colours begin [m]: the shallowest, but not above the water.
[[nodiscard]] double firstColouredDepth(const MapDrawing& map);

} // namespace bedlore
