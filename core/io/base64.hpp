// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Bytes as text. Source: RFC 4648, section 4, with padding and without line ends.

namespace bedlore {

[[nodiscard]] std::string toBase64(std::span<const std::byte> bytes);

/// None for anything that `toBase64` cannot have made.
[[nodiscard]] std::optional<std::vector<std::byte>> fromBase64(std::string_view text);

} // namespace bedlore
