// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/bed_data.hpp"

#include <cstddef>
#include <vector>

// Many crowded fixes as fewer places.

namespace bedlore {

struct GatheredFixes {
    std::vector<BedDatum> soundings; ///< in an order that depends on their content only
    std::size_t from = 0;            ///< how many fixes were gathered; zero where none had to be
    double cell = 0.0;               ///< width of the squares they were gathered in [m]
};

/// Soundings as they are while there are no more than `most`. Beyond that the fixes (never his own
/// readings) that share a square of the plane become one, at their weighted mean place and level;
/// the squares are the smallest of a series, each 1.19 times as wide as the last, that leave no
/// more than `most` soundings. A square's error is that of its weighted mean, or what its fixes
/// scatter by over their root, whichever is larger, so that a rough patch is not believed to the
/// millimetre.
[[nodiscard]] GatheredFixes gatheredFixes(std::vector<BedDatum> soundings, std::size_t most);

} // namespace bedlore
