// SPDX-License-Identifier: MIT
#pragma once

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
[[nodiscard]] std::optional<SharingTier> sharingTierFrom(std::string_view word);

} // namespace bedlore
