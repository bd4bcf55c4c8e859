// SPDX-License-Identifier: MIT
#include "core/reduction/fix_soundings.hpp"

#include "core/reduction/uncertainty.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <tuple>
#include <vector>

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

/// A row with its place: what is sorted, a third of a sounding's size.
struct PlacedRow {
    Point place;
    const FixSet* set;
    std::size_t row;
};

/// Rows that hold no usable place or depth come back as a count.
Result<std::size_t> placeRows(
    const FixSet& set,
    const LocalFrame& frame,
    std::vector<PlacedRow>& placed,
    const Progress& progress) {
    const FixColumns& columns = *set.columns;
    const bool geographic = set.frame == FixFrame::Geographic;
    const std::size_t rows = columns.x.size();
    placed.reserve(placed.size() + rows);
    std::size_t unusable = 0;
    for (std::size_t row = 0; row < rows; ++row) {
        if (row % cancelEvery == 0) {
            if (progress.cancelled()) {
                return fail(cancelledError());
            }
            progress.at(static_cast<double>(row) / static_cast<double>(rows));
        }
        if (set.excluded && row < set.excluded->size() && (*set.excluded)[row] != 0) {
            continue;
        }
        const Point place = geographic ? frame.toPlane({columns.y[row], columns.x[row]})
                                       : Point{columns.x[row], columns.y[row]};
        if (std::isfinite(place.east) && std::isfinite(place.north) &&
            std::isfinite(columns.depth[row])) {
            placed.push_back({.place = place, .set = &set, .row = row});
        } else {
            ++unusable;
        }
    }
    return unusable;
}

void sayOf(const FixSet& set, std::size_t unusable, Reduction& reduction) {
    if (unusable > 0) {
        reduction.notices.push_back(
            {.about = AnyId(set.id),
             .sentence = set.name + ": " + std::to_string(unusable) +
                         " rows hold no usable place or depth and are left out.",
             .refused = true});
    }
    if (saysNoLevel(*set.columns)) {
        reduction.notices.push_back(
            {.about = AnyId(set.id),
             .sentence = set.name + ": depths that say no level are taken with the water at zero.",
             .refused = false});
    }
}

/// By place and then by what they say, so that the map does not depend on the order of rows or of
/// imports.
void sortByContent(std::vector<PlacedRow>& placed) {
    std::sort(placed.begin(), placed.end(), [](const PlacedRow& a, const PlacedRow& b) {
        if (a.place != b.place) {
            return std::tie(a.place.north, a.place.east) < std::tie(b.place.north, b.place.east);
        }
        const Sounding one = soundingOf(*a.set, a.row, a.place);
        const Sounding two = soundingOf(*b.set, b.row, b.place);
        return std::tie(one.level, one.levelSigma) < std::tie(two.level, two.levelSigma);
    });
}

} // namespace

Result<void> addFixSoundings(const Book& book, Reduction& reduction, const Progress& progress) {
    std::vector<PlacedRow> placed;
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
        const auto unusable = placeRows(set, reduction.frame, placed, progress.part(0.0, 0.7));
        if (!unusable) {
            return fail(unusable.error());
        }
        sayOf(set, *unusable, reduction);
    }
    sortByContent(placed);
    reduction.soundings.reserve(reduction.soundings.size() + placed.size());
    for (const PlacedRow& row : placed) {
        reduction.soundings.push_back(soundingOf(*row.set, row.row, row.place));
    }
    return {};
}

} // namespace bedlore
