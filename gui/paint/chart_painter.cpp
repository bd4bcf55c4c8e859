// SPDX-License-Identifier: MIT
#include "gui/paint/chart_painter.hpp"

#include "core/base/contract.hpp"
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/placed_chart.hpp"

#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace bedlore {

double unitsPerMetre(const ChartView& view) {
    return std::sqrt(std::abs(view.toView.determinant()));
}

ChartView
viewOf(std::span<const Point> places, PlaneBearing up, const QRectF& window, double margin) {
    BEDLORE_EXPECTS(!places.empty());
    QTransform turned; // metres to the right and down
    turned.scale(1.0, -1.0);
    turned = turned * QTransform().rotateRadians(-(up.clockwise() / radian));
    QRectF box;
    for (const Point p : places) {
        const QPointF q = turned.map(toQt(p));
        const QRectF dot(q, QSizeF(0.0, 0.0));
        box = &p == &places.front()
                  ? dot
                  : QRectF(
                        QPointF(std::min(box.left(), q.x()), std::min(box.top(), q.y())),
                        QPointF(std::max(box.right(), q.x()), std::max(box.bottom(), q.y())));
    }
    const double free = std::min(margin, 0.45 * std::min(window.width(), window.height()));
    constexpr double least = 1.0; // [m]
    const double scale = std::min(
        (window.width() - 2.0 * free) / std::max(box.width(), least),
        (window.height() - 2.0 * free) / std::max(box.height(), least));
    const QPointF middle = window.center() - scale * box.center();
    return {
        .toView = turned * QTransform::fromScale(scale, scale) *
                  QTransform::fromTranslate(middle.x(), middle.y()),
        .window = window};
}

ChartView viewOf(const Extent& extent, PlaneBearing up, const QRectF& window, double margin) {
    const std::array<Point, 4> corners{
        {{extent.west, extent.south},
         {extent.east, extent.south},
         {extent.east, extent.north},
         {extent.west, extent.north}}};
    return viewOf(std::span<const Point>(corners), up, window, margin);
}

ChartPainter::ChartPainter(std::shared_ptr<const MapDrawing> map, const ChartStyle& style)
    : map_(std::move(map))
    , style_(style)
    , outline_(shownPath(*map_)) {
    if (style_.fill == DepthFill::Colour) {
        depth_ = DepthColours(*map_, style_.palette, style_.hillshade);
    }
}

void ChartPainter::paint(
    QPainter& painter, const ChartView& view, Detail detail, const Progress& progress) const {
    PlacedChart placed(*this, view, detail);
    placed.place();
    const QRectF wanted =
        painter.hasClipping() ? painter.clipBoundingRect() & view.window : view.window;
    if (!progress.cancelled()) {
        placed.paintGround(painter, wanted);
    }
    if (!progress.cancelled()) {
        placed.paintLinesAndSigns(painter, wanted);
    }
    if (!progress.cancelled()) {
        placed.paintWords(painter, wanted);
    }
}

} // namespace bedlore
