// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"

#include <string>
#include <vector>

// What is written on a map, in the angler's words.

namespace bedlore {

/// "12 April 2025"
[[nodiscard]] std::string dateInWords(Date date);

/// "at the level of 2 steps showing (1.2 ft below the level mark)". Below tier `All` his own words
/// for the level are left out: they may name a place.
[[nodiscard]] std::string
levelWordsFor(const Book& book, const Reduction& reduction, const MapOptions& options);

/// Title and the lines under it; neutral below tier `All`.
struct MapTitle {
    std::string title;
    std::vector<std::string> subtitle;
};
[[nodiscard]] MapTitle
titleFor(const Book& book, const Reduction& reduction, const MapOptions& options);

/// Rows for what `map` holds and for nothing else.
[[nodiscard]] std::vector<LegendRow> legendFor(const MapDrawing& map);

/// What to beware of, in short sentences.
[[nodiscard]] std::vector<std::string> mapCautions();

} // namespace bedlore
