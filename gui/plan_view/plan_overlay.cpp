// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_overlay.hpp"

#include "core/units/format.hpp"

#include <QFont>
#include <QFontMetricsF>
#include <QPainter>
#include <QString>

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr double ringSpacing = 56.0; // pixels between rings, at least
constexpr int mostRings = 60;
constexpr double besideFan = 7.0; // degrees from the fan to the first ring number beside it
constexpr double footRoom = 70.0; // pixels at the foot where scale bar and north stand

QPointF onScreen(const QTransform& toView, Point place) {
    return toView.map(QPointF(place.east, place.north));
}

double pixelsPerMetre(const QTransform& toView) {
    return std::hypot(toView.m11(), toView.m12());
}

/// Where ring numbers may stand, best first: just outside the fan of casts, right of it, then left,
/// then farther round on either side.
std::vector<AimLine> numberLines(const PlanOverlay& overlay, const BedPicture& picture, Point tip) {
    const bool aimless = overlay.aims.empty();
    const PlaneBearing right =
        aimless ? picture.drawing->up + 25.0_deg : overlay.aims.back().direction;
    const PlaneBearing left =
        aimless ? picture.drawing->up - 25.0_deg : overlay.aims.front().direction;
    std::vector<AimLine> lines;
    for (double aside = besideFan; aside < 70.0; aside += 9.0) {
        for (const PlaneBearing direction : {right + aside * degree, left - aside * degree}) {
            AimLine line;
            line.tip = tip;
            line.direction = direction;
            lines.push_back(line);
        }
    }
    return lines;
}

/// Finds where the numbers of rings stand in a window.
class RingNumbers {
public:
    RingNumbers(
        const BedPicture& picture,
        std::vector<AimLine> lines,
        const QTransform& toView,
        const QRectF& window,
        const QFont& font)
        : picture_(picture)
        , lines_(std::move(lines))
        , toView_(toView)
        , toPlane_(toView.inverted())
        , inner_(window.adjusted(6.0, 6.0, -6.0, -footRoom))
        , metrics_(font) {}

    /// Where `text` of the ring at `range` begins: beside the bed, since a distance among depths is
    /// misread.
    [[nodiscard]] std::optional<QPointF> besideBed(const QString& text, Length range) const {
        return place(text, range, [this](const QRectF& box) { return !liesOnBed(box); });
    }
    [[nodiscard]] std::optional<QPointF> anywhere(const QString& text, Length range) const {
        return place(text, range, [](const QRectF&) { return true; });
    }

private:
    template <class Suits>
    [[nodiscard]] std::optional<QPointF>
    place(const QString& text, Length range, const Suits& suits) const {
        const QRectF letters = metrics_.tightBoundingRect(text);
        for (const AimLine& line : lines_) {
            const QPointF at = onScreen(toView_, placeOn(line.tip, line.direction, range));
            const QPointF base = at - letters.center();
            const QRectF box = letters.translated(base).adjusted(-4.0, -4.0, 4.0, 4.0);
            if (inner_.contains(box) && suits(box)) {
                return base;
            }
        }
        return std::nullopt;
    }
    [[nodiscard]] bool isBed(QPointF at) const {
        const QPointF place = toPlane_.map(at);
        return picture_.bed->levelAt({place.x(), place.y()}).has_value();
    }
    [[nodiscard]] bool liesOnBed(const QRectF& box) const {
        return isBed(box.center()) || isBed(box.topLeft()) || isBed(box.topRight()) ||
               isBed(box.bottomLeft()) || isBed(box.bottomRight());
    }

    const BedPicture& picture_;
    std::vector<AimLine> lines_;
    QTransform toView_;
    QTransform toPlane_;
    QRectF inner_;
    QFontMetricsF metrics_;
};

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
    // Clear of the depth that may stand above the farthest reading.
    const double beyond = 21.0 / pixelsPerMetre(toView);
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
    const std::vector<AimLine> lines = numberLines(overlay, picture, standing->tip);
    const RingNumbers numbers(picture, lines, toView, window, painter.font());
    const QString unitWord = QString::fromUtf8(unitName(picture.look.units.distance).data());
    bool unitSaid = false;
    const QPointF middle = onScreen(toView, standing->tip);
    const double farthest =
        std::hypot(window.width(), window.height()) +
        std::hypot(middle.x() - window.center().x(), middle.y() - window.center().y());
    painter.setRenderHint(QPainter::Antialiasing);
    QColor faint = colours.ink;
    faint.setAlphaF(0.16F);
    for (int i = 1; i <= mostRings; ++i) {
        const double count = i * step;
        const Length range = rangeFor(*picture.bed, lines.front(), count * unit);
        const double radius = range.si() * pixels;
        if (radius > farthest) {
            break;
        }
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(faint, 1.0));
        painter.drawEllipse(middle, radius, radius);
        const QString bare = QString::fromStdString(printNumber(count));
        const QString withUnit = bare + u' ' + unitWord;
        const QString& text = unitSaid ? bare : withUnit;
        if (const auto beside = numbers.besideBed(text, range)) {
            paintHaloText(painter, *beside, text, colours);
            unitSaid = true;
        } else if (const auto onBed = numbers.anywhere(withUnit, range)) {
            // With its unit nobody takes it for a depth.
            paintHaloText(painter, *onBed, withUnit, colours);
        }
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
