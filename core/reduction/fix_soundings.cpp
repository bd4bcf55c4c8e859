// SPDX-License-Identifier: MIT
#include "core/reduction/fix_soundings.hpp"

#include "core/reduction/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <tuple>

namespace bedlore {

namespace {

constexpr std::size_t cancelEvery = 65536;

Sounding soundingOf(const FixSet& set, std::size_t row, Point place) {
    const FixColumns& columns = *set.columns;
    const bool hasLevel = !columns.level.empty() && std::isfinite(columns.level[row]);
    const bool hasSigma = !columns.sigma.empty() && std::isfinite(columns.sigma[row]);
    const WaterLevel level{hasLevel ? static_cast<double>(columns.level[row]) * metre : Length{}};
    const Length sigma =
        hasSigma ? static_cast<double>(columns.sigma[row]) * metre : usual::fixDepth;
    return {
        .source = FixRow{.set = set.id, .row = row},
        .place = place,
        .level = bedLevel(Depth{columns.depth[row] * metre}, level),
        .levelSigma = sigma,
        .line = std::nullopt,
        .placeSigma = usual::fixPlace};
}

bool saysNoLevel(const FixColumns& columns) {
    return columns.level.empty() ||
           std::any_of(columns.level.begin(), columns.level.end(), [](float level) {
               return !std::isfinite(level);
           });
}

Result<void> addSet(const FixSet& set, Reduction& reduction, const Progress& progress) {
    const FixColumns& columns = *set.columns;
    const bool geographic = set.frame == FixFrame::Geographic;
    for (std::size_t row = 0; row < columns.x.size(); ++row) {
        if (row % cancelEvery == 0 && progress.cancelled()) {
            return fail(cancelledError());
        }
        if (set.excluded && row < set.excluded->size() && (*set.excluded)[row] != 0) {
            continue;
        }
        const Point place = geographic ? reduction.frame.toPlane({columns.y[row], columns.x[row]})
                                       : Point{columns.x[row], columns.y[row]};
        reduction.soundings.push_back(soundingOf(set, row, place));
    }
    return {};
}

} // namespace

Result<void> addFixSoundings(const Book& book, Reduction& reduction, const Progress& progress) {
    const std::size_t first = reduction.soundings.size();
    for (const FixSet& set : book.all<FixSet>()) {
        if (set.water != reduction.water || !set.columns || set.columns->x.empty()) {
            continue;
        }
        if (set.frame == FixFrame::Geographic && !reduction.frame.hasOrigin()) {
            reduction.notices.push_back(
                {.about = AnyId(set.id),
                 .sentence =
                     "The depths of " + set.name +
                     " have latitude and longitude and this map has none, so they are left out.",
                 .refused = true});
            continue;
        }
        if (Result<void> added = addSet(set, reduction, progress); !added) {
            return added;
        }
        if (saysNoLevel(*set.columns)) {
            reduction.notices.push_back(
                {.about = AnyId(set.id),
                 .sentence = "Depths of " + set.name +
                             " that say no level are taken at the zero of levels.",
                 .refused = false});
        }
    }
    std::sort(
        reduction.soundings.begin() + static_cast<std::ptrdiff_t>(first),
        reduction.soundings.end(),
        [](const Sounding& a, const Sounding& b) {
            return std::tuple(a.place.north, a.place.east, a.level.aboveDatum, a.levelSigma) <
                   std::tuple(b.place.north, b.place.east, b.level.aboveDatum, b.levelSigma);
        });
    return {};
}

} // namespace bedlore
