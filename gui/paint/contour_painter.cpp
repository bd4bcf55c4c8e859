// SPDX-License-Identifier: MIT
#include "gui/paint/contour_painter.hpp"

#include "core/chart/colour_ramp.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QPen>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <utility>

namespace bedlore {

namespace {

/// L* of the ground below which it counts as dark: by day, and in the night's red light.
struct DarkBelow {
    double byDay;
    double atNight;
};
constexpr DarkBelow forLines{45.0, 24.0};
// Letters are thin: they change where the other ink has the higher contrast (as in WCAG 2.1). Ink
// #24211C and paper #FBF8F2 (luminance 0.015 and 0.94) contrast alike with luminance 0.20, which is
// L* 52; the night's glow #FF6B5E and its black #0B0202 (0.33 and 0.001) with 0.089, L* 36.
constexpr DarkBelow forLetters{52.0, 36.0};

QColor inkOver(const MapDrawing& map, const ChartStyle& style, double depth, DarkBelow darkBelow) {
    const MapInks inks = mapInks(style.palette);
    if (style.fill == DepthFill::Plain) {
        return inks.ink;
    }
    const QColor ground = depthColourOf(map, style.palette, depth);
    const auto byte = [](int value) { return static_cast<std::uint8_t>(value); };
    const double light = lightness({byte(ground.red()), byte(ground.green()), byte(ground.blue())});
    // By night the ink glows and the paper is nearly black.
    const bool night = style.palette == PaletteKind::Night;
    const bool dark = light < (night ? darkBelow.atNight : darkBelow.byDay);
    return dark == night ? inks.ink : inks.paper;
}

std::vector<CanvasPoint> onCanvas(const ContourLine& line, const QTransform& toView) {
    std::vector<CanvasPoint> vertices;
    vertices.reserve(line.vertices.size());
    for (const Point p : line.vertices) {
        const QPointF q = toView.map(QPointF(p.east, p.north));
        vertices.push_back({q.x(), q.y()});
    }
    return vertices;
}

double lengthOf(const std::vector<CanvasPoint>& line) {
    double sum = 0.0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        sum += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
    }
    return sum;
}

// Too small to be seen as a line. `open` is its length without what closes it.
bool isSpeck(const std::vector<CanvasPoint>& line, bool closed, double open, double size) {
    constexpr double least = 14.0; // round a loop, or along a line cut short by an edge
    const double last = closed ? lengthOf({line.back(), line.front()}) : 0.0;
    return open + last < least * size;
}

} // namespace

/// Adds a line to a path, leaving gaps. Lengths count from the first vertex.
class PlacedContours::BrokenLine {
public:
    BrokenLine(QPainterPath& path, std::vector<Gap> gaps, const QRectF& stripe)
        : path_(path)
        , gaps_(std::move(gaps))
        , top_(stripe.top())
        , bottom_(stripe.bottom()) {
        std::sort(
            gaps_.begin(), gaps_.end(), [](const Gap& a, const Gap& b) { return a.from < b.from; });
    }

    void add(const std::vector<CanvasPoint>& vertices, bool closed) {
        path_.moveTo(vertices.front().x, vertices.front().y);
        for (std::size_t i = 1; i < vertices.size(); ++i) {
            addPiece(vertices[i - 1], vertices[i]);
        }
        if (closed) {
            addPiece(vertices.back(), vertices.front());
        }
    }

private:
    void addPiece(CanvasPoint a, CanvasPoint b) {
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const double end = done_ + length;
        const bool outside = std::max(a.y, b.y) < top_ || std::min(a.y, b.y) > bottom_;
        if (outside) {
            while (next_ < gaps_.size() && gaps_[next_].to < end) {
                ++next_;
            }
            pen_ = false;
            done_ = end;
            return;
        }
        if (!pen_) {
            path_.moveTo(a.x, a.y);
            pen_ = true;
        }
        const auto at = [&](double along) {
            const double share = length > 0.0 ? (along - done_) / length : 0.0;
            return QPointF(a.x + share * (b.x - a.x), a.y + share * (b.y - a.y));
        };
        while (next_ < gaps_.size() && gaps_[next_].from < end) {
            const Gap& gap = gaps_[next_];
            if (gap.from >= done_) {
                path_.lineTo(at(gap.from));
            }
            if (gap.to >= end) {
                done_ = end;
                return; // still inside the gap
            }
            path_.moveTo(at(gap.to));
            ++next_;
        }
        path_.lineTo(b.x, b.y);
        done_ = end;
    }

    QPainterPath& path_;
    std::vector<Gap> gaps_;
    double top_;
    double bottom_;
    bool pen_ = true; ///< the path has come to where the next piece begins
    std::size_t next_ = 0;
    double done_ = 0.0;
};

PlacedContours::PlacedContours(
    const MapDrawing& map, const ChartStyle& style, const ChartView& view)
    : map_(&map)
    , style_(&style)
    , view_(&view)
    , gaps_(map.contours.lines.size()) {
    canvas_.reserve(map.contours.lines.size());
    for (const ContourLine& line : map.contours.lines) {
        canvas_.push_back(onCanvas(line, view.toView));
        length_.push_back(lengthOf(canvas_.back()));
    }
}

void PlacedContours::placeNumbers(const QFont& font, TakenBoxes taken) {
    const QFontMetricsF metrics(font);
    // Lines that must have their number first, long ones before short ones.
    std::vector<std::size_t> order(canvas_.size());
    std::iota(order.begin(), order.end(), 0U);
    const auto level = [&](std::size_t i) -> const ContourLevel& {
        return map_->contours.table.levels[map_->contours.lines[i].level];
    };
    std::erase_if(
        order, [&](std::size_t i) { return !level(i).labelled && !style_->everyContourLabelled; });
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(level(a).labelled, length_[a]) > std::pair(level(b).labelled, length_[b]);
    });
    std::vector<LineToLabel> lines;
    lines.reserve(order.size());
    for (const std::size_t i : order) {
        lines.push_back(
            {.vertices = canvas_[i],
             .closed = map_->contours.lines[i].closed,
             .width = metrics.horizontalAdvance(QString::fromStdString(level(i).label))});
    }
    const QRectF& w = view_->window;
    LabelOptions options;
    options.window = {{w.center().x(), w.center().y()}, w.width(), w.height(), 0.0};
    options.height = metrics.ascent();
    options.gap = 3.0 * style_->size;
    options.apart = 260.0 * style_->size;
    numbers_ = placeLabels(lines, std::move(taken), options);
    for (LabelPlace& place : numbers_) {
        place.line = order[place.line];
        gaps_[place.line].push_back({place.from, place.to});
    }
}

void PlacedContours::paintLines(QPainter& painter, const QRectF& stripe) const {
    const double wide = 2.0 * style_->size; // a line's own width, and its soft rim
    const QRectF near = stripe.adjusted(-wide, -wide, wide, wide);
    const std::vector<ContourLevel>& levels = map_->contours.table.levels;
    std::vector<QPainterPath> paths(levels.size());
    for (std::size_t i = 0; i < canvas_.size(); ++i) {
        const ContourLine& line = map_->contours.lines[i];
        if (isSpeck(canvas_[i], line.closed, length_[i], style_->size)) {
            continue;
        }
        BrokenLine broken(paths[line.level], gaps_[i], near);
        broken.add(canvas_[i], line.closed);
    }
    painter.setBrush(Qt::NoBrush);
    for (std::size_t k = 0; k < levels.size(); ++k) {
        const double opacity = style_->fill == DepthFill::Plain ? 0.9 : 0.55;
        const QColor ink = faded(inkAtDepth(*map_, *style_, levels[k].depth), opacity);
        painter.setPen(QPen(ink, (levels[k].bold ? 1.0 : 0.7) * style_->size));
        painter.drawPath(paths[k]);
    }
}

void PlacedContours::paintNumbers(
    QPainter& painter, const QFont& font, const QRectF& stripe) const {
    const QFontMetricsF metrics(font);
    painter.setFont(font);
    for (const LabelPlace& place : numbers_) {
        const double reach = place.box.width + place.box.height + metrics.height();
        if (place.box.centre.y < stripe.top() - reach ||
            place.box.centre.y > stripe.bottom() + reach) {
            continue;
        }
        const ContourLevel& level =
            map_->contours.table.levels[map_->contours.lines[place.line].level];
        const QString text = QString::fromStdString(level.label);
        painter.save();
        painter.translate(place.box.centre.x, place.box.centre.y);
        painter.rotate(place.box.turn * 180.0 / std::numbers::pi);
        painter.setPen(faded(inkOver(*map_, *style_, level.depth, forLetters), 0.95));
        painter.drawText(
            QPointF(-0.5 * metrics.horizontalAdvance(text), 0.5 * metrics.capHeight()), text);
        painter.restore();
    }
}

QColor inkAtDepth(const MapDrawing& map, const ChartStyle& style, double depth) {
    return inkOver(map, style, depth, forLines);
}

std::optional<double> depthUnder(const MapDrawing& map, Point place) {
    const GridFrame& frame = map.depth->frame;
    const double row = std::floor((frame.north - place.north) / frame.cell);
    const double column = std::floor((place.east - frame.west) / frame.cell);
    if (!(row >= 0.0 && row < frame.rows) || !(column >= 0.0 && column < frame.columns)) {
        return std::nullopt;
    }
    const float depth = map.depth->at(static_cast<int>(row), static_cast<int>(column));
    return std::isfinite(depth) ? std::optional<double>(depth) : std::nullopt;
}

GroundInk groundInkAt(const MapDrawing& map, const ChartStyle& style, Point place) {
    const auto depth = depthUnder(map, place);
    if (style.fill == DepthFill::Plain || !depth) {
        return {palette(style.palette).ink, palette(style.palette).paper};
    }
    return {inkOver(map, style, *depth, forLetters), depthColourOf(map, style.palette, *depth)};
}

} // namespace bedlore
