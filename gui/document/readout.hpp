// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"
#include "gui/document/aims.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/display_units.hpp"

#include <string>
#include <vector>

// What is at a place, in plain words.

namespace bedlore {

/// Each part is empty where there is nothing to say. `depth` and `within` are of the level that the
/// map is drawn at.
struct PlaceReadout {
    bool known = false;
    std::string depth;     ///< "8½ ft", or "don't know"
    std::string within;    ///< "within about half a foot", or why nobody knows
    std::string bottom;    ///< "gravel", "gravel 4 yd away"
    std::string howFar;    ///< line out from the tip: "26¾ wraps"
    std::string direction; ///< "aim A 2 fingers right"
    std::string measure;   ///< what one wrap is: "a wrap is 12 ft"; empty in units of fixed length

    /// All of it on one line.
    [[nodiscard]] std::string line() const;
};

/// `aims` are those of the swim that he is in; without a swim nothing is said of how to reach the
/// place.
[[nodiscard]] PlaceReadout readPlace(
    const BedMap& map, const std::vector<AimLine>& aims, Point place, const DisplayUnits& units);

/// "on aim A", "aim A 2 fingers right", "aim A 1½ fists left", "50° right of aim A".
[[nodiscard]] std::string besideAim(const AimLine& aim, Angle clockwise);

/// A reading in a few words for the side view and lists: "9 ft, gravel, hard drop".
[[nodiscard]] std::string feltWords(const Reading& reading);

} // namespace bedlore
