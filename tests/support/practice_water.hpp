// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/kinds.hpp"
#include "core/geodesy/geographic_point.hpp"
#include "core/geometry/point.hpp"

#include <cmath>
#include <numbers>
#include <optional>

// Wrackle Mere, the invented water to practise on, whose bed is a formula: what a mended page is
// held against. Metres east and north of its middle, which lies in the open sea, far from any lake.

namespace bedlore::testing {

/// Where the plane has its origin: the mean of the two swims.
inline constexpr GeographicPoint wrackleMiddle{57.5, 2.5};
/// Rod tips of the two swims, across from each other.
inline constexpr Point theSluice{-15.0, -65.0};
inline constexpr Point theAlders{15.0, 65.0};

namespace practice {

inline double bump(double distance, double width) {
    return std::exp(-0.5 * (distance / width) * (distance / width));
}
/// 1 well inside, 0 well outside, half at zero.
inline double step(double inside, double softness) {
    return 1.0 / (1.0 + std::exp(-inside / softness));
}
/// Metres from `from` along a true bearing [°].
inline Point away(Point from, double bearing, double metres) {
    const double angle = bearing * std::numbers::pi / 180.0;
    return {from.east + metres * std::sin(angle), from.north + metres * std::cos(angle)};
}

/// Metres to the waterline at the board's zero, roughly; negative on the bank. A rounded oblong,
/// 270 m by 146 m.
inline double fromBank(Point p) {
    const double a = std::pow(p.east / 135.0, 4.0);
    const double b = std::pow(p.north / 73.0, 4.0);
    return 73.0 * (1.0 - std::pow(a + b, 0.25));
}
/// The shallow shelf in front of the Sluice ends at a ledge, bent so that it lies at much the same
/// distance on all aims from there: 1 beyond it.
inline double beyondLedge(Point p) {
    const double aside = (p.east - theSluice.east) / 35.0;
    return step(p.north + 8.0 + 6.0 * (1.0 - std::exp(-aside * aside)), 1.3);
}
/// True bearing from the Sluice along which the bar lies, between two of his aims: cast at from
/// there it is missed, from the Alders it is crossed.
inline constexpr double barBearing = 335.0;
inline double bar(Point p) {
    const double angle = barBearing * std::numbers::pi / 180.0;
    const double east = p.east - theSluice.east;
    const double north = p.north - theSluice.north;
    const double along = east * std::sin(angle) + north * std::cos(angle);
    const double across = east * std::cos(angle) - north * std::sin(angle);
    return bump(across, 2.1) * step(along - 50.0, 1.5) * step(84.0 - along, 1.5);
}
/// A sharp hump on the shelf, on one aim from the Sluice: true, however odd it looks.
inline constexpr double humpBearing = 17.0;
inline constexpr double humpRange = 38.0;
inline double hump(Point p) {
    const Point top = away(theSluice, humpBearing, humpRange);
    return bump(std::hypot(p.east - top.east, p.north - top.north), 1.6);
}
/// A hole of soft stuff: no float came up in it, the drop alone tells.
inline constexpr double holeBearing = 190.0;
inline constexpr double holeRange = 30.0;
inline double hole(Point p) {
    const Point middle = away(theAlders, holeBearing, holeRange);
    return bump(std::hypot(p.east - middle.east, p.north - middle.north), 3.0);
}
/// Firm ground 9 ft along the cast and 6 ft across it, in silt.
inline constexpr double patchBearing = 175.0;
inline constexpr double patchRange = 45.0;
inline constexpr double patchAlong = 9.0 * 0.3048;
inline constexpr double patchAcross = 6.0 * 0.3048;

} // namespace practice

/// Metres above the zero of the water's level board, negative under it.
inline double wrackleBed(Point p) {
    using namespace practice;
    const double inside = fromBank(p);
    if (inside < 0.0) {
        return -0.35 * inside; // the bank, rising one in three
    }
    const double margin = 1.0 - std::exp(-inside / 5.0);
    const double open = 2.3 + 1.5 * beyondLedge(p) - 1.2 * bar(p) - 1.25 * hump(p) + 0.7 * hole(p);
    return -margin * open;
}

/// Depth below the surface when the board reads `level` metres.
inline double wrackleDepth(Point p, double level) {
    return level - wrackleBed(p);
}

inline bool isFirmPatch(Point p) {
    using namespace practice;
    const double angle = patchBearing * std::numbers::pi / 180.0;
    const Point middle = away(theAlders, patchBearing, patchRange);
    const double east = p.east - middle.east;
    const double north = p.north - middle.north;
    const double along = east * std::sin(angle) + north * std::cos(angle);
    const double across = east * std::cos(angle) - north * std::sin(angle);
    return std::abs(along) <= 0.5 * patchAlong && std::abs(across) <= 0.5 * patchAcross;
}

inline Substrate wrackleSubstrate(Point p) {
    using namespace practice;
    if (bar(p) > 0.4 || hump(p) > 0.4 || isFirmPatch(p)) {
        return Substrate::Gravel;
    }
    if (hole(p) > 0.5) {
        return Substrate::BlackSilt;
    }
    if (fromBank(p) < 14.0) {
        return Substrate::Sand;
    }
    return beyondLedge(p) > 0.6 ? Substrate::Silt : Substrate::FirmSilt;
}

/// One bed of weed beyond the ledge, there in August and gone by April.
inline std::optional<Cover> wrackleCover(Point p, bool august) {
    const Point middle = practice::away(theSluice, 353.0, 77.0);
    const bool inside =
        std::hypot((p.east - middle.east) / 15.0, (p.north - middle.north) / 7.0) < 1.0;
    return august && inside ? std::optional(Cover::TallWeed) : std::nullopt;
}

} // namespace bedlore::testing
