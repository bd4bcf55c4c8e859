// SPDX-License-Identifier: MIT
#include "core/io/told_plane.hpp"

#include "core/units/format.hpp"

#include <cmath>
#include <cstdlib>

namespace bedlore {

namespace {

NeutralPlane planeFor(const MapDrawing& map, const LocalFrame& frame) {
    if (map.tier == SharingTier::All || !frame.hasOrigin()) {
        return {.plane = frame, .shift = {}};
    }
    const GridFrame& grid = map.depth->frame;
    const Point centre = grid.size() == 0 ? map.extent.centre()
                                          : Point{
                                                grid.west + 0.5 * grid.cell * grid.columns,
                                                grid.north - 0.5 * grid.cell * grid.rows};
    return frame.neutralAbout(centre);
}

/// The next whole cell from `edge` on. What is less than a micrometre from one is at it.
double wholeCell(double edge, double cell) {
    constexpr double little = 1e-6; // [m]
    const double here = std::round(edge / cell) * cell;
    return std::abs(here - edge) < little ? here : std::ceil(edge / cell) * cell;
}

double falseOriginOf(double corner, double edge) {
    constexpr double perMetre = 1e6;
    return std::round((corner - edge) * perMetre) / perMetre + 0.0; // no −0
}

} // namespace

// Without a way through floating point.
std::string degreesText(std::int64_t tenMillionths) {
    constexpr std::int64_t whole = 10'000'000;
    std::string fraction = std::to_string(std::llabs(tenMillionths) % whole);
    fraction.insert(0, 7 - fraction.size(), '0');
    return (tenMillionths < 0 ? "-" : "") + std::to_string(std::llabs(tenMillionths) / whole) +
           "." + fraction;
}

std::string toldNumber(std::optional<double> value) {
    constexpr double decimals = 1e4;
    return value && std::isfinite(*value)
               ? printExact(std::round(*value * decimals) / decimals + 0.0) // no −0
               : std::string();
}

ToldPlane::ToldPlane(const MapDrawing& map, const LocalFrame& frame)
    : told_(planeFor(map, frame)) {}

ToldDegrees ToldPlane::degreesOf(Point place) const {
    constexpr double perDegree = 1e7;
    const GeographicPoint g = told_.toGeographic(place);
    return {
        .longitude = std::llround(g.longitude * perDegree),
        .latitude = std::llround(g.latitude * perDegree)};
}

ToldPlane::Grid ToldPlane::of(const GridFrame& grid) const {
    if (!hasOrigin()) {
        return {.wkt = told_.plane.wkt(), .corner = {grid.west, grid.north}};
    }
    const Point edge{grid.west + told_.shift.east, grid.north + told_.shift.north};
    const Point corner{wholeCell(edge.east, grid.cell), wholeCell(edge.north, grid.cell)};
    return {
        .wkt = told_.plane.wkt(
            {falseOriginOf(corner.east, edge.east), falseOriginOf(corner.north, edge.north)}),
        .corner = corner};
}

} // namespace bedlore
