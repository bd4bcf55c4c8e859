// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_camera.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace bedlore {

namespace {
constexpr double smallestScale = 0.05;
constexpr double largestScale = 400.0;
} // namespace

QTransform PlanCamera::toView(const QRectF& window) const {
    const double angle = up.clockwise().si();
    const double c = scale * std::cos(angle);
    const double s = scale * std::sin(angle);
    const QPointF middle = window.center();
    const double dx = middle.x() - c * centre.east + s * centre.north;
    const double dy = middle.y() + s * centre.east + c * centre.north;
    return {c, -s, -s, -c, dx, dy};
}

QPointF PlanCamera::toView(Point place, const QRectF& window) const {
    return toView(window).map(QPointF(place.east, place.north));
}

Point PlanCamera::toPlane(QPointF position, const QRectF& window) const {
    const QPointF place = toView(window).inverted().map(position);
    return {place.x(), place.y()};
}

void PlanCamera::pan(QPointF pixels) {
    const double angle = up.clockwise().si();
    const double right = -pixels.x() / scale;
    const double upward = pixels.y() / scale;
    centre.east += right * std::cos(angle) + upward * std::sin(angle);
    centre.north += -right * std::sin(angle) + upward * std::cos(angle);
}

void PlanCamera::zoom(double factor, QPointF position, const QRectF& window) {
    const Point before = toPlane(position, window);
    scale = std::clamp(scale * factor, smallestScale, largestScale);
    const Point after = toPlane(position, window);
    centre.east += before.east - after.east;
    centre.north += before.north - after.north;
}

void PlanCamera::turn(Angle clockwise) {
    up = up - clockwise;
}

PlanCamera cameraFor(const Extent& extent, PlaneBearing up, const QRectF& window, double margin) {
    PlanCamera camera;
    camera.up = up;
    camera.scale = 1.0;
    camera.centre = extent.centre();
    const std::array<Point, 4> corners{
        Point{extent.west, extent.south},
        Point{extent.east, extent.south},
        Point{extent.east, extent.north},
        Point{extent.west, extent.north}};
    QRectF seen;
    for (const Point corner : corners) {
        const QPointF at = camera.toView(corner, window);
        seen = seen.united(QRectF(at, QSizeF(1e-9, 1e-9)));
    }
    const double across = std::max(window.width() - 2.0 * margin, 1.0);
    const double down = std::max(window.height() - 2.0 * margin, 1.0);
    const double scale =
        std::min(across / std::max(seen.width(), 1e-6), down / std::max(seen.height(), 1e-6));
    camera.scale = std::clamp(scale, smallestScale, largestScale);
    return camera;
}

} // namespace bedlore
