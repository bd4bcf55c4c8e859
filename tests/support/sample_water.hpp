// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/kinds.hpp"
#include "core/geodesy/geographic_point.hpp"
#include "core/geometry/point.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

// Harl Pit, an invented water whose bed is a formula, so that a map of it can be compared with the
// truth. Metres east and north of its middle. The middle lies in the open sea, far from any lake.

namespace bedlore::testing {

/// Where the plane has its origin: the mean of the two swims.
inline constexpr GeographicPoint harlPitMiddle{56.0, 3.0};
/// Rod tips of the two swims, across from each other.
inline constexpr Point thePoint{-12.0, -74.0};
inline constexpr Point theReeds{12.0, 74.0};

namespace sample {

inline double bump(double distance, double width) {
    return std::exp(-0.5 * (distance / width) * (distance / width));
}
/// 1 well inside, 0 well outside, half at zero.
inline double step(double inside, double softness) {
    return 1.0 / (1.0 + std::exp(-inside / softness));
}

/// Metres to the waterline at the board's zero, roughly; negative on the bank. The water is a
/// rounded oblong, 260 m by 156 m.
inline double fromBank(Point p) {
    const double a = std::pow(p.east / 130.0, 4.0);
    const double b = std::pow(p.north / 78.0, 4.0);
    return 78.0 * (1.0 - std::pow(a + b, 0.25));
}
/// The bar runs across between the swims, with a gap west of the middle, and dies out to the east.
inline double bar(Point p) {
    const double crest = -2.0 + 0.16 * p.east;
    const double gap = 1.0 - 0.75 * bump(p.east + 34.0, 9.0);
    return bump(p.north - crest, 6.5) * gap * step(62.0 - p.east, 6.0);
}
/// The gully winds between the Point's shelf and the bar.
inline double gully(Point p) {
    return bump(p.north + 36.0 - 7.0 * std::sin(p.east / 24.0), 6.0);
}
inline double plateau(Point p) {
    return step(15.0 - std::hypot(p.east - 40.0, p.north - 36.0), 2.2);
}
inline double hole(Point p) {
    return bump(std::hypot(p.east + 42.0, p.north - 34.0), 9.0);
}

} // namespace sample

/// Metres above the zero of the water's level board, negative under it.
inline double harlPitBed(Point p) {
    using namespace sample;
    const double inside = fromBank(p);
    if (inside < 0.0) {
        return -0.35 * inside; // the bank, rising one in three
    }
    const double shelf = 1.0 - std::exp(-inside / 7.0);
    const double open =
        3.3 + 0.005 * p.east + 1.3 * gully(p) - 1.7 * bar(p) - 1.3 * plateau(p) + 1.0 * hole(p);
    return -shelf * open;
}

/// Depth below the surface when the board reads `level` metres.
inline double harlPitDepth(Point p, double level) {
    return level - harlPitBed(p);
}

inline Substrate harlPitSubstrate(Point p) {
    using namespace sample;
    if (bar(p) > 0.45) {
        return Substrate::Gravel;
    }
    if (plateau(p) > 0.5) {
        return Substrate::Clay;
    }
    if (fromBank(p) < 12.0) {
        return Substrate::Sand;
    }
    if (hole(p) > 0.5) {
        return Substrate::BlackSilt;
    }
    return gully(p) > 0.3 || p.north < -8.0 ? Substrate::Silt : Substrate::FirmSilt;
}

/// Weed in two beds, taller in the autumn; none elsewhere.
inline std::optional<Cover> harlPitCover(Point p, bool autumn) {
    const bool west = std::hypot((p.east + 48.0) / 16.0, (p.north + 12.0) / 11.0) < 1.0;
    const bool north = std::hypot((p.east - 2.0) / 11.0, (p.north - 36.0) / 8.0) < 1.0;
    if (west || north) {
        return autumn ? Cover::TallWeed : Cover::LowWeed;
    }
    return std::nullopt;
}

} // namespace bedlore::testing
