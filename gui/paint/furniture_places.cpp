// SPDX-License-Identifier: MIT
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/furniture_painter.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QPainter>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

// The furniture that stands at a place of the plane: swims, marks, spots and the letters of aims.

namespace bedlore {

namespace {

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

double reachOf(const DrawnCast& cast) {
    return std::hypot(cast.end->east - cast.tip.east, cast.end->north - cast.tip.north);
}

/// Whether `a` rather than `b` carries the letter of both: a letter means what it meant last, and
/// stands beyond the farthest place.
bool goesBefore(const DrawnCast& a, const DrawnCast& b) {
    return a.date != b.date ? a.date > b.date : reachOf(a) > reachOf(b);
}

/// The casts that carry a letter, one for each letter that was used from `swim`, or from each swim
/// where it is null.
std::vector<const DrawnCast*> letteredCasts(const MapDrawing& map, const DrawnSwim* swim) {
    std::map<std::pair<std::size_t, std::string>, const DrawnCast*> chosen;
    for (const DrawnCast& cast : map.casts) {
        const bool isHere = swim == nullptr || &map.swims[cast.swim] == swim;
        if (!isHere || cast.aim.empty() || !cast.end || !(reachOf(cast) > 0.0)) {
            continue;
        }
        const DrawnCast*& best = chosen[{cast.swim, cast.aim}];
        if (best == nullptr || goesBefore(cast, *best)) {
            best = &cast;
        }
    }
    std::vector<const DrawnCast*> casts;
    casts.reserve(chosen.size());
    for (const auto& [key, cast] : chosen) {
        casts.push_back(cast);
    }
    return casts;
}

} // namespace

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
    const QRectF sign(at.x() - 5.0 * size_, at.y() - 8.0 * size_, 10.0 * size_, 9.0 * size_);
    take(sign);
    draw(withRim(sign), [this, at, time = mark.time](QPainter& painter, const auto&) {
        SymbolPainter(painter, style_.palette, size_).mark(at, time);
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
        draw(withRim(sign), [this, at, chosen = swim.chosen](QPainter& painter, const auto&) {
            SymbolPainter(painter, style_.palette, size_).swim(at, chosen);
        });
        addNameBeside(at, swim.name);
    }
}

void Furniture::addNameBeside(QPointF at, const std::string& name) {
    const QString text = QString::fromStdString(name);
    QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), metrics_.height());
    box.moveCenter(at + QPointF(11.0 * size_ + 0.5 * box.width(), 0.0));
    if (!isFree(box) || box.right() > view_.window.right() - 6.0 * size_) {
        box.moveRight(at.x() - 11.0 * size_);
    }
    if (isFree(box)) {
        addWords(box, text, WordsKind::Name);
    }
}

void Furniture::placeSpots() {
    for (const DrawnSpot& spot : map_.spots) {
        const QPointF at = view_.toView.map(toQt(spot.place));
        if (!view_.window.adjusted(-8.0, -8.0, 8.0, 8.0).contains(at)) {
            continue;
        }
        QRectF sign(0.0, 0.0, 12.0 * size_, 12.0 * size_);
        sign.moveCenter(at);
        take(sign);
        draw(withRim(sign), [this, at](QPainter& painter, const auto&) {
            SymbolPainter(painter, style_.palette, size_).spot(at);
        });
        addNameBeside(at, spot.name);
    }
}

// Beyond the farthest place of each aim, centred on it.
void Furniture::placeAimLetters() {
    for (const DrawnCast* cast : letteredCasts(map_, viewer())) {
        const QPointF tip = view_.toView.map(toQt(cast->tip));
        const QPointF end = view_.toView.map(toQt(*cast->end));
        const QPointF along = (end - tip) / std::hypot(end.x() - tip.x(), end.y() - tip.y());
        const QString text = QString::fromStdString(cast->aim);
        QRectF box(0.0, 0.0, metrics_.horizontalAdvance(text), metrics_.capHeight());
        for (const double beyond : {13.0, 19.0, 25.0}) {
            box.moveCenter(end + beyond * size_ * along);
            if (view_.window.contains(box) && isFree(box)) {
                addWords(box, text, WordsKind::Name);
                break;
            }
        }
    }
}

} // namespace bedlore
