// SPDX-License-Identifier: MIT
#include "core/chart/colour_ramp.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace bedlore {

namespace {

constexpr std::array<Rgb, 256> depthRamp{{
#include "depth_ramp.inc"
}};

// sRGB (IEC 61966-2-1) to linear light and back, both 0 to 1.
double linear(double encoded) {
    return encoded <= 0.04045 ? encoded / 12.92 : std::pow((encoded + 0.055) / 1.055, 2.4);
}

double encoded(double light) {
    return light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1.0 / 2.4) - 0.055;
}

// Luminance of linear sRGB (ITU-R BT.709 primaries), white 1.
double luminance(Rgb colour) {
    return 0.2126 * linear(colour.red / 255.0) + 0.7152 * linear(colour.green / 255.0) +
           0.0722 * linear(colour.blue / 255.0);
}

// CIE 15: L* of relative luminance, and its inverse.
double lightnessOf(double y) {
    constexpr double epsilon = 216.0 / 24389.0;
    constexpr double kappa = 24389.0 / 27.0;
    return y > epsilon ? 116.0 * std::cbrt(y) - 16.0 : kappa * y;
}

double luminanceOf(double lStar) {
    constexpr double kappa = 24389.0 / 27.0;
    const double root = (lStar + 16.0) / 116.0;
    return lStar > 8.0 ? root * root * root : lStar / kappa;
}

std::uint8_t toByte(double share) {
    return static_cast<std::uint8_t>(std::lround(255.0 * std::clamp(share, 0.0, 1.0)));
}

std::uint8_t between(std::uint8_t a, std::uint8_t b, double share) {
    return static_cast<std::uint8_t>(std::lround(a + share * (b - a)));
}

} // namespace

Rgb depthColour(double share) {
    // The comparison is false for NaN, which so becomes shallow.
    const double held = share > 0.0 ? std::min(share, 1.0) : 0.0;
    const double at = held * static_cast<double>(depthRamp.size() - 1);
    const auto below = static_cast<std::size_t>(at);
    const std::size_t above = std::min(below + 1, depthRamp.size() - 1);
    const double rest = at - static_cast<double>(below);
    const Rgb a = depthRamp[below];
    const Rgb b = depthRamp[above];
    return {
        between(a.red, b.red, rest),
        between(a.green, b.green, rest),
        between(a.blue, b.blue, rest)};
}

double lightness(Rgb colour) {
    return lightnessOf(luminance(colour));
}

Rgb lightened(Rgb colour, double change) {
    if (change == 0.0) {
        return colour;
    }
    const double before = luminance(colour);
    const double after = luminanceOf(std::clamp(lightnessOf(before) + change, 0.0, 100.0));
    const double r = linear(colour.red / 255.0);
    const double g = linear(colour.green / 255.0);
    const double b = linear(colour.blue / 255.0);
    if (after <= before) {
        const double share = before > 0.0 ? after / before : 0.0;
        return {toByte(encoded(r * share)), toByte(encoded(g * share)), toByte(encoded(b * share))};
    }
    // Brighter: mixed with white, which stays inside sRGB where scaling would not.
    const double share = (after - before) / (1.0 - before);
    const auto mix = [share](double x) { return toByte(encoded(x + share * (1.0 - x))); };
    return {mix(r), mix(g), mix(b)};
}

} // namespace bedlore
