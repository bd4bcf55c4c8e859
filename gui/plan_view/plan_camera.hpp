// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"
#include "core/geometry/polygon.hpp"
#include "core/units/bearing.hpp"

#include <QPointF>
#include <QRectF>
#include <QTransform>

// From where the plan is looked at.

namespace bedlore {

/// `centre` is in the middle of the window, `up` stands upright, `scale` is pixels for each metre.
struct PlanCamera {
    Point centre;
    double scale = 4.0;
    PlaneBearing up{};

    [[nodiscard]] QTransform toView(const QRectF& window) const;
    [[nodiscard]] QPointF toView(Point place, const QRectF& window) const;
    [[nodiscard]] Point toPlane(QPointF position, const QRectF& window) const;

    /// Moves what is seen by pixels.
    void pan(QPointF pixels);
    /// Zooms so that what is at `position` stays there. Held between 0.05 and 400 pixels a metre.
    void zoom(double factor, QPointF position, const QRectF& window);
    /// Turns what is seen clockwise about the middle.
    void turn(Angle clockwise);

    friend bool operator==(const PlanCamera&, const PlanCamera&) = default;
};

/// The camera that shows all of `extent`, `margin` pixels free all round.
[[nodiscard]] PlanCamera
cameraFor(const Extent& extent, PlaneBearing up, const QRectF& window, double margin);

} // namespace bedlore
