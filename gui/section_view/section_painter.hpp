// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/bed_map.hpp"
#include "gui/document/display_units.hpp"
#include "gui/paint/theme.hpp"
#include "gui/section_view/section_profile.hpp"

#include <QFont>
#include <QPointF>
#include <QRectF>

#include <optional>

class QPainter;

// Draws the bed along one aim.

namespace bedlore {

/// Where ranges and depths stand on the screen.
struct SectionScale {
    QRectF plot;             ///< from the rod tip's height down to below the deepest bed
    double reach = 1.0;      ///< [m] at the right edge
    double above = 2.0;      ///< [m] of air
    double below = 4.0;      ///< [m] of water and ground
    bool sharesPlan = false; ///< as many pixels for each metre of ground as the plan has

    /// How many times as tall as they are depths are drawn.
    [[nodiscard]] double taller() const {
        return plot.height() / (above + below) / (plot.width() / reach);
    }

    [[nodiscard]] double x(double range) const {
        return plot.left() + range / reach * plot.width();
    }
    [[nodiscard]] double y(double depth) const {
        return plot.top() + (depth + above) / (above + below) * plot.height();
    }
    [[nodiscard]] QPointF at(double range, double depth) const { return {x(range), y(depth)}; }
    [[nodiscard]] double range(double onScreen) const {
        return (onScreen - plot.left()) / plot.width() * reach;
    }
};

/// Leaves room for numbers and words in `font` round the plot, and under the bed for how unsure it
/// is and for the words of a stretch.
/// `planScale` is the plan's [pixels for each metre]: it is shared where the width suits.
[[nodiscard]] SectionScale scaleOf(
    const SectionProfile& section,
    const QRectF& window,
    const QFont& font,
    std::optional<double> planScale = std::nullopt);

struct SectionStyle {
    PaletteKind palette = PaletteKind::Light;
    DisplayUnits units;
    /// The place on the aim that the line is drawn to [m of ground]; the farthest reading with a
    /// depth where there is none.
    std::optional<double> chosenRange;
    std::optional<double> planScale = std::nullopt;
};

/// Fills `window`. `map` is the one that the section was made from.
void paintSection(
    QPainter& painter,
    const BedMap& map,
    const SectionProfile& section,
    const SectionStyle& style,
    const QRectF& window);

} // namespace bedlore
