// SPDX-License-Identifier: MIT
#include "gui/paint/placed_chart.hpp"

#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/hatch_painter.hpp"
#include "gui/paint/reading_stamps.hpp"
#include "gui/paint/rimmed_words.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QFontMetricsF>
#include <QGuiApplication>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QPen>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <utility>

namespace bedlore {

namespace {

ChartFonts fontsFor(const ChartStyle& style) {
    constexpr double pixelsPerPoint = 96.0 / 72.0;
    QFont font = QGuiApplication::font();
    font.setPixelSize(
        std::max(1, static_cast<int>(std::lround(style.textSize * pixelsPerPoint * style.size))));
    // Whatever the canvas is scaled to later, letters keep their widths.
    font.setHintingPreference(QFont::PreferNoHinting);
    QFont small = font;
    small.setPixelSize(std::max(1, static_cast<int>(std::lround(0.88 * font.pixelSize()))));
    return {.name = font, .note = small};
}

ChartStyle styleFor(ChartStyle style, ChartPainter::Detail detail) {
    if (detail == ChartPainter::Detail::WithoutWords) {
        style.contourLabels = false;
        style.readingLabels = false;
    }
    return style;
}

/// As one picture behind a cut-out: a pattern brush would be tiled in a file.
void paintKept(
    QPainter& painter,
    const QPainterPath& outline,
    const DepthImage& depth,
    const QTransform& toView) {
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    painter.setClipPath(outline, Qt::IntersectClip);
    painter.setTransform(depth.toPlane * toView, true);
    painter.drawImage(QPointF(0.0, 0.0), depth.image);
    painter.restore();
}

/// Every pixel of the canvas by itself, however near he looks. Not by a brush: for each, Qt calls
/// in threads of its own, which stand in the way of those that paint the other stripes.
void paintPixels(
    QPainter& painter,
    const QPainterPath& outline,
    const DepthColours& depth,
    const QTransform& toView,
    const QRectF& stripe) {
    // Without where the canvas lies on what it is painted on: a window paints its parts so.
    const QTransform toDevice = painter.combinedTransform();
    const QRect device(0, 0, painter.device()->width(), painter.device()->height());
    const double ratio = painter.device()->devicePixelRatioF();
    const QRect whole(QPoint(0, 0), (QSizeF(device.size()) * ratio).toSize());
    const QRectF shown = outline.boundingRect() & stripe;
    const QRect part = toDevice.mapRect(shown).toAlignedRect().adjusted(-1, -1, 1, 1) & whole;
    if (part.isEmpty()) {
        return;
    }
    // Kept: a piece of the plan is painted anew with every line typed.
    thread_local std::vector<QRgb> kept;
    kept.assign(
        static_cast<std::size_t>(part.width()) * static_cast<std::size_t>(part.height()), 0);
    QImage pixels(
        reinterpret_cast<uchar*>(kept.data()),
        part.width(),
        part.height(),
        QImage::Format_ARGB32_Premultiplied);
    const QTransform toPart = toDevice * QTransform::fromTranslate(-part.left(), -part.top());
    QPainter cut(&pixels);
    cut.setRenderHint(QPainter::Antialiasing);
    cut.setTransform(toPart);
    cut.fillPath(outline, Qt::white);
    cut.end();
    depth.fill(pixels, (toView * toPart).inverted());
    painter.save();
    painter.setRenderHint(QPainter::SmoothPixmapTransform, false);
    painter.setTransform(toPart.inverted(), true);
    painter.drawImage(0, 0, pixels);
    painter.restore();
}

} // namespace

PlacedChart::PlacedChart(const ChartPainter& painter, ChartView view, ChartPainter::Detail detail)
    : chart_(painter)
    , map_(painter.map())
    , style_(styleFor(painter.style(), detail))
    , view_(std::move(view))
    , detail_(detail)
    , fonts_(fontsFor(style_))
    , furniture_(map_, style_, view_, fonts_) {}

std::vector<QRectF> PlacedChart::boxesOfFirst() const {
    return Furniture(map_, style_, view_, fonts_).boxesOfFirst();
}

void PlacedChart::keepClear(const std::vector<QRectF>& boxes) {
    view_.keepClear.insert(view_.keepClear.end(), boxes.begin(), boxes.end());
}

void PlacedChart::place() {
    if (style_.contours) {
        contours_ = PlacedContours(map_, style_, view_);
    }
    if (detail_ != ChartPainter::Detail::Whole) {
        return;
    }
    furniture_.place();
    taken_ = furniture_.taken();
    placeReadingLabels();
    placeFelt();
    if (style_.contours && style_.contourLabels) {
        contours_.placeNumbers(fonts_.note, taken_);
    }
}

std::optional<QPointF> PlacedChart::placeInView(const DrawnReading& reading) const {
    if (!reading.placed.place || !style_.readings) {
        return std::nullopt;
    }
    const QPointF at = view_.toView.map(toQt(*reading.placed.place));
    return view_.window.contains(at) ? std::optional(at) : std::nullopt;
}

// Depths beside their dots, wherever one of four sides is free. Found before anything is drawn, so
// that the numbers on contours keep clear of them.
void PlacedChart::placeReadingLabels() {
    const QTransform toPlane = view_.toView.inverted();
    for (const DrawnReading& reading : map_.readings) {
        if (const auto at = placeInView(reading); at && !isBottomAlone(reading)) {
            const double r = readingReach(symbolOf(reading), style_.size);
            taken_.add({{at->x(), at->y()}, 2.0 * r, 2.0 * r, 0.0});
        }
        takeStretch(reading);
    }
    const QFontMetricsF metrics(fonts_.note);
    std::map<std::string, double> widths; // the same few depths stand all over a map
    for (const DrawnReading& reading : map_.readings) {
        const auto at = placeInView(reading);
        if (style_.readingLabels && at && !reading.label.empty()) {
            const auto [width, isNew] = widths.try_emplace(reading.label, 0.0);
            if (isNew) {
                width->second = metrics.horizontalAdvance(QString::fromStdString(reading.label));
            }
            const QSizeF size(width->second, metrics.capHeight());
            placeLabelBeside(reading, *at, size, toPlane);
        }
    }
}

void PlacedChart::placeLabelBeside(
    const DrawnReading& reading, QPointF at, QSizeF size, const QTransform& toPlane) {
    const double w = size.width();
    const double h = size.height();
    const double r = readingReach(symbolOf(reading), style_.size) + 1.0 * style_.size;
    const std::array<QPointF, 4> centres{
        at + QPointF(r + 0.5 * w, 0.0),
        at - QPointF(r + 0.5 * w, 0.0),
        at - QPointF(0.0, r + 0.5 * h + style_.size),
        at + QPointF(0.0, r + 0.5 * h + style_.size)};
    for (const QPointF centre : centres) {
        const CanvasBox box{{centre.x(), centre.y()}, w + style_.size, h + 2.0 * style_.size, 0.0};
        if (taken_.isFree(box)) {
            taken_.add(box);
            const QPointF ground = toPlane.map(centre);
            labels_.push_back(
                {QString::fromStdString(reading.label),
                 centre - QPointF(0.5 * w, -0.5 * h),
                 {ground.x(), ground.y()}});
            return;
        }
    }
}

void PlacedChart::takeStretch(const DrawnReading& reading) {
    if (!style_.readings || !reading.placed.place || !reading.placed.placeTo) {
        return;
    }
    const QPointF a = view_.toView.map(toQt(*reading.placed.place));
    const QPointF b = view_.toView.map(toQt(*reading.placed.placeTo));
    const QPointF middle = 0.5 * (a + b);
    taken_.add(
        {{middle.x(), middle.y()},
         std::hypot(b.x() - a.x(), b.y() - a.y()),
         7.0 * style_.size,
         std::atan2(b.y() - a.y(), b.x() - a.x())});
}

// What was felt stands where it touches neither another sign nor a depth: a bottom noted alone
// before the pulls, since its reading has no other sign.
void PlacedChart::placeFelt() {
    const QSizeF bottom = bottomSize(style_.size);
    for (const DrawnReading& reading : map_.readings) {
        const auto at = placeInView(reading);
        if (at && isBottomAlone(reading) && takeIfFree(*at, bottom)) {
            bottoms_.push_back({*at, reading.substrate, reading.cover});
        }
    }
    const QSizeF pull = pullSize(style_.size);
    for (const DrawnReading& reading : map_.readings) {
        const auto at = placeInView(reading);
        if (!reading.pull || !at || isPullAlone(reading)) {
            continue;
        }
        const QPointF middle =
            reading.placed.placeTo
                ? pullBeside(*at, view_.toView.map(toQt(*reading.placed.placeTo)), style_.size)
                : pullBelow(*at, symbolOf(reading), style_.size);
        if (takeIfFree(middle, pull)) {
            pulls_.push_back({middle, *reading.pull});
        }
    }
}

bool PlacedChart::takeIfFree(QPointF middle, QSizeF size) {
    const CanvasBox box{{middle.x(), middle.y()}, size.width(), size.height(), 0.0};
    const bool isFree = view_.window.contains(middle) && taken_.isFree(box);
    if (isFree) {
        taken_.add(box);
    }
    return isFree;
}

void PlacedChart::begin(QPainter& painter) const {
    painter.setClipRect(view_.window, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::TextAntialiasing);
}

void PlacedChart::paintGround(QPainter& painter, const QRectF& stripe) const {
    painter.save();
    begin(painter);
    if (map_.hatchUnknown) {
        const QPointF origin = view_.toView.map(QPointF(0.0, 0.0));
        paintUnknown(painter, view_.window, origin, style_.palette, style_.size);
    } else {
        painter.fillRect(view_.window, palette(style_.palette).paper);
    }
    if (!chart_.outline().isEmpty()) {
        paintDepth(painter, stripe);
    }
    painter.restore();
}

void PlacedChart::paintDepth(QPainter& painter, const QRectF& stripe) const {
    // A path of its own: what a painter finds out about a path is kept with it.
    const QPainterPath outline = view_.toView.map(chart_.outline());
    const DepthColours& depth = chart_.depth();
    if (style_.fill == DepthFill::Plain || depth.isEmpty()) {
        painter.fillPath(outline, palette(style_.palette).paper);
    } else if (painter.paintEngine()->type() == QPaintEngine::Pdf) {
        paintKept(painter, outline, depth.picture(), view_.toView);
    } else {
        paintPixels(painter, outline, depth, view_.toView, stripe);
    }
}

void PlacedChart::paintLinesAndSigns(QPainter& painter, const QRectF& stripe) const {
    painter.save();
    begin(painter);
    if (!chart_.outline().isEmpty()) {
        const QPainterPath outline = view_.toView.map(chart_.outline());
        if (style_.contours) {
            contours_.paintLines(painter, stripe); // they end at the outline
        }
        painter.setBrush(Qt::NoBrush);
        QColor edge = mapInks(style_.palette).ink;
        edge.setAlphaF(0.6F);
        painter.setPen(QPen(edge, 0.9 * style_.size));
        painter.drawPath(outline);
    }
    paintWaterline(painter);
    furniture_.paintRings(painter);
    if (style_.casts) {
        paintCasts(painter);
    }
    paintReadings(painter, stripe);
    painter.restore();
}

void PlacedChart::paintWaterline(QPainter& painter) const {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(palette(style_.palette).accent, 1.0 * style_.size));
    for (const Ring& ring : map_.waterline) {
        QPolygonF polygon;
        for (const Point p : ring) {
            polygon.append(view_.toView.map(toQt(p)));
        }
        painter.drawPolygon(polygon);
    }
}

void PlacedChart::paintCasts(QPainter& painter) const {
    const SymbolPainter symbols(painter, style_.palette, style_.size);
    for (const DrawnCast& cast : map_.casts) {
        if (cast.end) {
            symbols.cast(
                view_.toView.map(toQt(cast.tip)),
                view_.toView.map(toQt(*cast.end)),
                cast.directionGuessed);
        }
    }
}

void PlacedChart::paintReadings(QPainter& painter, const QRectF& stripe) const {
    if (!style_.readings) {
        return;
    }
    paintBottoms(painter);
    const double most = 16.0 * style_.size; // no sign reaches farther
    const QRectF near = stripe.adjusted(-most, -most, most, most);
    const ReadingStamps stamps(painter, style_.palette, style_.size);
    for (const DrawnReading& reading : map_.readings) {
        const auto at = placeInView(reading);
        if (at && near.contains(*at)) {
            stamps.paint(*at, symbolOf(reading));
        }
    }
    for (const PlacedPull& pull : pulls_) {
        if (near.contains(pull.middle)) {
            stamps.paint(pull.middle, {.pull = pull.kind});
        }
    }
}

void PlacedChart::paintBottoms(QPainter& painter) const {
    const SymbolPainter symbols(painter, style_.palette, style_.size);
    for (const DrawnReading& reading : map_.readings) {
        if (reading.placed.place && reading.placed.placeTo) {
            symbols.stretch(
                view_.toView.map(toQt(*reading.placed.place)),
                view_.toView.map(toQt(*reading.placed.placeTo)),
                reading.substrate,
                reading.cover);
        }
    }
    for (const PlacedBottom& bottom : bottoms_) {
        symbols.bottom(bottom.middle, bottom.substrate, bottom.cover);
    }
}

void PlacedChart::paintReadingLabels(
    QPainter& painter, const QFont& font, const QRectF& stripe) const {
    const double most = 2.0 * font.pixelSize(); // no letter reaches farther from its base line
    for (const Label& label : labels_) {
        if (label.base.y() < stripe.top() - most || label.base.y() > stripe.bottom() + most) {
            continue;
        }
        const GroundInk colours = groundInkAt(map_, style_, label.place);
        QColor rim = colours.ground;
        rim.setAlphaF(0.7F);
        paintRimmedWords(
            painter,
            label.base,
            label.text,
            font,
            {.ink = colours.ink, .rim = rim, .width = 1.1 * style_.size});
    }
}

void PlacedChart::paintWords(QPainter& painter, const QRectF& stripe) const {
    if (detail_ != ChartPainter::Detail::Whole) {
        return;
    }
    const ChartFonts fonts{.name = unshared(fonts_.name), .note = unshared(fonts_.note)};
    painter.save();
    begin(painter);
    if (style_.contours && !chart_.outline().isEmpty()) {
        painter.save();
        // A path of its own, as for the ground.
        painter.setClipPath(view_.toView.map(chart_.outline()), Qt::IntersectClip);
        contours_.paintNumbers(painter, fonts.note, stripe);
        painter.restore();
    }
    paintReadingLabels(painter, fonts.note, stripe);
    furniture_.paint(painter, fonts, stripe);
    painter.restore();
}

} // namespace bedlore
