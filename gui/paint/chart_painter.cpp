// SPDX-License-Identifier: MIT
#include "gui/paint/chart_painter.hpp"

#include "core/base/contract.hpp"
#include "gui/paint/chart_geometry.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/furniture_painter.hpp"
#include "gui/paint/symbol_painter.hpp"

#include <QFont>
#include <QFontMetricsF>
#include <QGuiApplication>
#include <QPaintEngine>
#include <QPainter>
#include <QPainterPath>
#include <QPen>

#include <algorithm>
#include <array>
#include <cmath>

namespace bedlore {

namespace {

/// One painting of a map.
class Canvas {
public:
    Canvas(QPainter& painter, const MapDrawing& map, const ChartStyle& style, const ChartView& view)
        : painter_(painter)
        , map_(map)
        , style_(style)
        , view_(view)
        , colours_(palette(style.palette))
        , font_(QGuiApplication::font()) {
        constexpr double pixelsPerPoint = 96.0 / 72.0;
        font_.setPixelSize(std::max(
            1, static_cast<int>(std::lround(style.textSize * pixelsPerPoint * style.size))));
        // Whatever the canvas is scaled to later, letters keep their widths.
        font_.setHintingPreference(QFont::PreferNoHinting);
        smallFont_ = font_;
        smallFont_.setPixelSize(
            std::max(1, static_cast<int>(std::lround(0.88 * font_.pixelSize()))));
    }

    void paintGround() {
        painter_.fillRect(view_.window, colours_.paper);
        if (map_.hatchUnknown) {
            paintUnknown(
                painter_,
                view_.window,
                view_.toView.map(QPointF(0.0, 0.0)),
                style_.palette,
                style_.size);
        }
    }

    void paintBed(const QPainterPath& shown, const DepthImage& depth) {
        if (shown.isEmpty()) {
            return;
        }
        const QPainterPath outline = view_.toView.map(shown);
        painter_.save();
        if (style_.fill == DepthFill::Plain || depth.image.isNull()) {
            painter_.fillPath(outline, colours_.paper);
        } else {
            paintPicture(outline, depth);
        }
        painter_.setClipPath(outline, Qt::IntersectClip);
        if (style_.contours) {
            paintContours(painter_, map_, style_, view_, smallFont_, taken_);
        }
        painter_.restore();
        painter_.setBrush(Qt::NoBrush);
        QColor edge = mapInks(style_.palette).ink;
        edge.setAlphaF(0.6F);
        painter_.setPen(QPen(edge, 0.9 * style_.size));
        painter_.drawPath(outline);
    }

    void paintWaterline() {
        painter_.setBrush(Qt::NoBrush);
        painter_.setPen(QPen(colours_.accent, 1.0 * style_.size));
        for (const Ring& ring : map_.waterline) {
            QPolygonF polygon;
            for (const Point p : ring) {
                polygon.append(view_.toView.map(toQt(p)));
            }
            painter_.drawPolygon(polygon);
        }
    }

    void paintCasts() {
        const SymbolPainter symbols(painter_, style_.palette, style_.size);
        for (const DrawnCast& cast : map_.casts) {
            if (cast.end) {
                symbols.cast(
                    view_.toView.map(toQt(cast.tip)),
                    view_.toView.map(toQt(*cast.end)),
                    cast.directionGuessed);
            }
        }
    }

    void paintReadings() {
        if (!style_.readings) {
            return;
        }
        const SymbolPainter symbols(painter_, style_.palette, style_.size);
        for (const DrawnReading& reading : map_.readings) {
            if (reading.placed.place && reading.placed.placeTo) {
                symbols.stretch(
                    view_.toView.map(toQt(*reading.placed.place)),
                    view_.toView.map(toQt(*reading.placed.placeTo)),
                    reading.substrate,
                    reading.cover);
            }
        }
        for (const DrawnReading& reading : map_.readings) {
            if (const auto at = placeInView(reading)) {
                symbols.reading(*at, symbolOf(reading));
            }
        }
    }

    // Depths beside their dots, wherever one of four sides is free. Found before anything is drawn,
    // so that the numbers on contours keep clear of them.
    void placeReadingLabels() {
        const SymbolPainter symbols(painter_, style_.palette, style_.size);
        const QFontMetricsF metrics(smallFont_);
        const QTransform toPlane = view_.toView.inverted();
        for (const DrawnReading& reading : map_.readings) {
            if (const auto at = placeInView(reading)) {
                const double r = symbols.reach(symbolOf(reading));
                taken_.push_back({{at->x(), at->y()}, 2.0 * r, 2.0 * r, 0.0});
            }
            takeStretch(reading);
        }
        for (const DrawnReading& reading : map_.readings) {
            const auto at = placeInView(reading);
            if (!style_.readingLabels || !at || reading.label.empty()) {
                continue;
            }
            const QString text = QString::fromStdString(reading.label);
            const double w = metrics.horizontalAdvance(text);
            const double h = metrics.capHeight();
            const double r = symbols.reach(symbolOf(reading)) + 1.0 * style_.size;
            const std::array<QPointF, 4> centres{
                *at + QPointF(r + 0.5 * w, 0.0),
                *at - QPointF(r + 0.5 * w, 0.0),
                *at - QPointF(0.0, r + 0.5 * h + style_.size),
                *at + QPointF(0.0, r + 0.5 * h + style_.size)};
            for (const QPointF centre : centres) {
                const CanvasBox box{
                    {centre.x(), centre.y()}, w + style_.size, h + 2.0 * style_.size, 0.0};
                if (std::none_of(taken_.begin(), taken_.end(), [&](const CanvasBox& other) {
                        return overlap(box, other);
                    })) {
                    taken_.push_back(box);
                    const QPointF ground = toPlane.map(centre);
                    labels_.push_back(
                        {text, centre - QPointF(0.5 * w, -0.5 * h), {ground.x(), ground.y()}});
                    break;
                }
            }
        }
    }

    void paintReadingLabels() {
        for (const Label& label : labels_) {
            const GroundInk colours = groundInkAt(map_, style_, label.place);
            QColor rim = colours.ground;
            rim.setAlphaF(0.7F);
            paintRimmedWords(
                painter_,
                label.base,
                label.text,
                smallFont_,
                {.ink = colours.ink, .rim = rim, .width = 1.1 * style_.size});
        }
    }

    [[nodiscard]] Furniture furniture() const { return {map_, style_, view_, font_}; }
    void keepClearOf(const std::vector<CanvasBox>& boxes) {
        taken_.insert(taken_.end(), boxes.begin(), boxes.end());
    }

private:
    struct Label {
        QString text;
        QPointF base;
        Point place;
    };

    void paintPicture(const QPainterPath& outline, const DepthImage& depth) {
        const QTransform toView = depth.toPlane * view_.toView;
        painter_.setRenderHint(QPainter::SmoothPixmapTransform);
        if (painter_.paintEngine()->type() == QPaintEngine::Pdf) {
            // As one picture behind a cut-out: a pattern brush would be tiled.
            painter_.save();
            painter_.setClipPath(outline, Qt::IntersectClip);
            painter_.setTransform(toView, true);
            painter_.drawImage(QPointF(0.0, 0.0), depth.image);
            painter_.restore();
            return;
        }
        QBrush brush(depth.image);
        brush.setTransform(toView);
        painter_.fillPath(outline, brush);
    }

    void takeStretch(const DrawnReading& reading) {
        if (!style_.readings || !reading.placed.place || !reading.placed.placeTo) {
            return;
        }
        const QPointF a = view_.toView.map(toQt(*reading.placed.place));
        const QPointF b = view_.toView.map(toQt(*reading.placed.placeTo));
        const QPointF middle = 0.5 * (a + b);
        taken_.push_back(
            {{middle.x(), middle.y()},
             std::hypot(b.x() - a.x(), b.y() - a.y()),
             7.0 * style_.size,
             std::atan2(b.y() - a.y(), b.x() - a.x())});
    }

    [[nodiscard]] std::optional<QPointF> placeInView(const DrawnReading& reading) const {
        if (!reading.placed.place || !style_.readings) {
            return std::nullopt;
        }
        const QPointF at = view_.toView.map(toQt(*reading.placed.place));
        return view_.window.contains(at) ? std::optional(at) : std::nullopt;
    }

    QPainter& painter_;
    const MapDrawing& map_;
    const ChartStyle& style_;
    const ChartView& view_;
    const Palette& colours_;
    QFont font_;
    QFont smallFont_;
    std::vector<CanvasBox> taken_;
    std::vector<Label> labels_;
};

} // namespace

double unitsPerMetre(const ChartView& view) {
    return std::sqrt(std::abs(view.toView.determinant()));
}

ChartView
viewOf(std::span<const Point> places, PlaneBearing up, const QRectF& window, double margin) {
    BEDLORE_EXPECTS(!places.empty());
    QTransform turned; // metres to the right and down
    turned.scale(1.0, -1.0);
    turned = turned * QTransform().rotateRadians(-(up.clockwise() / radian));
    QRectF box;
    for (const Point p : places) {
        const QPointF q = turned.map(toQt(p));
        const QRectF dot(q, QSizeF(0.0, 0.0));
        box = &p == &places.front()
                  ? dot
                  : QRectF(
                        QPointF(std::min(box.left(), q.x()), std::min(box.top(), q.y())),
                        QPointF(std::max(box.right(), q.x()), std::max(box.bottom(), q.y())));
    }
    const double free = std::min(margin, 0.45 * std::min(window.width(), window.height()));
    constexpr double least = 1.0; // [m]
    const double scale = std::min(
        (window.width() - 2.0 * free) / std::max(box.width(), least),
        (window.height() - 2.0 * free) / std::max(box.height(), least));
    const QPointF middle = window.center() - scale * box.center();
    return {
        .toView = turned * QTransform::fromScale(scale, scale) *
                  QTransform::fromTranslate(middle.x(), middle.y()),
        .window = window};
}

ChartView viewOf(const Extent& extent, PlaneBearing up, const QRectF& window, double margin) {
    const std::array<Point, 4> corners{
        {{extent.west, extent.south},
         {extent.east, extent.south},
         {extent.east, extent.north},
         {extent.west, extent.north}}};
    return viewOf(std::span<const Point>(corners), up, window, margin);
}

ChartPainter::ChartPainter(std::shared_ptr<const MapDrawing> map, const ChartStyle& style)
    : map_(std::move(map))
    , style_(style)
    , shown_(shownPath(*map_)) {
    if (style_.fill == DepthFill::Colour) {
        depth_ = depthImageOf(*map_, style_.palette, style_.hillshade);
    }
}

void ChartPainter::paint(QPainter& painter, const ChartView& view, Detail detail) const {
    ChartStyle style = style_;
    if (detail == Detail::WithoutWords) {
        style.contourLabels = false;
        style.readingLabels = false;
    }
    painter.save();
    painter.setClipRect(view.window, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::TextAntialiasing);
    Canvas canvas(painter, *map_, style, view);
    canvas.paintGround();
    Furniture furniture = canvas.furniture();
    if (detail == Detail::Whole) {
        furniture.place();
        canvas.keepClearOf(furniture.taken());
        canvas.placeReadingLabels();
    }
    canvas.paintBed(shown_, depth_);
    canvas.paintWaterline();
    furniture.paintRings(painter);
    if (style.casts) {
        canvas.paintCasts();
    }
    canvas.paintReadings();
    if (detail == Detail::Whole) {
        canvas.paintReadingLabels();
        furniture.paint(painter);
    }
    painter.restore();
}

} // namespace bedlore
