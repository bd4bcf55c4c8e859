// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

// A fast check sum: it tells what damage did, and keeps no secret.

namespace bedlore {

/// XXH64 of `bytes` under `seed`. Source: xxHash fast digest algorithm, specification version
/// 0.1.1, section "XXH64 algorithm description".
[[nodiscard]] std::uint64_t xxHash64(std::span<const std::byte> bytes, std::uint64_t seed);

} // namespace bedlore
