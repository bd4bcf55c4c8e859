// SPDX-License-Identifier: MIT
#include "gui/paint/furniture_painter.hpp"

#include "core/chart/scale_bar.hpp"
#include "core/reduction/range_over_bed.hpp"
#include "core/units/format.hpp"
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/rimmed_words.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QLineF>
#include <QPainter>
#include <QPen>
#include <QPolygonF>

#include <algorithm>
#include <cmath>
#include <utility>

namespace bedlore {

QPointF canvasDirection(const ChartView& view, PlaneBearing bearing) {
    const double a = bearing.clockwise() / radian;
    const QPointF tip = view.toView.map(QPointF(std::sin(a), std::cos(a)));
    const QPointF step = tip - view.toView.map(QPointF(0.0, 0.0));
    const double length = std::hypot(step.x(), step.y());
    return length > 0.0 ? step / length : QPointF(0.0, -1.0);
}

QFont unshared(QFont font) {
    const bool kerning = font.kerning();
    font.setKerning(!kerning); // only a change makes a font let go of what it shares
    font.setKerning(kerning);
    return font;
}

Furniture::Furniture(
    const MapDrawing& map, const ChartStyle& style, const ChartView& view, ChartFonts fonts)
    : map_(map)
    , style_(style)
    , view_(view)
    , fonts_(std::move(fonts))
    , metrics_(fonts_.name)
    , size_(style.size) {}

void Furniture::place() {
    placeFirst();
    if (style_.depthKey) {
        placeDepthKey();
    }
    if (style_.aimLetters) {
        placeAimLetters();
    }
    if (style_.spots) {
        placeSpots();
    }
    if (style_.marks) {
        placeMarks();
    }
    if (style_.rings) {
        placeRingDistances();
    }
}

void Furniture::placeFirst() {
    for (const QRectF& box : view_.keepClear) {
        take(box);
    }
    placeEmptyWords();
    if (style_.furniture) {
        placeNorth();
        placeScaleBar();
        placeGuessedWords();
    }
    if (style_.levelWords) {
        placeLevelWords();
    }
    placeSwims();
}

std::vector<QRectF> Furniture::boxesOfFirst() {
    placeFirst();
    std::vector<QRectF> boxes;
    for (const CanvasBox& taken : taken_.boxes()) {
        QRectF box(0.0, 0.0, taken.width, taken.height);
        box.moveCenter(QPointF(taken.centre.x, taken.centre.y));
        boxes.push_back(box);
    }
    return boxes;
}

void Furniture::paint(QPainter& painter, const ChartFonts& fonts, const QRectF& stripe) const {
    for (const Drawing& drawing : drawings_) {
        if (drawing.box.intersects(stripe)) {
            drawing.paint(painter, fonts);
        }
    }
}

QRectF Furniture::withRim(const QRectF& sign) const {
    const double rim = 5.0 * size_;
    return sign.adjusted(-rim, -rim, rim, rim);
}

void Furniture::take(const QRectF& box) {
    taken_.add({{box.center().x(), box.center().y()}, box.width(), box.height(), 0.0});
}

bool Furniture::isFree(const QRectF& box) const {
    const CanvasBox wanted{{box.center().x(), box.center().y()}, box.width(), box.height(), 0.0};
    return taken_.isFree(wanted);
}

void Furniture::addWords(const QRectF& box, const QString& text, WordsKind kind) {
    take(box.adjusted(-5.0 * size_, 0.0, 5.0 * size_, 0.0));
    const double room = metrics_.height(); // letters reach beyond what they take
    draw(box.adjusted(-room, -room, room, room), [=, this](QPainter& painter, const auto& fonts) {
        const QFont& font = kind == WordsKind::Name ? fonts.name : fonts.note;
        const Palette& colours = palette(style_.palette);
        const QFontMetricsF metrics(font);
        const QPointF base(
            box.center().x() - 0.5 * metrics.horizontalAdvance(text),
            box.center().y() + 0.5 * metrics.capHeight());
        paintRimmedWords(
            painter,
            base,
            text,
            font,
            {.ink = faded(colours.ink, kind == WordsKind::Name ? 1.0 : 0.75),
             .rim = faded(colours.paper, 0.7),
             .width = 1.4 * size_});
    });
}

const DrawnSwim* Furniture::viewer() const {
    for (const DrawnSwim& swim : map_.swims) {
        if (swim.chosen) {
            return &swim;
        }
    }
    return map_.swims.size() == 1 ? &map_.swims.front() : nullptr;
}

namespace {

constexpr int mostRings = 60;

double farthestCorner(const QRectF& window, QPointF from) {
    double farthest = 0.0;
    for (const QPointF corner :
         {window.topLeft(), window.topRight(), window.bottomLeft(), window.bottomRight()}) {
        farthest = std::max(farthest, QLineF(from, corner).length());
    }
    return farthest;
}

/// The ground distance of a lead with `line` out towards the middle of the map, the bed taken where
/// it is known.
Length groundOf(const MapDrawing& map, Point tip, Length line) {
    const double up = map.up.clockwise() / radian;
    return rangeOverBed(line, [&](Length out) {
        const double range = out / metre;
        const Point place{tip.east + range * std::sin(up), tip.north + range * std::cos(up)};
        return map.wraps->tipHeight + std::max(depthUnder(map, place).value_or(0.0), 0.0) * metre;
    });
}

} // namespace

std::vector<Furniture::DistanceRing> Furniture::rings() const {
    const double scale = unitsPerMetre(view_);
    if (viewer() == nullptr || !(scale > 0.0) || !std::isfinite(scale)) {
        return {};
    }
    const Length most = 190.0 * size_ / scale * metre;
    const double farthest =
        farthestCorner(view_.window, view_.toView.map(toQt(viewer()->tip))) / scale;
    std::vector<DistanceRing> rings;
    if (map_.wraps) {
        const double step = std::max(1.0, roundAtMost(most / map_.wraps->wrap));
        for (int k = 1; k <= mostRings; ++k) {
            const Length range = groundOf(map_, viewer()->tip, k * step * map_.wraps->wrap);
            if (range / metre >= farthest) {
                break;
            }
            if (range > Length{}) {
                rings.push_back(
                    {range / metre * scale,
                     printEntered({.number = k * step, .unit = Unit::Wrap})});
            }
        }
        return rings;
    }
    const Length step = scaleBarFor(most, map_.distanceUnit).length;
    for (int k = 1; k <= mostRings && k * step / metre < farthest; ++k) {
        rings.push_back({k * step / metre * scale, printLength(k * step, map_.distanceUnit, 0.5)});
    }
    return rings;
}

void Furniture::paintRings(QPainter& painter) const {
    if (!style_.rings) {
        return;
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(faded(mapInks(style_.palette).ink, 0.16), 0.7 * size_));
    for (const DistanceRing& ring : rings()) {
        const QPointF centre = view_.toView.map(toQt(viewer()->tip));
        painter.drawEllipse(centre, ring.radius, ring.radius);
    }
}

bool Furniture::liesOnBed(const QRectF& box) const {
    const QTransform toPlane = view_.toView.inverted();
    const auto isDrawn = [&](QPointF at) {
        const QPointF place = toPlane.map(at);
        return depthUnder(map_, {place.x(), place.y()}).has_value();
    };
    constexpr double apart = 16.0; // by eye: no more of the bed lies between two places asked
    const int across = std::max(1, static_cast<int>(std::ceil(box.width() / (apart * size_))));
    const int down = std::max(1, static_cast<int>(std::ceil(box.height() / (apart * size_))));
    for (int i = 0; i <= across; ++i) {
        for (int j = 0; j <= down; ++j) {
            const QPointF at(
                box.left() + box.width() * i / across, box.top() + box.height() * j / down);
            if (isDrawn(at)) {
                return true;
            }
        }
    }
    return false;
}

// Up the side of the fan, beside the bed where there is room: a distance among depths is misread.
void Furniture::placeRingDistances() {
    const QRectF inner = view_.window.adjusted(4.0, 4.0, -4.0, -4.0);
    for (const DistanceRing& ring : rings()) {
        const QPointF centre = view_.toView.map(toQt(viewer()->tip));
        const QString text = QString::fromStdString(ring.words);
        QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), 0.9 * metrics_.height());
        for (const double aside :
             {40.0, -40.0, 50.0, -50.0, 30.0, -30.0, 60.0, -60.0, 75.0, -75.0}) {
            box.moveCenter(centre + ring.radius * canvasDirection(view_, map_.up + aside * degree));
            if (inner.contains(box) && isFree(box) && !liesOnBed(box)) {
                addWords(box, text, WordsKind::Note);
                break;
            }
        }
    }
}

void Furniture::placeScaleBar() {
    const double scale = unitsPerMetre(view_);
    const QRectF& w = view_.window;
    const double s = size_;
    const double room = std::min(160.0 * s, 0.4 * w.width());
    if (!(scale > 0.0) || !std::isfinite(scale) || !(room > 20.0 * s)) {
        return;
    }
    const ScaleBar bar = scaleBarFor(room / scale * metre, map_.distanceUnit);
    const double length = bar.length / metre * scale;
    const QString end = QString::fromStdString(bar.label);
    const QString zero = QStringLiteral("0");
    const double halfZero = 0.5 * metrics_.horizontalAdvance(zero);
    const double half = 0.5 * metrics_.horizontalAdvance(end);
    const double height = 4.0 * s;
    const QPointF left(w.left() + 22.0 * s, w.bottom() - 16.0 * s);
    const QRectF all(
        left.x() - 10.0 * s,
        left.y() - height - metrics_.height() - 5.0 * s,
        length + half + 18.0 * s,
        height + metrics_.height() + 12.0 * s);
    const double base = left.y() - height - 3.0 * s - 0.5 * metrics_.descent();
    take(all);
    draw(all, [=, this](QPainter& painter, const auto& fonts) {
        const Palette& colours = palette(style_.palette);
        paintSheet(painter, all);
        const double part = length / bar.parts;
        painter.setPen(QPen(colours.ink, 0.8 * s));
        for (int i = 0; i < bar.parts; ++i) {
            painter.setBrush(i % 2 == 0 ? colours.ink : colours.paper);
            painter.drawRect(QRectF(left.x() + i * part, left.y() - height, part, height));
        }
        painter.setFont(fonts.name);
        painter.drawText(QPointF(left.x() - halfZero, base), zero);
        painter.drawText(QPointF(left.x() + length - half, base), end);
    });
}

void Furniture::placeNorth() {
    if (!map_.trueNorth) {
        return;
    }
    const double s = size_;
    const double radius = 13.0 * s;
    const double reach = radius + 0.9 * metrics_.height();
    const QPointF centre(
        view_.window.right() - reach - 8.0 * s, view_.window.bottom() - reach - 8.0 * s);
    QRectF box(0.0, 0.0, 2.0 * reach, 2.0 * reach);
    box.moveCenter(centre);
    take(box);
    const double letterSize = metrics_.height();
    draw(box, [=, this](QPainter& painter, const auto& fonts) {
        const Palette& colours = palette(style_.palette);
        painter.setPen(Qt::NoPen);
        painter.setBrush(faded(colours.paper, paperBehindWords));
        painter.drawEllipse(centre, reach, reach);
        const QPointF up = canvasDirection(view_, *map_.trueNorth);
        const QPointF side(-up.y(), up.x());
        const QPointF tip = centre + radius * up;
        const QPointF notch = tip - 6.5 * s * up;
        painter.setPen(QPen(colours.ink, 1.0 * s));
        painter.drawLine(centre - radius * up, notch);
        // A filled head: an open one under its letter reads as another letter.
        painter.setBrush(colours.ink);
        painter.drawPolygon(QPolygonF(
            {tip,
             tip - 9.0 * s * up + 3.6 * s * side,
             notch,
             tip - 9.0 * s * up - 3.6 * s * side}));
        painter.setFont(fonts.name);
        QRectF letter(0.0, 0.0, letterSize, letterSize);
        letter.moveCenter(tip + 0.48 * letterSize * up);
        painter.drawText(letter, Qt::AlignCenter | Qt::TextDontClip, QStringLiteral("N"));
    });
}

} // namespace bedlore
