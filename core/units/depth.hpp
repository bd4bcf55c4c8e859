// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/length.hpp"

#include <compare>

// Depth below a day's surface, the water's level, and the level of the bed: three things that only
// meet here.

namespace bedlore {

/// Below the water surface on the day of reading, positive down. Negative where the bed stands dry.
struct Depth {
    Length belowSurface;
    friend constexpr auto operator<=>(const Depth&, const Depth&) = default;
};

/// The water surface above the water's datum, positive up.
struct WaterLevel {
    Length aboveDatum;
    friend constexpr auto operator<=>(const WaterLevel&, const WaterLevel&) = default;
};

/// The bed above the water's datum, positive up.
struct BedLevel {
    Length aboveDatum;
    friend constexpr auto operator<=>(const BedLevel&, const BedLevel&) = default;
};

[[nodiscard]] constexpr BedLevel bedLevel(Depth depth, WaterLevel level) {
    return {level.aboveDatum - depth.belowSurface};
}

[[nodiscard]] constexpr Depth depthAt(BedLevel bed, WaterLevel level) {
    return {level.aboveDatum - bed.aboveDatum};
}

} // namespace bedlore
