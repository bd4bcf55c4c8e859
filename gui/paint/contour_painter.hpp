// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/contour_labels.hpp"
#include "gui/paint/chart_painter.hpp"

#include <QFont>

#include <optional>
#include <vector>

class QPainter;

// Lines of equal depth and their numbers.

namespace bedlore {

/// Draws the contours, each broken where its number stands; numbers keep clear of `taken`.
void paintContours(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const ChartView& view,
    const QFont& font,
    const std::vector<CanvasBox>& taken);

/// The colour of what is written or drawn at a depth [m]: dark on light, light on dark.
[[nodiscard]] QColor inkAtDepth(const MapDrawing& map, const ChartStyle& style, double depth);

/// The depth [m] drawn at a place of the plane; empty where none is.
[[nodiscard]] std::optional<double> depthUnder(const MapDrawing& map, Point place);

/// What a word at a place of the plane is drawn with: ink that shows on the ground there, rimmed
/// with the ground's own colour, so that lines behind it stop short.
struct GroundInk {
    QColor ink;
    QColor ground;
};
[[nodiscard]] GroundInk groundInkAt(const MapDrawing& map, const ChartStyle& style, Point place);

} // namespace bedlore
