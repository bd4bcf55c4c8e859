// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_overlay.hpp"

#include "core/units/format.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QString>

#include <cmath>
#include <numbers>

namespace bedlore {

namespace {

constexpr double ringSpacing = 56.0; // pixels between rings, at least
constexpr int mostRings = 60;
constexpr double besideFan = 7.0; // degrees right of the fan, where the rings carry their numbers

QPointF onScreen(const QTransform& toView, Point place) {
    return toView.map(QPointF(place.east, place.north));
}

double pixelsPerMetre(const QTransform& toView) {
    return std::hypot(toView.m11(), toView.m12());
}

/// The direction in which ring numbers stand: just outside the fan of casts.
AimLine numberLine(const PlanOverlay& overlay, const BedPicture& picture, Point tip) {
    AimLine line;
    line.tip = tip;
    line.direction = overlay.aims.empty() ? picture.drawing->up + 30.0_deg
                                          : overlay.aims.back().direction + besideFan * degree;
    return line;
}

void paintHaloText(QPainter& painter, QPointF at, const QString& text, const Palette& colours) {
    painter.setPen(colours.paper);
    for (const QPointF& by : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
        painter.drawText(at + by, text);
    }
    painter.setPen(colours.ink);
    painter.drawText(at, text);
}

/// The letter of an aim beyond its farthest reading, centred on the aim.
void paintLabel(
    QPainter& painter, const QTransform& toView, const AimLine& aim, const Palette& colours) {
    const double beyond = 12.0 / pixelsPerMetre(toView);
    const QPointF at =
        onScreen(toView, placeOn(aim.tip, aim.direction, aim.reach + beyond * metre));
    const QString text = QString::fromStdString(aim.label);
    const QRectF box = QFontMetricsF(painter.font()).tightBoundingRect(text);
    paintHaloText(painter, at - box.center(), text, colours);
}

void paintPlace(QPainter& painter, QPointF at, const Palette& colours) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.paper, 4.0));
    painter.drawEllipse(at, 7.0, 7.0);
    painter.setPen(QPen(colours.accent, 2.0));
    painter.drawEllipse(at, 7.0, 7.0);
    painter.setPen(QPen(colours.accent, 1.0));
    for (const QPointF& way : {QPointF(1, 0), QPointF(-1, 0), QPointF(0, 1), QPointF(0, -1)}) {
        painter.drawLine(at + 9.0 * way, at + 14.0 * way);
    }
}

} // namespace

double roundStep(double least) {
    const double power = std::pow(10.0, std::floor(std::log10(std::max(least, 1e-9))));
    for (const double times : {1.0, 2.0, 5.0}) {
        if (times * power >= least * (1.0 - 1e-9)) {
            return times * power;
        }
    }
    return 10.0 * power;
}

void paintRings(
    QPainter& painter,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const QTransform& toView,
    const QRectF& window) {
    const ReducedSwim* standing = picture.bed->standing();
    if (standing == nullptr) {
        return;
    }
    const Palette& colours = palette(picture.look.palette);
    const Length unit = distanceUnitLength(picture.look.units, picture.bed->wrap());
    const double pixels = pixelsPerMetre(toView);
    const double step = std::max(1.0, roundStep(ringSpacing / (pixels * unit.si())));
    const AimLine line = numberLine(overlay, picture, standing->tip);
    const QPointF middle = onScreen(toView, standing->tip);
    const double farthest =
        std::hypot(window.width(), window.height()) +
        std::hypot(middle.x() - window.center().x(), middle.y() - window.center().y());
    painter.setRenderHint(QPainter::Antialiasing);
    QColor faint = colours.ink;
    faint.setAlphaF(0.16F);
    for (int i = 1; i <= mostRings; ++i) {
        const double count = i * step;
        const Length range = rangeFor(*picture.bed, line, count * unit);
        const double radius = range.si() * pixels;
        if (radius > farthest) {
            break;
        }
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(faint, 1.0));
        painter.drawEllipse(middle, radius, radius);
        QString number = QString::fromStdString(printNumber(count));
        if (i == 1) {
            number += u' ' + QString::fromUtf8(unitName(picture.look.units.distance).data());
        }
        const QPointF at = onScreen(toView, placeOn(line.tip, line.direction, range));
        paintHaloText(painter, at + QPointF(2.0, 4.0), number, colours);
    }
}

void paintChosen(
    QPainter& painter,
    const BedPicture& picture,
    const PlanOverlay& overlay,
    const QTransform& toView,
    const QRectF& window) {
    static_cast<void>(window);
    const Palette& colours = palette(picture.look.palette);
    painter.setRenderHint(QPainter::Antialiasing);
    for (std::size_t i = 0; i < overlay.aims.size(); ++i) {
        const AimLine& aim = overlay.aims[i];
        const bool chosen = overlay.chosenAim == i;
        QFont face = painter.font();
        face.setBold(chosen);
        painter.setFont(face);
        if (chosen) {
            const QPointF from = onScreen(toView, aim.tip);
            const QPointF to = onScreen(toView, placeOn(aim.tip, aim.direction, aim.reach));
            painter.setPen(QPen(colours.paper, 3.0));
            painter.drawLine(from, to);
            painter.setPen(QPen(colours.accent, 1.5));
            painter.drawLine(from, to);
        }
        paintLabel(painter, toView, aim, colours);
    }
    if (overlay.chosenPlace) {
        paintPlace(painter, onScreen(toView, *overlay.chosenPlace), colours);
    }
}

} // namespace bedlore
