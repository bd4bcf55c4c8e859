// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/reading.hpp"
#include "core/chart/map_drawing.hpp"
#include "gui/document/aims.hpp"
#include "gui/document/bed_map.hpp"

#include <optional>
#include <vector>

// The bed along one aim, as numbers.

namespace bedlore {

/// The bed at `range` [m] from below the rod tip; `depth` and `sigma` [m] at the map's level.
struct SectionSample {
    double range = 0.0;
    double depth = 0.0;
    double sigma = 0.0;
    bool known = false;
};

/// A reading on the aim; ranges and depth in metres. `to` is the near end of a stretch.
struct SectionReading {
    Id<Reading> reading;
    double range = 0.0;
    std::optional<double> to;
    std::optional<double> depth;
    std::optional<Substrate> substrate;
    std::optional<Cover> cover;
    DropSymbol drop = DropSymbol::None;
    bool doubtful = false;
    bool outcome = false;
};

struct SectionProfile {
    AimLine aim;
    double tipHeight = 0.0; ///< [m]
    double reach = 0.0;     ///< [m] ground distance that must be seen
    double deepest = 0.0;   ///< [m] of what is known and of the readings, within `reach`
    /// From the rod tip to `sampledTo`, which is beyond `reach`: with the plan's scale more of the
    /// aim may be seen than was fished.
    std::vector<SectionSample> samples;
    double sampledTo = 0.0;
    std::vector<SectionReading> readings;
};

/// How much farther than what must be seen the bed is known about.
inline constexpr double sampledBeyond = 1.7;

/// The bed under an aim from the rod tip to beyond its farthest reading. Readings stand from far to
/// near.
[[nodiscard]] Result<SectionProfile>
makeSection(const BedMap& map, const AimLine& aim, const Progress& progress = {});

} // namespace bedlore
