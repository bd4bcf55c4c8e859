// SPDX-License-Identifier: MIT
#include "gui/paint/symbol_painter.hpp"

#include "gui/paint/stretch_pattern.hpp"

#include <QFont>
#include <QImage>
#include <QLineF>
#include <QPaintDevice>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QPen>
#include <QPolygonF>
#include <QStaticText>
#include <QTransform>
#include <QVector>

#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace bedlore {

MapInks mapInks(PaletteKind kind) {
    // The depth colours are the same by day in every palette, so what lies on them is too.
    switch (kind) {
    case PaletteKind::Light:
    case PaletteKind::Dark:
        return {palette(PaletteKind::Light).ink, palette(PaletteKind::Light).paper};
    case PaletteKind::Night:
    case PaletteKind::Print:
        break;
    }
    return {palette(kind).ink, palette(kind).paper};
}

ReadingSymbol symbolOf(const DrawnReading& reading) {
    return {
        .depth = !reading.label.empty(),
        .drop = reading.drop,
        .pull = isPullAlone(reading) ? reading.pull : std::nullopt,
        .doubtful = reading.doubtful,
        .outcome = reading.outcome};
}

SymbolPainter::SymbolPainter(QPainter& painter, PaletteKind palette, double size)
    : SymbolPainter(painter, palette, size, mapInks(palette)) {}

SymbolPainter::SymbolPainter(
    QPainter& painter, PaletteKind palette, double size, const MapInks& inks)
    : painter_(painter)
    , inks_(inks)
    , palette_(palette)
    , size_(size) {}

namespace {

// Half of what a pull's sign needs.
constexpr double pullWide = 4.0;
constexpr double pullHigh = 2.6;
constexpr double bottomWide = 4.0; // half of a bottom's band

/// Round its middle, x to the right and y down.
QPainterPath shapeOf(Pull kind) {
    QPainterPath shape;
    const auto line = [&shape](double x1, double y1, double x2, double y2) {
        shape.moveTo(x1, y1);
        shape.lineTo(x2, y2);
    };
    switch (kind) {
    case Pull::Tap:
        line(-1.5, -2.0, -1.5, 2.0);
        line(1.5, -2.0, 1.5, 2.0);
        break;
    case Pull::Judder:
        shape.moveTo(-3.6, 1.6);
        for (const auto& [x, y] :
             {std::pair(-2.4, -1.6),
              {-1.2, 1.6},
              {0.0, -1.6},
              {1.2, 1.6},
              {2.4, -1.6},
              {3.6, 1.6}}) {
            shape.lineTo(x, y);
        }
        break;
    case Pull::Scrape:
        for (const double x : {-2.4, 0.0, 2.4}) {
            line(x - 0.9, 2.0, x + 0.9, -2.0);
        }
        break;
    case Pull::Glide:
        line(-3.6, 0.0, 3.6, 0.0);
        break;
    case Pull::Stick:
        line(-3.4, 0.0, 1.8, 0.0);
        line(1.8, -2.2, 1.8, 2.2);
        break;
    case Pull::Plug:
        shape.moveTo(3.0, 1.5);
        shape.arcTo(QRectF(-3.0, -1.5, 6.0, 6.0), 0.0, 180.0);
        shape.closeSubpath();
        break;
    case Pull::Lock:
        shape.addRect(QRectF(-1.9, -1.9, 3.8, 3.8));
        break;
    case Pull::Free:
        line(-3.4, 0.0, -1.0, 0.0);
        line(1.0, 0.0, 3.4, 0.0);
        break;
    }
    return shape;
}

} // namespace

double readingReach(const ReadingSymbol& symbol, double size) {
    const double inner = symbol.pull                                         ? pullWide
                         : symbol.drop != DropSymbol::None || symbol.outcome ? 3.5
                                                                             : 2.1;
    return size * (symbol.doubtful ? inner + 2.6 : inner + 1.0);
}

QSizeF pullSize(double size) {
    return QSizeF(2.0 * pullWide, 2.0 * pullHigh) * size;
}

QSizeF bottomSize(double size) {
    return QSizeF(2.0 * bottomWide + 1.0, 7.0) * size; // a band six high, and its edge
}

QPointF pullBelow(QPointF at, const ReadingSymbol& symbol, double size) {
    return at + QPointF(0.0, readingReach(symbol, size) + (pullHigh + 0.4) * size);
}

QPointF pullBeside(QPointF from, QPointF to, double size) {
    // Half a band, the sign, and a little room.
    const double apart = (3.0 + pullHigh + 1.4) * size;
    const QPointF along = to - from;
    const double length = std::hypot(along.x(), along.y());
    const QPointF middle = 0.5 * (from + to);
    if (!(length > 0.0)) {
        return middle + QPointF(0.0, apart);
    }
    QPointF across(-along.y() / length, along.x() / length);
    if (across.y() < -1e-9 || (std::abs(across.y()) <= 1e-9 && across.x() < 0.0)) {
        across = -across;
    }
    return middle + apart * across;
}

void SymbolPainter::reading(QPointF at, const ReadingSymbol& symbol) const {
    const double s = size_;
    const QPen rim(inks_.paper, 0.9 * s);
    const QPen line(inks_.ink, 1.0 * s);
    if (symbol.outcome) {
        const double r = 2.8 * s;
        const std::array<QLineF, 2> strokes{
            QLineF(at - QPointF(r, r), at + QPointF(r, r)),
            QLineF(at + QPointF(-r, r), at + QPointF(r, -r))};
        painter_.setPen(QPen(inks_.paper, 2.6 * s));
        painter_.drawLines(strokes.data(), 2);
        painter_.setPen(line);
        painter_.drawLines(strokes.data(), 2);
    }
    if (symbol.drop == DropSymbol::Hard) {
        painter_.setPen(rim);
        painter_.setBrush(inks_.ink);
        painter_.drawEllipse(at, 3.5 * s, 3.5 * s);
    } else if (symbol.drop == DropSymbol::Soft) {
        painter_.setPen(line);
        painter_.setBrush(inks_.paper);
        painter_.drawEllipse(at, 3.2 * s, 3.2 * s);
    }
    if (symbol.depth && symbol.drop != DropSymbol::Hard) {
        painter_.setPen(symbol.drop == DropSymbol::None ? rim : QPen(Qt::NoPen));
        painter_.setBrush(inks_.ink);
        const double r = (symbol.drop == DropSymbol::None ? 2.1 : 1.3) * s;
        painter_.drawEllipse(at, r, r);
    }
    if (symbol.pull) {
        pull(at, *symbol.pull);
    }
    if (symbol.doubtful) {
        QPen broken(inks_.ink, 0.9 * s);
        broken.setDashPattern({2.2, 1.8});
        painter_.setPen(broken);
        painter_.setBrush(Qt::NoBrush);
        const double r = readingReach(symbol, s) - 0.5 * s;
        painter_.drawEllipse(at, r, r);
    }
}

void SymbolPainter::pull(QPointF at, Pull kind) const {
    const bool filled = kind == Pull::Plug || kind == Pull::Lock;
    const QPainterPath shape =
        QTransform::fromScale(size_, size_).map(shapeOf(kind)).translated(at);
    const auto pen = [this](const QColor& colour, double width) {
        return QPen(colour, width * size_, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    };
    painter_.setBrush(Qt::NoBrush);
    painter_.setPen(pen(inks_.paper, filled ? 1.8 : 2.6));
    painter_.drawPath(shape);
    painter_.setBrush(filled ? QBrush(inks_.ink) : QBrush(Qt::NoBrush));
    painter_.setPen(filled ? QPen(Qt::NoPen) : pen(inks_.ink, 1.1));
    painter_.drawPath(shape);
}

void SymbolPainter::bottom(
    QPointF at, std::optional<Substrate> substrate, std::optional<Cover> cover) const {
    const QPointF half(bottomWide * size_, 0.0);
    stretch(at - half, at + half, substrate, cover);
}

void SymbolPainter::stretch(
    QPointF from,
    QPointF to,
    std::optional<Substrate> substrate,
    std::optional<Cover> cover) const {
    const QLineF line(from, to);
    const double s = size_;
    const double length = line.length();
    if (!(length > 0.0)) {
        return;
    }
    const bool covered = cover && *cover != Cover::Clear;
    const StretchLook look = covered     ? lookOf(*cover)
                             : substrate ? lookOf(*substrate)
                                         : StretchLook{};
    const bool coloured = palette_ != PaletteKind::Night && palette_ != PaletteKind::Print;
    const QColor colour = coloured && look.colour.isValid() ? look.colour.darker(125) : inks_.ink;
    const QColor ink = look.filled ? inks_.paper : colour;
    painter_.save();
    painter_.translate(from);
    painter_.rotate(-line.angle());
    painter_.setPen(QPen(faded(inks_.ink, 0.55), 0.6 * s));
    painter_.setBrush(look.filled ? colour : faded(inks_.paper, 0.72));
    painter_.drawRoundedRect(QRectF(0.0, -3.0 * s, length, 6.0 * s), 2.0 * s, 2.0 * s);
    painter_.setPen(QPen(ink, (look.pattern == StretchPattern::ThickTicks ? 1.6 : 0.9) * s));
    painter_.setBrush(look.pattern == StretchPattern::Dots ? QBrush(ink) : QBrush(Qt::NoBrush));
    const double pitch = 5.5 * s;
    const double count = std::min(std::floor((length - 1.5 * s) / pitch), 4000.0);
    const double first = 0.5 * (length - (count - 1.0) * pitch);
    for (int i = 0; i < count; ++i) {
        painter_.translate(i == 0 ? first : pitch, 0.0);
        paintPiece(painter_, look.pattern, s);
    }
    painter_.restore();
}

void SymbolPainter::cast(QPointF tip, QPointF end, bool guessed) const {
    const QLineF line(tip, end);
    // A light line beside the dark one, so that one of them shows; a rim would cost far more time.
    const QPointF beside =
        0.9 * size_ *
        QPointF(line.normalVector().unitVector().dx(), line.normalVector().unitVector().dy());
    painter_.setPen(QPen(faded(inks_.paper, 0.5), 0.8 * size_));
    painter_.drawLine(line.translated(beside));
    QPen pen(faded(inks_.ink, 0.5), 0.6 * size_);
    if (guessed) {
        pen.setDashPattern({9.0, 6.0});
    }
    painter_.setPen(pen);
    painter_.drawLine(line);
}

void SymbolPainter::swim(QPointF at, bool chosen) const {
    const double s = size_;
    const QColor accent =
        palette(palette_ == PaletteKind::Dark ? PaletteKind::Light : palette_).accent;
    const double r = (chosen ? 4.4 : 3.2) * s;
    // A dot in a ring: never mistaken for a reading.
    painter_.setPen(QPen(accent, 1.0 * s));
    painter_.setBrush(inks_.paper);
    painter_.drawEllipse(at, r + 2.2 * s, r + 2.2 * s);
    painter_.setPen(Qt::NoPen);
    painter_.setBrush(accent);
    painter_.drawEllipse(at, r, r);
}

void SymbolPainter::spot(QPointF at) const {
    const double r = 5.0 * size_;
    const QPolygonF diamond(
        {at + QPointF(0.0, -r), at + QPointF(r, 0.0), at + QPointF(0.0, r), at + QPointF(-r, 0.0)});
    const Palette& colours = palette(palette_);
    painter_.setBrush(Qt::NoBrush);
    painter_.setPen(QPen(colours.paper, 3.2 * size_));
    painter_.drawPolygon(diamond);
    const bool print = palette_ == PaletteKind::Print;
    painter_.setPen(QPen(print ? colours.ink : colours.accent, 1.4 * size_));
    painter_.drawPolygon(diamond);
}

void SymbolPainter::mark(QPointF at, MarkTime time) const {
    const double s = size_;
    const QPolygonF standing(
        {at + QPointF(0.0, -7.0 * s), at + QPointF(-3.8 * s, 0.0), at + QPointF(3.8 * s, 0.0)});
    // It stands beyond the bed, on paper.
    const Palette& colours = palette(palette_);
    painter_.setPen(QPen(colours.paper, 2.4 * s));
    painter_.setBrush(Qt::NoBrush);
    painter_.drawPolygon(standing);
    painter_.setPen(QPen(colours.ink, 0.9 * s));
    painter_.setBrush(time == MarkTime::Night ? QBrush(colours.paper) : QBrush(colours.ink));
    painter_.drawPolygon(standing);
}

bool isVector(const QPainter& painter) {
    return painter.paintEngine()->type() == QPaintEngine::Pdf;
}

} // namespace bedlore
