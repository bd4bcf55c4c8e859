// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/chart/map_drawing.hpp"
#include "gui/paint/depth_colours.hpp"
#include "gui/paint/theme.hpp"

#include <QPainterPath>
#include <QRectF>
#include <QTransform>

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

class QPainter;

// Draws a map: one way for screen, print and file.

namespace bedlore {

/// Colour of depth, or black on white where only lines and patterns tell.
enum class DepthFill : std::uint8_t { Colour, Plain };

/// What is drawn and how. Lengths are in logical units of the painter (pixels on screen) and are
/// multiplied by `size`.
struct ChartStyle {
    PaletteKind palette = PaletteKind::Light;
    DepthFill fill = DepthFill::Colour;
    bool hillshade = true;
    bool contours = true;
    bool contourLabels = true;
    bool everyContourLabelled = false; ///< also those between the heavy ones
    bool casts = true;
    bool readings = true;
    bool readingLabels = false; ///< each depth beside its dot, where there is room
    bool marks = true;
    bool spots = true;
    bool rings = true;       ///< round distances from the chosen swim, faint
    bool furniture = true;   ///< scale bar, north arrow and words about guessed angles
    bool depthKey = false;   ///< which colour is which depth, at the foot
    bool levelWords = false; ///< at what level of the water, above the scale bar
    bool aimLetters = false; ///< beyond the farthest place of each aim
    double size = 1.0;
    double textSize = 9.5; ///< [pt on screen, where 1 pt is 4/3 px]
};

/// Where the map is seen: `toView` takes metres east (x) and north (y) to the painter's logical
/// units; `window` is the part of the paper that is filled. Words keep out of `keepClear`, where
/// something else will stand.
struct ChartView {
    QTransform toView;
    QRectF window;
    std::vector<QRectF> keepClear = {};
};

/// The view that shows all of `extent` in `window` with `up` upright, `margin` units free all
/// round.
[[nodiscard]] ChartView
viewOf(const Extent& extent, PlaneBearing up, const QRectF& window, double margin);

/// The same for all of `places`, which are at least one: closer, because their own corners count.
[[nodiscard]] ChartView
viewOf(std::span<const Point> places, PlaneBearing up, const QRectF& window, double margin);

/// Logical units for each metre of the plane.
[[nodiscard]] double unitsPerMetre(const ChartView& view);

/// A map made ready for painting. Building it does the slow part (colours, shade, paths) and may be
/// done on a worker thread; painting is fast and changes nothing.
class ChartPainter {
public:
    ChartPainter(std::shared_ptr<const MapDrawing> map, const ChartStyle& style);

    [[nodiscard]] const MapDrawing& map() const { return *map_; }
    [[nodiscard]] const ChartStyle& style() const { return style_; }
    /// Of what is shown: metres east and north, its steps of cells smoothed.
    [[nodiscard]] const QPainterPath& outline() const { return outline_; }
    [[nodiscard]] const DepthColours& depth() const { return depth_; }

    /// All of it, or the ground, its lines and what lies on it without a word: what comes into
    /// view while the map is being moved.
    enum class Detail : std::uint8_t { Whole, WithoutWords };

    /// Fills `view.window` and nothing outside it; stopped, only some of it. `PlacedChart` does the
    /// same in pieces.
    void paint(
        QPainter& painter,
        const ChartView& view,
        Detail detail = Detail::Whole,
        const Progress& progress = {}) const;

private:
    std::shared_ptr<const MapDrawing> map_;
    ChartStyle style_;
    DepthColours depth_;
    QPainterPath outline_;
};

} // namespace bedlore
