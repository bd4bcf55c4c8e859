// SPDX-License-Identifier: MIT
#pragma once

#include "core/geodesy/local_frame.hpp"
#include "core/geometry/raster.hpp"

#include <cstdint>
#include <optional>
#include <string_view>

// How much of a map leaves the program.

namespace bedlore {

/// `Depth`: depths inside one smooth outline and nothing else. `Bottom`: with bottom and features.
/// `All`: with casts, readings, swims and how sure the depths are.
enum class SharingTier : std::uint8_t { Depth, Bottom, All };

/// Private spots, marks and photos leave only when asked for.
enum class PrivateThings : std::uint8_t { LeaveOut, Include };

/// "depth", "bottom", "all".
[[nodiscard]] std::string_view word(SharingTier tier);
[[nodiscard]] std::optional<SharingTier> sharingTierFrom(std::string_view text);

/// The grid of a map for others: the least one with cells of the same width that holds `frame` and
/// whose cells lie by the neutral plane and not by the water's own. Edges at multiples of a cell in
/// a plane that begins where he stands would tell where that is.
[[nodiscard]] GridFrame frameToShare(const GridFrame& frame, const LocalFrame& plane);

/// `frame` itself where the map shows the swims anyway, or else `frameToShare`.
[[nodiscard]] GridFrame
frameAtTier(const GridFrame& frame, const LocalFrame& plane, SharingTier tier);

} // namespace bedlore
