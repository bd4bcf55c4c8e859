// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"

// What he noted, as it is drawn: only maps that may hold everything get it.

namespace bedlore {

/// Adds swims, casts, readings, spots, marks and the waterline to a map of tier `All`.
void addNotes(
    MapDrawing& map, const Book& book, const Reduction& reduction, const MapOptions& options);

} // namespace bedlore
