// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <random>
#include <string_view>
#include <vector>

// The luck of an invented evening, from a fixed seed.

namespace bedlore::testing {

/// The same numbers on every machine, which the standard distributions do not promise.
class Chance {
public:
    explicit Chance(std::uint64_t seed)
        : engine_(seed) {}

    double share() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }
    double between(double low, double high) { return low + (high - low) * share(); }
    bool oneIn(double n) { return share() * n < 1.0; }
    double error(double sigma) {
        const double radius = std::sqrt(-2.0 * std::log(1.0 - share()));
        return sigma * radius * std::cos(2.0 * std::numbers::pi * share());
    }
    std::string_view any(const std::vector<std::string_view>& words) {
        const auto at = static_cast<std::size_t>(share() * static_cast<double>(words.size()));
        return words[at];
    }

private:
    std::mt19937_64 engine_;
};

} // namespace bedlore::testing
