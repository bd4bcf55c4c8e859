// SPDX-License-Identifier: MIT
#include "gui/paint/furniture_painter.hpp"

#include "core/units/format.hpp"
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QLineF>
#include <QPainter>
#include <QPen>
#include <QPolygonF>

#include <algorithm>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

QColor faded(QColor colour, double opacity) {
    colour.setAlphaF(static_cast<float>(opacity));
    return colour;
}

// Where the ray from `from` towards `direction` leaves the rectangle; none if it never is inside.
std::optional<QPointF> exitPoint(const QRectF& area, QPointF from, QPointF direction) {
    double enter = 0.0;
    double leave = 1e12;
    const auto slab = [&](double start, double step, double low, double high) {
        if (std::abs(step) < 1e-12) {
            if (start < low || start > high) {
                leave = -1.0;
            }
            return;
        }
        const double a = (low - start) / step;
        const double b = (high - start) / step;
        enter = std::max(enter, std::min(a, b));
        leave = std::min(leave, std::max(a, b));
    };
    slab(from.x(), direction.x(), area.left(), area.right());
    slab(from.y(), direction.y(), area.top(), area.bottom());
    return leave > enter ? std::optional(from + leave * direction) : std::nullopt;
}

// Along a direction of the plane, one unit long on the canvas.
QPointF canvasDirection(const ChartView& view, PlaneBearing bearing) {
    const double a = bearing.clockwise() / radian;
    const QPointF tip = view.toView.map(QPointF(std::sin(a), std::cos(a)));
    const QPointF step = tip - view.toView.map(QPointF(0.0, 0.0));
    const double length = std::hypot(step.x(), step.y());
    return length > 0.0 ? step / length : QPointF(0.0, -1.0);
}

constexpr double clearing = 0.82; // opacity of the paper behind words

} // namespace

Furniture::Furniture(
    const MapDrawing& map, const ChartStyle& style, const ChartView& view, const QFont& font)
    : map_(map)
    , style_(style)
    , view_(view)
    , font_(font)
    , smallFont_(font)
    , metrics_(font)
    , size_(style.size) {
    smallFont_.setPixelSize(std::max(1, static_cast<int>(std::lround(0.88 * font.pixelSize()))));
}

void Furniture::place() {
    placeEmptyWords();
    if (style_.furniture) {
        placeNorth();
        placeScaleBar();
        placeGuessedWords();
    }
    placeSwims();
    if (style_.marks) {
        placeMarks();
    }
    if (style_.rings) {
        placeRingDistances();
    }
}

void Furniture::paint(QPainter& painter) const {
    for (const Drawing& drawing : drawings_) {
        drawing(painter);
    }
}

void Furniture::take(const QRectF& box) {
    taken_.push_back({{box.center().x(), box.center().y()}, box.width(), box.height(), 0.0});
}

bool Furniture::isFree(const QRectF& box) const {
    const CanvasBox wanted{{box.center().x(), box.center().y()}, box.width(), box.height(), 0.0};
    return std::none_of(taken_.begin(), taken_.end(), [&](const CanvasBox& other) {
        return overlap(wanted, other);
    });
}

void Furniture::addWords(const QRectF& box, const QString& text, WordsKind kind) {
    take(box.adjusted(-5.0 * size_, 0.0, 5.0 * size_, 0.0));
    drawings_.emplace_back([=, this](QPainter& painter) {
        const QFont& font = kind == WordsKind::Name ? font_ : smallFont_;
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

void Furniture::placeMarks() {
    const QRectF inner = view_.window.adjusted(
        12.0 * size_, metrics_.height() + 14.0 * size_, -12.0 * size_, -12.0 * size_);
    for (const DrawnMark& mark : map_.marks) {
        const std::optional<QPointF> place =
            mark.place ? std::optional(view_.toView.map(toQt(*mark.place))) : std::nullopt;
        if (place && inner.contains(*place)) {
            placeMark(mark, *place);
        } else if (mark.direction && viewer() != nullptr) {
            const QPointF from = view_.toView.map(toQt(viewer()->tip));
            if (const auto at = exitPoint(inner, from, canvasDirection(view_, *mark.direction))) {
                placeMark(mark, *at);
            }
        }
    }
}

void Furniture::placeMark(const DrawnMark& mark, QPointF at) {
    const QString text = QString::fromStdString(mark.name);
    QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), metrics_.height());
    box.moveCenter(at - QPointF(0.0, 8.0 * size_ + 0.5 * metrics_.height()));
    const double edge = 6.0 * size_;
    box.moveLeft(std::max(
        view_.window.left() + edge,
        std::min(box.left(), view_.window.right() - box.width() - edge)));
    // A name that would cover another stands below its sign.
    if (!isFree(box)) {
        box.moveTop(at.y() + 2.0 * size_);
    }
    if (isFree(box)) {
        addWords(box, text, WordsKind::Name);
    }
    take(QRectF(at.x() - 5.0 * size_, at.y() - 8.0 * size_, 10.0 * size_, 9.0 * size_));
    drawings_.emplace_back([this, at, time = mark.time](QPainter& painter) {
        SymbolPainter(painter, style_.palette, size_).mark(at, time);
    });
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
    const double half = 0.5 * metrics_.horizontalAdvance(end);
    const double height = 4.0 * s;
    const QPointF left(w.left() + 22.0 * s, w.bottom() - 16.0 * s);
    const QRectF all(
        left.x() - 10.0 * s,
        left.y() - height - metrics_.height() - 5.0 * s,
        length + half + 18.0 * s,
        height + metrics_.height() + 12.0 * s);
    take(all);
    drawings_.emplace_back([=, this](QPainter& painter) {
        const Palette& colours = palette(style_.palette);
        painter.setPen(Qt::NoPen);
        painter.setBrush(faded(colours.paper, clearing));
        painter.drawRoundedRect(all, 4.0 * s, 4.0 * s);
        const double part = length / bar.parts;
        painter.setPen(QPen(colours.ink, 0.8 * s));
        for (int i = 0; i < bar.parts; ++i) {
            painter.setBrush(i % 2 == 0 ? colours.ink : colours.paper);
            painter.drawRect(QRectF(left.x() + i * part, left.y() - height, part, height));
        }
        painter.setFont(font_);
        const QString zero = QStringLiteral("0");
        const double base = left.y() - height - 3.0 * s - 0.5 * metrics_.descent();
        painter.drawText(QPointF(left.x() - 0.5 * metrics_.horizontalAdvance(zero), base), zero);
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
    drawings_.emplace_back([=, this](QPainter& painter) {
        const Palette& colours = palette(style_.palette);
        painter.setPen(Qt::NoPen);
        painter.setBrush(faded(colours.paper, clearing));
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
        painter.setFont(font_);
        QRectF letter(0.0, 0.0, metrics_.height(), metrics_.height());
        letter.moveCenter(tip + 0.48 * metrics_.height() * up);
        painter.drawText(letter, Qt::AlignCenter | Qt::TextDontClip, QStringLiteral("N"));
    });
}

void Furniture::placeGuessedWords() {
    if (!map_.anglesGuessed) {
        return;
    }
    const QString text = QStringLiteral("angles guessed");
    addWords(
        QRectF(
            view_.window.left() + 14.0 * size_,
            view_.window.top() + 10.0 * size_,
            metrics_.horizontalAdvance(text),
            metrics_.height()),
        text,
        WordsKind::Name);
}

void Furniture::placeEmptyWords() {
    if (map_.emptyWords.empty()) {
        return;
    }
    const QString text = QString::fromStdString(map_.emptyWords);
    const QRectF room(0.0, 0.0, 0.8 * view_.window.width(), 0.8 * view_.window.height());
    QRectF box = metrics_.boundingRect(room, Qt::AlignCenter | Qt::TextWordWrap, text);
    box.moveCenter(view_.window.center());
    const double pad = 8.0 * size_;
    const QRectF sheet = box.adjusted(-pad, -pad, pad, pad);
    take(sheet);
    drawings_.emplace_back([=, this](QPainter& painter) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(palette(style_.palette).paper);
        painter.drawRoundedRect(sheet, pad, pad);
        painter.setFont(font_);
        painter.setPen(palette(style_.palette).ink);
        painter.drawText(box, Qt::AlignCenter | Qt::TextWordWrap | Qt::TextDontClip, text);
    });
}

void Furniture::placeSwims() {
    for (const DrawnSwim& swim : map_.swims) {
        const QPointF at = view_.toView.map(toQt(swim.tip));
        if (!view_.window.adjusted(-8.0, -8.0, 8.0, 8.0).contains(at)) {
            continue;
        }
        QRectF sign(0.0, 0.0, 13.0 * size_, 13.0 * size_);
        sign.moveCenter(at);
        take(sign);
        drawings_.emplace_back([this, at, chosen = swim.chosen](QPainter& painter) {
            SymbolPainter(painter, style_.palette, size_).swim(at, chosen);
        });
        const QString text = QString::fromStdString(swim.name);
        QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), metrics_.height());
        box.moveCenter(at + QPointF(11.0 * size_ + 0.5 * box.width(), 0.0));
        if (box.right() > view_.window.right() - 6.0 * size_) {
            box.moveRight(at.x() - 11.0 * size_);
        }
        if (isFree(box)) {
            addWords(box, text, WordsKind::Name);
        }
    }
}

} // namespace bedlore
