// SPDX-License-Identifier: MIT
#pragma once

#include "core/reduction/sounding.hpp"

#include <vector>

// One visit's casts and readings, placed.

namespace bedlore {

struct VisitSetting {
    const Book& book;
    const Water& water;
    const Visit& visit;
    const ReducedSwim& swim;
    const LocalFrame& frame;
    bool isEarliest =
        false; ///< of the water's visits: its surface is the zero of levels where it says none
};

struct CastReduction {
    ReducedCast cast;
    std::vector<PlacedReading> readings;
    std::vector<Sounding> soundings;
};

struct VisitReduction {
    ReducedVisit visit;
    std::vector<CastReduction> casts;
    std::vector<ReductionNotice> notices;
};

[[nodiscard]] VisitReduction reduceVisit(const VisitSetting& setting);

/// Puts `reading` (and the near end of a stretch) where its line leads with the lead `drop` below
/// the tip. False, and nothing moved, when the line is too short for it.
bool placeOnLine(PlacedReading& reading, Point tip, PlaneBearing direction, Length drop);

} // namespace bedlore
