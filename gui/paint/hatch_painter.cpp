// SPDX-License-Identifier: MIT
#include "gui/paint/hatch_painter.hpp"

#include "gui/paint/symbol_painter.hpp"

#include <QImage>
#include <QLineF>
#include <QPainter>
#include <QVector>
#include <QtMath>

#include <cmath>

namespace bedlore {

namespace {

// Six units across the lines are 8.5 along an edge, to the hundredth.
constexpr double hatchStep = 8.5;

struct HatchPen {
    QColor colour;
    double width;
};

HatchPen hatchPen(PaletteKind kind, double size) {
    const bool print = kind == PaletteKind::Print;
    if (kind == PaletteKind::Night) {
        // Brighter than other lines: deep water is nearly as dark as the paper.
        return {faded(palette(kind).softInk, 0.36), 0.8 * size};
    }
    return {faded(palette(kind).line, print ? 0.6 : 1.0), (print ? 0.5 : 0.8) * size};
}

// Lines x + y = constant through `origin`, `step` apart along x.
void paintHatchLines(QPainter& painter, const QRectF& area, QPointF origin, double step) {
    const double through = origin.x() + origin.y();
    const double first = area.left() + area.top();
    const double last = area.right() + area.bottom();
    QVector<QLineF> lines;
    const double start = through + std::ceil((first - through) / step) * step;
    const int count = static_cast<int>(std::floor((last - start) / step)) + 1;
    for (int i = 0; i < count; ++i) {
        const double sum = start + i * step;
        lines.append(QLineF(sum - area.bottom(), area.bottom(), sum - area.top(), area.top()));
    }
    painter.drawLines(lines);
}

struct HatchPicture {
    PaletteKind kind = PaletteKind::Light;
    double size = 0.0;
    int side = 0; ///< of a tile
    QImage picture;
};

/// Two lines make a tile, many tiles a picture. Kept: with every line typed it is laid in several
/// stripes.
const HatchPicture& hatchPicture(PaletteKind kind, double size) {
    thread_local HatchPicture kept;
    if (kept.picture.isNull() || kept.kind != kind || kept.size != size) {
        const HatchPen pen = hatchPen(kind, size);
        const double step = hatchStep * size;
        const double side = 2.0 * step;
        QImage tile(static_cast<int>(side), static_cast<int>(side), QImage::Format_RGB32);
        tile.fill(palette(kind).paper);
        QPainter painter(&tile);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(pen.colour, pen.width));
        paintHatchLines(painter, QRectF(-side, -side, 3.0 * side, 3.0 * side), QPointF(), step);
        painter.end();
        constexpr int across = 24;
        constexpr int down = 4;
        QImage picture(across * tile.width(), down * tile.height(), tile.format());
        QPainter tiler(&picture);
        tiler.fillRect(picture.rect(), QBrush(tile));
        tiler.end();
        kept = {.kind = kind, .size = size, .side = tile.width(), .picture = picture};
    }
    return kept;
}

/// By pictures rather than a brush, for which Qt calls in threads of its own: they stand in the way
/// of those that paint the other stripes.
void layHatch(QPainter& painter, const QRectF& area, QPointF origin, const HatchPicture& hatch) {
    const auto before = [&](double least, double through) {
        return through + hatch.side * std::floor((least - through) / hatch.side);
    };
    const QSizeF size = hatch.picture.size();
    const QPointF first(
        before(area.left(), std::round(origin.x())), before(area.top(), std::round(origin.y())));
    const int rows = qCeil((area.bottom() - first.y()) / size.height());
    const int columns = qCeil((area.right() - first.x()) / size.width());
    for (int row = 0; row < rows; ++row) {
        for (int column = 0; column < columns; ++column) {
            painter.drawImage(
                first + QPointF(column * size.width(), row * size.height()), hatch.picture);
        }
    }
}

} // namespace

void paintUnknown(
    QPainter& painter, const QRectF& area, QPointF origin, PaletteKind kind, double size) {
    if (area.isEmpty()) {
        return;
    }
    const HatchPen pen = hatchPen(kind, size);
    const double step = hatchStep * size;
    const double side = 2.0 * step;
    painter.save();
    painter.setClipRect(area, Qt::IntersectClip);
    const bool tiles = !isVector(painter) && side == std::floor(side) &&
                       painter.device()->devicePixelRatioF() == 1.0 &&
                       painter.worldTransform().type() <= QTransform::TxTranslate;
    if (tiles) {
        layHatch(painter, painter.clipBoundingRect(), origin, hatchPicture(kind, size));
    } else {
        painter.fillRect(area, palette(kind).paper);
        painter.setPen(QPen(pen.colour, pen.width));
        paintHatchLines(painter, area, origin, step);
    }
    painter.restore();
}

} // namespace bedlore
