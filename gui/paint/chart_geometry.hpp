// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"

#include <QPainterPath>
#include <QPointF>

// From the water's plane to painter paths.

namespace bedlore {

[[nodiscard]] inline QPointF toQt(Point p) {
    return {p.east, p.north};
}

/// The outline of what is shown, in metres. The steps of whole cells are drawn as a smooth line, at
/// most about half a cell from where they are.
[[nodiscard]] QPainterPath shownPath(const MapDrawing& map);

} // namespace bedlore
