// SPDX-License-Identifier: MIT
#include "gui/paint/furniture_painter.hpp"

#include "core/units/format.hpp"
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/depth_key.hpp"
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

std::optional<ScaleBar> Furniture::ringStep() const {
    const double scale = unitsPerMetre(view_);
    if (viewer() == nullptr || !(scale > 0.0) || !std::isfinite(scale)) {
        return std::nullopt;
    }
    return scaleBarFor(190.0 * size_ / scale * metre, map_.distanceUnit);
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

} // namespace

void Furniture::paintRings(QPainter& painter) const {
    const auto step = ringStep();
    if (!style_.rings || !step) {
        return;
    }
    const QPointF centre = view_.toView.map(toQt(viewer()->tip));
    const double apart = step->length / metre * unitsPerMetre(view_);
    const double farthest = farthestCorner(view_.window, centre);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(faded(mapInks(style_.palette).ink, 0.16), 0.7 * size_));
    for (int k = 1; k <= mostRings && k * apart < farthest; ++k) {
        painter.drawEllipse(centre, k * apart, k * apart);
    }
}

bool Furniture::liesOnBed(const QRectF& box) const {
    const QTransform toPlane = view_.toView.inverted();
    const auto isDrawn = [&](QPointF at) {
        const QPointF place = toPlane.map(at);
        return depthUnder(map_, {place.x(), place.y()}).has_value();
    };
    return isDrawn(box.center()) || isDrawn(box.topLeft()) || isDrawn(box.topRight()) ||
           isDrawn(box.bottomLeft()) || isDrawn(box.bottomRight());
}

// Up the side of the fan, beside the bed where there is room: a distance among depths is misread.
void Furniture::placeRingDistances() {
    const auto step = ringStep();
    if (!step) {
        return;
    }
    const QPointF centre = view_.toView.map(toQt(viewer()->tip));
    const double apart = step->length / metre * unitsPerMetre(view_);
    const double farthest = farthestCorner(view_.window, centre);
    const QRectF inner = view_.window.adjusted(4.0, 4.0, -4.0, -4.0);
    for (int k = 1; k <= mostRings && k * apart < farthest; ++k) {
        const QString text =
            QString::fromStdString(printLength(k * step->length, map_.distanceUnit, 0.5));
        QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), 0.9 * metrics_.height());
        for (const double aside :
             {40.0, -40.0, 50.0, -50.0, 30.0, -30.0, 60.0, -60.0, 75.0, -75.0}) {
            box.moveCenter(centre + k * apart * canvasDirection(view_, map_.up + aside * degree));
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
        painter.setPen(Qt::NoPen);
        painter.setBrush(faded(colours.paper, paperBehindWords));
        painter.drawRoundedRect(all, 4.0 * s, 4.0 * s);
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

// At the foot between scale bar and north, as near the middle as is free; above them where it is
// narrow.
void Furniture::placeDepthKey() {
    const double height = depthKeyHeight(map_, style_, fonts_.note);
    const double s = size_;
    const QRectF& w = view_.window;
    const double words = QFontMetricsF(fonts_.note).horizontalAdvance(depthKeyWords(map_));
    QRectF area;
    const auto sheet = [&] { return area.adjusted(-10.0 * s, -4.0 * s, 10.0 * s, 4.0 * s); };
    const auto isPlaced = [&](double width, double aside, double lift) {
        area = QRectF(0.0, 0.0, std::max(width, words), height);
        area.moveCenter(
            QPointF(w.center().x() + aside, w.bottom() - 8.0 * s - 0.5 * height - lift));
        return w.contains(sheet()) && isFree(sheet()) && !liesOnBed(sheet());
    };
    const auto isPlacedInRow = [&](double width, double lift) {
        const int steps = static_cast<int>(std::ceil(0.5 * w.width() / (6.0 * s)));
        for (int i = 0; i < steps; ++i) {
            const double aside = i * 6.0 * s;
            if (isPlaced(width, aside, lift) || isPlaced(width, -aside, lift)) {
                return true;
            }
        }
        return false;
    };
    const double wide = 150.0 * s;
    const double narrow = 100.0 * s;
    const bool found = height > 0.0 && 4.0 * height < w.height() &&
                       (isPlacedInRow(wide, 0.0) || isPlacedInRow(narrow, 0.0) ||
                        isPlacedInRow(narrow, height) || isPlacedInRow(narrow, 2.0 * height));
    if (!found) {
        return;
    }
    take(sheet());
    const double room = metrics_.height(); // the last number may reach beyond its colours
    const QRectF box = sheet().adjusted(-room, 0.0, room, 0.0);
    draw(box, [this, area, paper = sheet(), s](QPainter& painter, const auto& fonts) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(faded(palette(style_.palette).paper, paperBehindWords));
        painter.drawRoundedRect(paper, 4.0 * s, 4.0 * s);
        paintDepthKey(painter, map_, style_, fonts.note, area);
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
