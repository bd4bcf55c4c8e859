// SPDX-License-Identifier: MIT
#include "gui/paint/legend_painter.hpp"

#include "gui/paint/depth_key.hpp"
#include "gui/paint/hatch_painter.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QPen>
#include <QString>

#include <algorithm>
#include <cmath>
#include <vector>

namespace bedlore {

namespace {

/// Rows of signs in columns of one width.
struct Columns {
    double rowHeight = 0.0;
    double width = 0.0;
    double sign = 0.0; ///< width of a sign
    int count = 1;
    int rows = 0;
};

std::vector<const LegendRow*> signRows(const MapDrawing& map) {
    std::vector<const LegendRow*> rows;
    for (const LegendRow& row : map.legend) {
        if (row.symbol != LegendSymbol::DepthColours) {
            rows.push_back(&row);
        }
    }
    return rows;
}

Columns
columnsFor(const MapDrawing& map, const ChartStyle& style, const QFont& font, double width) {
    const QFontMetricsF metrics(font);
    Columns columns;
    columns.rowHeight = std::max(1.25 * metrics.height(), 14.0 * style.size);
    columns.sign = 30.0 * style.size;
    double widest = 1.0;
    const auto rows = signRows(map);
    for (const LegendRow* row : rows) {
        widest = std::max(widest, metrics.horizontalAdvance(QString::fromStdString(row->words)));
    }
    columns.width = columns.sign + widest + 14.0 * style.size;
    columns.count = std::max(1, static_cast<int>(width / columns.width));
    columns.width = width / columns.count;
    columns.rows = (static_cast<int>(rows.size()) + columns.count - 1) / columns.count;
    return columns;
}

void paintContourSign(QPainter& painter, const ChartStyle& style, const QRectF& area) {
    const double y = area.center().y();
    const QColor ink = palette(style.palette).ink;
    painter.setPen(QPen(ink, 0.7 * style.size));
    painter.drawLine(
        QPointF(area.left(), y - 3.0 * style.size), QPointF(area.right(), y - 3.0 * style.size));
    painter.setPen(QPen(ink, 1.2 * style.size));
    painter.drawLine(
        QPointF(area.left(), y + 3.0 * style.size), QPointF(area.right(), y + 3.0 * style.size));
}

ReadingSymbol readingOf(const LegendRow& row) {
    switch (row.symbol) {
    case LegendSymbol::HardDrop:
        return {.drop = DropSymbol::Hard};
    case LegendSymbol::SoftDrop:
        return {.drop = DropSymbol::Soft};
    case LegendSymbol::Pull:
        return {.pull = row.pull};
    case LegendSymbol::Doubtful:
        return {.depth = true, .doubtful = true};
    case LegendSymbol::Outcome:
        return {.outcome = true};
    default:
        return {.depth = true};
    }
}

void paintSign(
    QPainter& painter, const ChartStyle& style, const LegendRow& row, const QRectF& area) {
    const SymbolPainter signs(painter, style.palette, style.size);
    const QPointF middle = area.center();
    switch (row.symbol) {
    case LegendSymbol::DepthColours:
        break;
    case LegendSymbol::Contour:
        paintContourSign(painter, style, area);
        break;
    case LegendSymbol::Unknown:
        paintUnknown(painter, area, area.topLeft(), style.palette, style.size);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(palette(style.palette).line, 0.7 * style.size));
        painter.drawRect(area);
        break;
    case LegendSymbol::DryBed:
        painter.fillRect(area, palette(style.palette).panel);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(palette(style.palette).ink, 0.9 * style.size));
        painter.drawRect(area);
        break;
    case LegendSymbol::CastLine:
        signs.cast({area.left(), middle.y()}, {area.right(), middle.y()}, false);
        break;
    case LegendSymbol::DepthReading:
    case LegendSymbol::HardDrop:
    case LegendSymbol::SoftDrop:
    case LegendSymbol::Pull:
    case LegendSymbol::Doubtful:
    case LegendSymbol::Outcome:
        signs.reading(middle, readingOf(row));
        break;
    case LegendSymbol::Stretch:
        signs.stretch(
            {area.left(), middle.y()}, {area.right(), middle.y()}, std::nullopt, std::nullopt);
        break;
    case LegendSymbol::Bottom:
        signs.bottom(middle, std::nullopt, std::nullopt);
        break;
    case LegendSymbol::SwimDot:
        signs.swim(middle, true);
        break;
    case LegendSymbol::Spot:
        signs.spot(middle);
        break;
    case LegendSymbol::MarkAbove:
        signs.mark(middle + QPointF(0.0, 3.5 * style.size), MarkTime::Day);
        break;
    case LegendSymbol::Waterline:
        painter.setPen(QPen(palette(style.palette).accent, 1.0 * style.size));
        painter.drawLine(QPointF(area.left(), middle.y()), QPointF(area.right(), middle.y()));
        break;
    }
}

} // namespace

double
legendHeight(const MapDrawing& map, const ChartStyle& style, const QFont& font, double width) {
    const Columns columns = columnsFor(map, style, font, width);
    return depthKeyHeight(map, style, font) + columns.rows * columns.rowHeight;
}

void paintLegend(
    QPainter& painter,
    const MapDrawing& map,
    const ChartStyle& style,
    const QFont& font,
    const QRectF& area) {
    const Columns columns = columnsFor(map, style, font, area.width());
    const QFontMetricsF metrics(font);
    paintDepthKey(painter, map, style, font, area);
    const double top = area.top() + depthKeyHeight(map, style, font);
    const auto rows = signRows(map);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto column = static_cast<int>(i) / columns.rows;
        const auto row = static_cast<int>(i) % columns.rows;
        const QRectF cell(
            area.left() + column * columns.width,
            top + row * columns.rowHeight,
            columns.width,
            columns.rowHeight);
        const double half = 0.5 * std::min(0.7 * columns.rowHeight, 11.0 * style.size);
        const QRectF sign(
            cell.left(), cell.center().y() - half, columns.sign - 8.0 * style.size, 2.0 * half);
        paintSign(painter, style, *rows[i], sign);
        painter.setFont(font);
        painter.setPen(palette(style.palette).ink);
        painter.drawText(
            QPointF(cell.left() + columns.sign, cell.center().y() + 0.5 * metrics.capHeight()),
            QString::fromStdString(rows[i]->words));
    }
}

} // namespace bedlore
