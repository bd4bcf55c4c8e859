// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/visit.hpp"
#include "core/book/water.hpp"
#include "core/units/depth.hpp"

#include <optional>

// A level as he read it to metres above the water's zero.

namespace bedlore {

struct MeasuredLevel {
    WaterLevel level;
    Length sigma;
};

/// Lengths as they are, positive up; steps by the water's step height and the way they count (steps
/// showing fall as the water rises). None when it cannot be told: steps without a step height.
[[nodiscard]] std::optional<MeasuredLevel>
measuredLevel(const Entered& level, const LevelReference& reference);

} // namespace bedlore
