// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

// The fingerprint of a file, by which the same file twice is noticed.

namespace bedlore {

/// Takes bytes piece by piece. Source: FIPS 180-4, Secure Hash Standard (NIST 2015), section 6.2.
class Sha256 {
public:
    void add(std::string_view bytes);
    /// 64 lower-case hexadecimal digits of all that was added. Nothing may be added after.
    [[nodiscard]] std::string hex();

private:
    void block(const unsigned char* bytes);

    std::array<std::uint32_t, 8> state_{
        0x6a09e667,
        0xbb67ae85,
        0x3c6ef372,
        0xa54ff53a,
        0x510e527f,
        0x9b05688c,
        0x1f83d9ab,
        0x5be0cd19};
    std::array<unsigned char, 64> pending_{};
    std::size_t pendingCount_ = 0;
    std::uint64_t total_ = 0;
};

/// Of the whole of `bytes`.
[[nodiscard]] std::string sha256(std::string_view bytes);

} // namespace bedlore
