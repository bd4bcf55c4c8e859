// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"

#include <optional>

// What he noted, as it is drawn: only maps that may hold everything get it.

namespace bedlore {

/// None where nothing was said of the drop; a drop without a thud is soft.
[[nodiscard]] DropSymbol symbolOf(const std::optional<Drop>& drop);

/// Adds swims, casts, readings, spots, marks and the waterline to a map of tier `All`.
void addNotes(
    MapDrawing& map, const Book& book, const Reduction& reduction, const MapOptions& options);

} // namespace bedlore
