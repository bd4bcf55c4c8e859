// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/reduction/sounding.hpp"

#include <functional>
#include <optional>

// From a water's notes to soundings.

namespace bedlore {

/// Which part of a water is reduced. A swim without a place cannot share a plane with others: it is
/// left out, with a notice, unless it is `alone` or the only swim; it then stands at the plane's
/// zero, and its plane has no origin.
struct ReductionScope {
    Id<Water> water;
    std::optional<Id<Swim>> alone;
};

/// Everything that can be placed, with what could not and why in `notices`. Never fails on what he
/// wrote; fails when the water is unknown or when stopped.
[[nodiscard]] Result<Reduction>
reduce(const Book& book, const ReductionScope& scope, const Progress& progress = {});

/// Bed level at a place, or none where nobody knows.
using BedLevelAt = std::function<std::optional<BedLevel>(Point)>;

/// Gives a ground distance and a place to the readings without a depth, and to the near ends of
/// stretches, by iteration on the surface (their line leads down to the bed); where the bed is not
/// known they stay where the cast's own nearest depth puts them.
void placeByBed(Reduction& reduction, const BedLevelAt& bed);

/// Whether `placeByBed` would move anything.
[[nodiscard]] bool hasToBePlacedByBed(const Reduction& reduction);

/// The level of the latest visit (latest date, then last entered), the default of every map. Zero
/// for a water without visits.
[[nodiscard]] WaterLevel latestLevel(const Reduction& reduction);

} // namespace bedlore
