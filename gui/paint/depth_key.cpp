// SPDX-License-Identifier: MIT
#include "gui/paint/depth_key.hpp"

#include "core/units/format.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/depth_colours.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPen>

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

void paintColours(
    QPainter& painter, const MapDrawing& map, const ChartStyle& style, const QRectF& bar) {
    const double first = firstColouredDepth(map);
    const double range = map.deepest - first;
    if (style.fill == DepthFill::Colour) {
        constexpr int steps = 96;
        for (int i = 0; i < steps; ++i) {
            const double share = (i + 0.5) / steps;
            painter.fillRect(
                QRectF(
                    bar.left() + bar.width() * i / steps,
                    bar.top(),
                    bar.width() / steps + 0.3 * style.size,
                    bar.height()),
                depthColourOf(map, style.palette, first + share * range));
        }
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette(style.palette).ink, 0.8 * style.size));
    painter.drawRect(bar);
}

/// A line across the bar at each contour's depth, and its number where there is room.
void paintDepths(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& bar) {
    const QFontMetricsF metrics(font);
    const double s = style.size;
    const double first = firstColouredDepth(map);
    const double range = map.deepest - first;
    double freeFrom = -1e9;
    for (const ContourLevel& level : map.contours.table.levels) {
        const double x =
            bar.left() + bar.width() * (range > 0.0 ? (level.depth - first) / range : 0.5);
        painter.setPen(QPen(inkAtDepth(map, style, level.depth), (level.bold ? 1.0 : 0.6) * s));
        painter.drawLine(QPointF(x, bar.top()), QPointF(x, bar.bottom()));
        const QString text = QString::fromStdString(level.label);
        const double half = 0.5 * metrics.horizontalAdvance(text);
        if (level.labelled && x - half > freeFrom) {
            painter.setPen(palette(style.palette).ink);
            painter.drawText(QPointF(x - half, bar.bottom() + metrics.ascent() + 1.0 * s), text);
            freeFrom = x + half + 3.0 * s;
        }
    }
}

/// The shallowest and the deepest of the colours: "4½" and "15 ft".
struct KeyEnds {
    QString shallow;
    QString deep;
};

KeyEnds endsOf(const MapDrawing& map) {
    const double unit = map.depthUnit == Unit::Foot ? foot.si() : 1.0;
    const auto words = [unit](double depth) {
        return printNumber(std::round(depth / unit * 2.0) / 2.0);
    };
    return {
        .shallow = QString::fromStdString(words(firstColouredDepth(map))),
        .deep = QString::fromStdString(
            words(map.deepest) + ' ' + std::string(unitName(map.depthUnit)))};
}

constexpr double smallBar = 60.0; // width of the colours in a key of one row
constexpr double barGap = 5.0;    // from them to the words

} // namespace

QString depthKeyWords(const MapDrawing& map) {
    const auto row = std::find_if(map.legend.begin(), map.legend.end(), [](const LegendRow& r) {
        return r.symbol == LegendSymbol::DepthColours;
    });
    return row != map.legend.end() ? QString::fromStdString(row->words) : QString();
}

double depthKeyHeight(const MapDrawing& map, const ChartStyle& style, const QFont& font) {
    return depthKeyWords(map).isEmpty() ? 0.0
                                        : 2.4 * QFontMetricsF(font).height() + 10.0 * style.size;
}

void paintDepthKey(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area) {
    const QString words = depthKeyWords(map);
    if (words.isEmpty()) {
        return;
    }
    const QFontMetricsF metrics(font);
    painter.setFont(font);
    painter.setPen(palette(style.palette).ink);
    painter.drawText(QPointF(area.left(), area.top() + metrics.ascent()), words);
    const QRectF bar(
        area.left(), area.top() + 1.25 * metrics.height(), area.width(), 8.0 * style.size);
    paintColours(painter, map, style, bar);
    paintDepths(painter, map, style, font, bar);
}

QSizeF smallDepthKeySize(const MapDrawing& map, const ChartStyle& style, const QFont& font) {
    const QFontMetricsF metrics(font);
    const KeyEnds ends = endsOf(map);
    return {
        metrics.horizontalAdvance(ends.shallow) + metrics.horizontalAdvance(ends.deep) +
            (smallBar + 2.0 * barGap) * style.size,
        metrics.height()};
}

void paintSmallDepthKey(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area) {
    const QFontMetricsF metrics(font);
    const KeyEnds ends = endsOf(map);
    const double gap = barGap * style.size;
    const double base = area.top() + metrics.ascent();
    const double left = area.left() + metrics.horizontalAdvance(ends.shallow) + gap;
    const double height = 0.8 * metrics.capHeight();
    const QRectF bar(
        left, base - 0.5 * (metrics.capHeight() + height), smallBar * style.size, height);
    painter.setFont(font);
    painter.setPen(palette(style.palette).ink);
    painter.drawText(QPointF(area.left(), base), ends.shallow);
    painter.drawText(QPointF(bar.right() + gap, base), ends.deep);
    paintColours(painter, map, style, bar);
}

} // namespace bedlore
