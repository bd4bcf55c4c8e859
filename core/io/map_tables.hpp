// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/chart/map_drawing.hpp"
#include "core/geodesy/local_frame.hpp"

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

// The map as a folder of tables (CSV), to be read in a spreadsheet or a GIS.

namespace bedlore {

/// Writes `map` as tables into `folder`, which must not be there or be empty, and gives the names
/// of the files: what it is, the depth of each cell, contours and depth bands at every tier; swims,
/// casts, readings, spots and marks where the map may hold them. All of them or none. `frame` is
/// the water's plane; places are said as `ToldPlane` has them, and of a water without position in
/// metres, below tier `All` from the corner of the map.
///
/// Columns of places aside, all names begin with "map_", so that no table is taken for
/// somebody's notes. Text that a spreadsheet would reckon with has an apostrophe before it.
[[nodiscard]] Result<std::vector<std::string>> writeMapTables(
    const std::filesystem::path& folder,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress = {});

/// `text` as it can stand in a spreadsheet without becoming a formula.
[[nodiscard]] std::string harmlessText(std::string_view text);

} // namespace bedlore
