// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"
#include "core/reduction/sounding.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// The soundings of a reduction as plain numbers, ready for the sums.

namespace bedlore {

/// How a place follows from a throw: metres and radians.
struct ThrowGeometry {
    std::size_t cast = 0; ///< into `Reduction::casts`
    Point tip;
    double direction = 0.0; ///< from the tip to the recorded place, clockwise from north
    double range = 0.0;     ///< from the tip to the recorded place
    double line = 0.0;      ///< tip to lead
    double drop = 0.0;      ///< tip to bed, straight down
    double lineSigma = 0.0; ///< of the count alone
};

/// A sounding: metres, 1 sd. `noise` is the independent error of the level.
struct BedDatum {
    Point recorded;
    double level = 0.0;
    double noise = 0.0;
    double placeSigma = 0.0; ///< independent error of place, each direction
    std::optional<ThrowGeometry> thrown;
};

/// Everything finite among the soundings, in an order that depends on their content only; how many
/// were left out goes to `leftOut`.
struct BedData {
    std::vector<BedDatum> soundings;
    std::size_t leftOut = 0;
};

[[nodiscard]] BedData bedData(const Reduction& reduction);

/// One sounding of a reduction; empty where something about it is no number.
[[nodiscard]] std::optional<BedDatum>
bedDatum(const Reduction& reduction, const Sounding& sounding);

} // namespace bedlore
