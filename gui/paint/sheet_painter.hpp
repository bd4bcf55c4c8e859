// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/place.hpp"
#include "core/chart/map_drawing.hpp"
#include "gui/paint/chart_painter.hpp"

#include <QSizeF>

#include <cstdint>
#include <filesystem>
#include <optional>

class QPainter;

// The map on one sheet of paper.

namespace bedlore {

enum class SheetPaper : std::uint8_t { A4, A5, A6 };

/// Upright [mm].
[[nodiscard]] QSizeF paperSize(SheetPaper paper);

struct SheetOptions {
    SheetPaper paper = SheetPaper::A4;
    DepthFill fill = DepthFill::Colour;
    /// Printed at the foot of the sheet; nothing is printed where it is empty.
    std::optional<Date> printed;
};

/// Draws the sheet into a rectangle from (0, 0) of `millimetres`, one logical unit being one
/// millimetre: the caller scales the painter. Used for the printer and the preview alike. Stopped
/// between its layers, it leaves the rest out.
void paintSheet(
    QPainter& painter,
    const MapDrawing& map,
    const QSizeF& millimetres,
    const SheetOptions& options,
    const Progress& progress = {});

/// Writes the sheet as a vector PDF, whole or not at all; its properties name no program, person,
/// path or title. Needs a QGuiApplication (the offscreen platform will do).
[[nodiscard]] Result<void> writeSheetPdf(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const SheetOptions& options = {},
    const Progress& progress = {});

} // namespace bedlore
