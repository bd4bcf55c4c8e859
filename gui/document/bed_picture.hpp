// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/display_units.hpp"
#include "gui/document/map_layers.hpp"
#include "gui/paint/chart_painter.hpp"

#include <memory>
#include <string>

// A map ready to be painted in the window.

namespace bedlore {

/// How the window shows a map.
struct MapLook {
    PaletteKind palette = PaletteKind::Light;
    DisplayUnits units;
    MapLayers layers;
    double textSize = 9.5; ///< [pt]
    friend bool operator==(const MapLook&, const MapLook&) = default;
};

/// A map in one look. `painter` belongs to the window's thread once it is shown.
struct BedPicture {
    std::shared_ptr<const BedMap> bed;
    MapLook look;
    std::shared_ptr<const MapDrawing> drawing;
    std::shared_ptr<const ChartPainter> painter;
};

/// The slow part of drawing, for a worker thread.
[[nodiscard]] std::shared_ptr<const BedPicture>
drawBed(std::shared_ptr<const BedMap> bed, const MapLook& look);

/// The same picture with other words where it shows no depth. Quick where there is no bed to draw.
[[nodiscard]] std::shared_ptr<const BedPicture>
withEmptyWords(const BedPicture& picture, std::string words);

} // namespace bedlore
