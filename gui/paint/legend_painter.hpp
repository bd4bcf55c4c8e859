// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "gui/paint/chart_painter.hpp"

#include <QFont>
#include <QRectF>

class QPainter;

// What the signs on a map mean.

namespace bedlore {

/// Height that the legend needs at a width, in the units of `style.size`.
[[nodiscard]] double
legendHeight(const MapDrawing& map, const ChartStyle& style, const QFont& font, double width);

/// The depth colours with their depths, then a sign and its words for each row of the map's legend,
/// in as many columns as fit.
void paintLegend(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area);

} // namespace bedlore
