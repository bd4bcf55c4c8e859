// SPDX-License-Identifier: MIT
#pragma once

#include "core/reduction/notes.hpp"
#include "core/reduction/sounding.hpp"

#include <string>
#include <vector>

// One visit's casts and readings, placed.

namespace bedlore {

struct VisitSetting {
    const Book& book;
    const Water& water;
    const VisitNotes& notes;
    const ReducedSwim& swim;
    const LocalFrame& frame;
    /// Its surface is the zero of levels where it says none: the earliest visit of its water.
    bool isZeroOfLevels = false;
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

/// "P14, 12 April 2025"
[[nodiscard]] std::string visitWords(const std::string& swim, Date date);

} // namespace bedlore
