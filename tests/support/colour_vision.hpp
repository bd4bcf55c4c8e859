// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/colour_ramp.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

// Colours as eyes see them that lack one kind of cones, and how far apart they look.

namespace bedlore::testing {

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

inline Triple times(const Matrix& m, const Triple& v) {
    Triple result{};
    for (std::size_t row = 0; row < 3; ++row) {
        for (std::size_t column = 0; column < 3; ++column) {
            result[row] += m[row][column] * v[column];
        }
    }
    return result;
}

// Source: IEC 61966-2-1 (sRGB), its curve and its matrix to CIE XYZ.
inline Triple linear(Rgb colour) {
    const auto one = [](std::uint8_t byte) {
        const double c = byte / 255.0;
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return {one(colour.red), one(colour.green), one(colour.blue)};
}
inline constexpr Matrix toXyz{
    {{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}};

// Source: CIE 15:2004, section 8.2.1, white D65.
inline Triple lab(const Triple& linearRgb) {
    const Triple xyz = times(toXyz, linearRgb);
    const Triple white = times(toXyz, {1.0, 1.0, 1.0});
    const auto f = [](double t) {
        constexpr double limit = 6.0 / 29.0;
        return t > limit * limit * limit ? std::cbrt(t) : t / (3.0 * limit * limit) + 4.0 / 29.0;
    };
    const double x = f(xyz[0] / white[0]);
    const double y = f(xyz[1] / white[1]);
    const double z = f(xyz[2] / white[2]);
    return {116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)};
}

inline double apart(const Triple& a, const Triple& b) {
    return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

/// What an eye without one kind of cones sees of a colour, still as linear sRGB.
struct Vision {
    std::string name;
    Matrix matrix;
};
// Source: Machado, Oliveira & Fernandes (2009), IEEE TVCG 15(6), severity 1; from memory, each row
// adds up to 1 so that greys stay grey, which is checked below.
inline const std::array<Vision, 3> visions{{
    {"protan",
     {{{0.152286, 1.052583, -0.204868},
       {0.114503, 0.786281, 0.099216},
       {-0.003882, -0.048116, 1.051998}}}},
    {"deutan",
     {{{0.367322, 0.860646, -0.227968},
       {0.280085, 0.672501, 0.047413},
       {-0.011820, 0.042940, 0.968881}}}},
    {"tritan",
     {{{1.255528, -0.076749, -0.178779},
       {-0.078411, 0.930809, 0.147602},
       {0.004733, 0.691367, 0.303900}}}},
}};

inline Triple seenBy(const Vision& vision, Rgb colour) {
    Triple seen = times(vision.matrix, linear(colour));
    for (double& part : seen) {
        part = std::clamp(part, 0.0, 1.0);
    }
    return seen;
}

/// How far apart two colours look to that eye (ΔE of CIE 1976).
inline double apartTo(const Vision& vision, Rgb a, Rgb b) {
    return apart(lab(seenBy(vision, a)), lab(seenBy(vision, b)));
}

} // namespace bedlore::testing
