// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>

// The colours of depth: sand, lichen, slate, ink, in even steps of lightness.

namespace bedlore {

/// sRGB.
struct Rgb {
    std::uint8_t red = 0;
    std::uint8_t green = 0;
    std::uint8_t blue = 0;
    friend bool operator==(const Rgb&, const Rgb&) = default;
};

/// Colour of depth, `share` 0 (shallowest) to 1 (deepest); values outside are held at the ends, NaN
/// is shallow. Between the ramp's 256 colours it is interpolated.
[[nodiscard]] Rgb depthColour(double share);

/// CIELAB L* (D65), 0 black to 100 white.
[[nodiscard]] double lightness(Rgb colour);

/// `colour` with its L* moved by `change`, hue kept as far as sRGB allows.
[[nodiscard]] Rgb lightened(Rgb colour, double change);

} // namespace bedlore
