// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/taken_boxes.hpp"
#include "gui/paint/chart_painter.hpp"
#include "gui/paint/contour_painter.hpp"
#include "gui/paint/furniture_painter.hpp"

#include <QFont>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

class QPainter;

namespace bedlore {

/// A map in one view with everything on it in its place. Can be painted in stripes on several
/// threads: the ground from the beginning, the rest once `place` is done. Painting changes nothing.
class PlacedChart {
public:
    /// `painter` must outlive it.
    PlacedChart(const ChartPainter& painter, ChartView view, ChartPainter::Detail detail);
    PlacedChart(const PlacedChart&) = delete;
    PlacedChart& operator=(const PlacedChart&) = delete;

    /// Words will keep out of these too. Before `place`.
    void keepClear(const std::vector<QRectF>& boxes);
    /// Where scale bar, north, words about the whole map and swims will stand, and what is kept
    /// clear, so that what is put above the map can keep out of them.
    [[nodiscard]] std::vector<QRectF> boxesOfFirst() const;

    /// Finds room for every word.
    void place();

    /// Paper, hatch and depth. Only what lies in `stripe` of the view needs to be painted.
    void paintGround(QPainter& painter, const QRectF& stripe) const;
    void paintLinesAndSigns(QPainter& painter, const QRectF& stripe) const;
    void paintWords(QPainter& painter, const QRectF& stripe) const;

private:
    struct Label {
        QString text;
        QPointF base;
        Point place;
    };

    struct PlacedPull {
        QPointF middle;
        Pull kind;
    };

    struct PlacedBottom {
        QPointF middle;
        std::optional<Substrate> substrate;
        std::optional<Cover> cover;
    };

    [[nodiscard]] std::optional<QPointF> placeInView(const DrawnReading& reading) const;
    void placeReadingLabels();
    void placeLabelBeside(
        const DrawnReading& reading, QPointF at, QSizeF size, const QTransform& toPlane);
    void takeStretch(const DrawnReading& reading);
    void placeFelt();
    [[nodiscard]] bool takeIfFree(QPointF middle, QSizeF size);
    void begin(QPainter& painter) const;
    void paintDepth(QPainter& painter, const QRectF& stripe) const;
    void paintWaterline(QPainter& painter) const;
    void paintCasts(QPainter& painter) const;
    void paintReadings(QPainter& painter, const QRectF& stripe) const;
    void paintBottoms(QPainter& painter) const;
    void paintReadingLabels(QPainter& painter, const QFont& font, const QRectF& stripe) const;

    const ChartPainter& chart_;
    const MapDrawing& map_;
    ChartStyle style_;
    ChartView view_;
    ChartPainter::Detail detail_;
    ChartFonts fonts_;
    Furniture furniture_;
    PlacedContours contours_;
    TakenBoxes taken_;
    std::vector<Label> labels_;
    std::vector<PlacedPull> pulls_;
    std::vector<PlacedBottom> bottoms_;
};

} // namespace bedlore
