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

/// The contours in one view. Numbers are placed once; painting changes nothing and asks no font
/// but for the numbers, so lines may be painted on several threads.
class PlacedContours {
public:
    PlacedContours() = default;
    PlacedContours(const MapDrawing& map, const ChartStyle& style, const ChartView& view);

    /// Numbers keep clear of `taken`.
    void placeNumbers(const QFont& font, TakenBoxes taken);

    /// Each line broken where its number stands; what lies outside `stripe` may be left out.
    void paintLines(QPainter& painter, const QRectF& stripe) const;
    void paintNumbers(QPainter& painter, const QFont& font, const QRectF& stripe) const;

private:
    /// A stretch of a line that is left out, along its length.
    struct Gap {
        double from = 0.0;
        double to = 0.0;
    };
    class BrokenLine;

    const MapDrawing* map_ = nullptr;
    const ChartStyle* style_ = nullptr;
    const ChartView* view_ = nullptr;
    std::vector<std::vector<CanvasPoint>> canvas_; ///< lines on the canvas
    std::vector<double> length_;
    std::vector<std::vector<Gap>> gaps_;
    std::vector<LabelPlace> numbers_;
};

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
