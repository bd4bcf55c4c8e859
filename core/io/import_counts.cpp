// SPDX-License-Identifier: MIT
#include "core/io/import_counts.hpp"

#include <algorithm>
#include <cstddef>

namespace bedlore {

namespace {

std::size_t fixesIn(const Book& book) {
    std::size_t count = 0;
    for (const FixSet& set : book.all<FixSet>()) {
        count += set.columns ? set.columns->x.size() : 0;
    }
    return count;
}

std::size_t reelsChanged(const Book& before, const Book& after) {
    const auto& reels = after.all<Reel>();
    return static_cast<std::size_t>(
        std::count_if(reels.begin(), reels.end(), [&](const Reel& reel) {
            const Reel* known = before.find(reel.id);
            return known == nullptr || !(*known == reel);
        }));
}

std::size_t swimsChanged(const Book& before, const Book& after) {
    const auto& swims = after.all<Swim>();
    return static_cast<std::size_t>(
        std::count_if(swims.begin(), swims.end(), [&](const Swim& swim) {
            const Swim* known = before.find(swim.id);
            return known != nullptr && !(*known == swim);
        }));
}

/// Shorelines are only ever added.
ImportCounts shoresIn(const Book& book) {
    ImportCounts counts;
    for (const Water& water : book.all<Water>()) {
        counts.shorelines += water.shore.size();
        for (const ShorePart& part : water.shore) {
            counts.shorePoints += part.vertices.size();
        }
    }
    return counts;
}

} // namespace

ImportCounts countNew(const Book& before, const Book& after) {
    const ImportCounts had = shoresIn(before);
    const ImportCounts has = shoresIn(after);
    return {
        .swims = after.all<Swim>().size() - before.all<Swim>().size(),
        .swimsChanged = swimsChanged(before, after),
        .casts = after.all<Cast>().size() - before.all<Cast>().size(),
        .readings = after.all<Reading>().size() - before.all<Reading>().size(),
        .fixes = fixesIn(after) - fixesIn(before),
        .reels = reelsChanged(before, after),
        .shorelines = has.shorelines - had.shorelines,
        .shorePoints = has.shorePoints - had.shorePoints};
}

} // namespace bedlore
