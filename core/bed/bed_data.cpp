// SPDX-License-Identifier: MIT
#include "core/bed/bed_data.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

namespace bedlore {

namespace {

// A depth is never better than this: it keeps two readings at one place from contradicting each
// other beyond what arithmetic can bear.
constexpr double leastNoise = 0.005; // m

bool isUsable(const Sounding& sounding) {
    const auto finite = [](double value) { return std::isfinite(value); };
    bool usable = finite(sounding.place.east) && finite(sounding.place.north) &&
                  finite(sounding.level.aboveDatum.si()) && finite(sounding.levelSigma.si()) &&
                  finite(sounding.placeSigma.si());
    if (usable && sounding.line) {
        usable = finite(sounding.line->line.length.si()) && finite(sounding.line->drop.si()) &&
                 finite(sounding.line->lineSigma.si());
    }
    return usable;
}

ThrowGeometry geometryOf(const Reduction& reduction, const Sounding& sounding) {
    const LineGeometry& line = *sounding.line;
    const std::size_t visit = reduction.casts.at(line.cast).visit;
    ThrowGeometry result;
    result.cast = line.cast;
    result.tip = reduction.swims.at(reduction.visits.at(visit).swim).tip;
    const double east = sounding.place.east - result.tip.east;
    const double north = sounding.place.north - result.tip.north;
    result.range = std::hypot(east, north);
    result.direction = std::atan2(east, north);
    result.line = line.line.length.si();
    result.drop = line.drop.si();
    result.lineSigma = line.lineSigma.si();
    return result;
}

auto contentOf(const BedDatum& datum) {
    const std::size_t none = std::numeric_limits<std::size_t>::max();
    return std::tuple(
        datum.recorded.east,
        datum.recorded.north,
        datum.level,
        datum.noise,
        datum.thrown ? datum.thrown->cast : none,
        datum.thrown ? datum.thrown->line : 0.0,
        datum.thrown ? datum.thrown->lineSigma : datum.placeSigma);
}

} // namespace

std::optional<BedDatum> bedDatum(const Reduction& reduction, const Sounding& sounding) {
    if (!isUsable(sounding)) {
        return std::nullopt;
    }
    BedDatum datum;
    datum.recorded = sounding.place;
    datum.level = sounding.level.aboveDatum.si();
    datum.noise = std::max(sounding.levelSigma.si(), leastNoise);
    datum.placeSigma = sounding.placeSigma.si();
    if (sounding.line) {
        datum.thrown = geometryOf(reduction, sounding);
    }
    return datum;
}

BedData bedData(const Reduction& reduction) {
    BedData data;
    data.soundings.reserve(reduction.soundings.size());
    for (const Sounding& sounding : reduction.soundings) {
        if (const auto datum = bedDatum(reduction, sounding)) {
            data.soundings.push_back(*datum);
        } else {
            ++data.leftOut;
        }
    }
    std::sort(
        data.soundings.begin(), data.soundings.end(), [](const BedDatum& a, const BedDatum& b) {
            return contentOf(a) < contentOf(b);
        });
    return data;
}

} // namespace bedlore
