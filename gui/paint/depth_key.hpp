// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "gui/paint/chart_painter.hpp"

#include <QFont>
#include <QRectF>
#include <QSizeF>
#include <QString>

class QPainter;

// Which colour is which depth.

namespace bedlore {

/// "depth in feet"; empty where the map has no depth colours.
[[nodiscard]] QString depthKeyWords(const MapDrawing& map);

/// Height that the key needs, in the units of `style.size`; zero without depth colours.
[[nodiscard]] double
depthKeyHeight(const MapDrawing& map, const ChartStyle& style, const QFont& font);

/// The words, under them a bar of the colours from shallow to deep, under it the depths of as many
/// contours as have room. Nothing without depth colours.
void paintDepthKey(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area);

/// The key in one row, "5 ▭ 15 ft", for where there is no room for more. Only with depth colours.
[[nodiscard]] QSizeF
smallDepthKeySize(const MapDrawing& map, const ChartStyle& style, const QFont& font);
void paintSmallDepthKey(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area);

} // namespace bedlore
