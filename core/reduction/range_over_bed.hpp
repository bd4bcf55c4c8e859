// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/length.hpp"

#include <cmath>

// From line out to the ground where the depth changes on the way.

namespace bedlore {

/// The ground distance of a lead with `line` out: range = sqrt(line² − drop²), where
/// `dropAt(range)` is the tip's height plus the depth at that distance. Nothing where the line is
/// not longer than the drop.
template <class DropAt>
[[nodiscard]] Length rangeOverBed(Length line, const DropAt& dropAt) {
    Length range = line;
    // The drop changes slowly along the bed: a few rounds settle it to a centimetre.
    for (int round = 0; round < 4; ++round) {
        const Length drop = dropAt(range);
        const double square = line.si() * line.si() - drop.si() * drop.si();
        range = square > 0.0 ? std::sqrt(square) * metre : Length{};
    }
    return range;
}

} // namespace bedlore
