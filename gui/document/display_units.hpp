// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/entered.hpp"
#include "core/units/length.hpp"

#include <string>

// The units that he reads in.

namespace bedlore {

/// `depth` is foot or metre; `distance` is wrap, yard, metre or foot.
struct DisplayUnits {
    Unit depth = Unit::Foot;
    Unit distance = Unit::Wrap;
    friend bool operator==(const DisplayUnits&, const DisplayUnits&) = default;
};

/// The unit of `distance` that a sheet or a scale bar uses, where a wrap has no fixed length.
[[nodiscard]] Unit sheetUnit(const DisplayUnits& units);

/// Length of one `distance` unit; `wrap` is what one wrap is on that visit.
[[nodiscard]] Length distanceUnitLength(const DisplayUnits& units, Length wrap);

/// "26¾ wraps", "107 yd", "97.8 m".
[[nodiscard]] std::string printDistance(Length line, const DisplayUnits& units, Length wrap);

} // namespace bedlore
