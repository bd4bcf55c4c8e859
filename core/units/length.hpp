// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/quantity.hpp"

#include <compare>

// Lengths, and the two kinds of distance that must not be mixed.

namespace bedlore {

struct LengthDimension {};
/// Metres inside.
using Length = Quantity<LengthDimension>;

inline constexpr Length metre = Length::fromSi(1.0);
inline constexpr Length centimetre = Length::fromSi(0.01);
inline constexpr Length millimetre = Length::fromSi(0.001);
/// International foot, inch and yard, exact by the agreement of 1959.
inline constexpr Length foot = Length::fromSi(0.3048);
inline constexpr Length inch = Length::fromSi(0.0254);
inline constexpr Length yard = Length::fromSi(0.9144);

/// Line between the rod tip and the lead along a tight line. `reduction` alone turns it into a
/// ground distance.
struct LineOut {
    Length length;
    friend constexpr auto operator<=>(const LineOut&, const LineOut&) = default;
};

/// Distance on the plan from below the rod tip to the lead.
struct GroundDistance {
    Length length;
    friend constexpr auto operator<=>(const GroundDistance&, const GroundDistance&) = default;
};

inline namespace literals {
constexpr Length operator""_m(long double v) {
    return Length::fromSi(static_cast<double>(v));
}
constexpr Length operator""_cm(long double v) {
    return static_cast<double>(v) * centimetre;
}
constexpr Length operator""_mm(long double v) {
    return static_cast<double>(v) * millimetre;
}
constexpr Length operator""_ft(long double v) {
    return static_cast<double>(v) * foot;
}
constexpr Length operator""_in(long double v) {
    return static_cast<double>(v) * inch;
}
constexpr Length operator""_yd(long double v) {
    return static_cast<double>(v) * yard;
}
} // namespace literals

} // namespace bedlore
