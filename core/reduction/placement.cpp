// SPDX-License-Identifier: MIT
#include "core/reduction/placement.hpp"

#include "core/base/contract.hpp"
#include "core/reduction/line_out.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

Point placeAt(Point tip, PlaneBearing direction, GroundDistance distance) {
    const double angle = direction.clockwise().si();
    const double range = distance.length.si();
    return {tip.east + range * std::sin(angle), tip.north + range * std::cos(angle)};
}

bool placeOnLine(PlacedReading& reading, Point tip, PlaneBearing direction, Length drop) {
    const auto range = groundDistance(*reading.line, drop);
    if (!range) {
        return false;
    }
    reading.range = *range;
    reading.place = placeAt(tip, direction, *range);
    if (reading.lineTo) {
        const auto nearEnd = groundDistance(*reading.lineTo, drop);
        reading.placeTo = nearEnd ? std::optional(placeAt(tip, direction, *nearEnd)) : std::nullopt;
    }
    return true;
}

PlaceErrors placeErrors(const PlaceErrorSources& sources) {
    const auto range = groundDistance(sources.line, sources.drop);
    BEDLORE_EXPECTS(range.has_value());
    const double l = sources.line.length.si();
    const double d = sources.drop.si();
    const double r = range->length.si();
    const double along = std::hypot(l * sources.lineSigma.si(), d * sources.dropSigma.si()) / r;
    return {.along = std::min(along, l) * metre, .across = r * sources.directionSigma.si() * metre};
}

} // namespace bedlore
