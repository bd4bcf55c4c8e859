// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/entered.hpp"
#include "core/units/length.hpp"

#include <string>

// How long a scale bar is.

namespace bedlore {

/// `length` is a round number of the unit; `parts` equal parts are drawn in turn dark and light.
struct ScaleBar {
    Length length;
    int parts = 4;
    std::string label; ///< "40 yd"
    friend bool operator==(const ScaleBar&, const ScaleBar&) = default;
};

/// The largest of 1, 2 and 5 times a power of ten that is at most `most`, which must be above zero.
[[nodiscard]] double roundAtMost(double most);

/// The longest bar of 1, 2 or 5 times a power of ten `unit`s (yard, foot, else metre) that is at
/// most `longest`, which must be above zero.
[[nodiscard]] ScaleBar scaleBarFor(Length longest, Unit unit);

} // namespace bedlore
