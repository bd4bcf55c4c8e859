// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/quantity.hpp"

#include <numbers>

// Plane angles.

namespace bedlore {

struct AngleDimension {};
/// Radians inside.
using Angle = Quantity<AngleDimension>;

inline constexpr Angle radian = Angle::fromSi(1.0);
inline constexpr Angle degree = Angle::fromSi(std::numbers::pi / 180.0);

inline namespace literals {
constexpr Angle operator""_deg(long double v) {
    return static_cast<double>(v) * degree;
}
} // namespace literals

} // namespace bedlore
