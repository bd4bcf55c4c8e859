// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/polygon.hpp"
#include "core/geometry/raster.hpp"

#include <cstdint>
#include <optional>
#include <vector>

// One smooth outline round everything known, so that a shared map does not show where the casts
// went.

namespace bedlore {

/// Gaps and bays narrower than about 50 m are filled, spurs and corners narrower than about 25 m
/// rounded off; gaps are bridged as far as it takes to get one outline, which has no holes. `known`
/// holds 1 or 0. Empty where nothing is known.
[[nodiscard]] std::optional<Polygon> smoothOutlineOf(const Raster<std::uint8_t>& known);

/// 1 for each cell whose centre lies in `shape`, else 0.
[[nodiscard]] Raster<std::uint8_t> cellsInside(const GridFrame& frame, const Polygon& shape);

} // namespace bedlore
