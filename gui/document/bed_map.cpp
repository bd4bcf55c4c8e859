// SPDX-License-Identifier: MIT
#include "gui/document/bed_map.hpp"

#include "core/reduction/line_out.hpp"
#include "core/reduction/uncertainty.hpp"

#include <cmath>
#include <utility>

namespace bedlore {

namespace {

std::optional<Id<Swim>> aloneSwim(const Book& book, const BedRequest& request) {
    if (!request.swim) {
        return std::nullopt;
    }
    const Swim* swim = book.find(*request.swim);
    const bool placed = swim != nullptr && !std::holds_alternative<std::monostate>(swim->place);
    return swim != nullptr && !placed ? request.swim : std::nullopt;
}

GridFrame widened(const BedSurface& surface, double cell) {
    // Room for the next few casts, so that they need no other grid [m].
    constexpr double room = 12.0;
    GridFrame frame = surface.frameFor(cell);
    if (frame.size() == 0) {
        return frame;
    }
    const int cells = static_cast<int>(std::ceil(room / cell));
    frame.west -= cells * cell;
    frame.north += cells * cell;
    frame.rows += 2 * cells;
    frame.columns += 2 * cells;
    return frame;
}

/// The coarsest of the preferred cell sizes whose grid is fine enough. Eighty to a power of ten (as
/// in series R 80 of ISO 3, not rounded), so that the grid is never much finer than it must be, and
/// a little more water seldom means other cells.
GridFrame liveFrame(const BedSurface& surface) {
    constexpr double finest = 0.1; // [m]
    constexpr int coarsest = 5 * 80;
    GridFrame frame = widened(surface, finest);
    for (int i = 1; i <= coarsest; ++i) {
        const GridFrame coarser = widened(surface, finest * std::pow(10.0, i / 80.0));
        if (coarser.size() < static_cast<std::size_t>(liveGridCells)) {
            return frame;
        }
        frame = coarser;
    }
    return frame;
}

} // namespace

const ReducedSwim* BedMap::standing() const {
    for (const ReducedSwim& swim : reduction.swims) {
        if (!request.swim || swim.swim == *request.swim) {
            return &swim;
        }
    }
    return nullptr;
}

const ReducedVisit* BedMap::latestVisit() const {
    const ReducedSwim* swim = standing();
    const ReducedVisit* latest = nullptr;
    for (const ReducedVisit& visit : reduction.visits) {
        const bool here = swim != nullptr && reduction.swims[visit.swim].swim == swim->swim;
        if (here && (latest == nullptr || visit.date >= latest->date)) {
            latest = &visit;
        }
    }
    return latest;
}

Length BedMap::tipHeight() const {
    const ReducedVisit* visit = latestVisit();
    return visit != nullptr ? visit->tipHeight : usual::tipHeight;
}

Length BedMap::wrap() const {
    const ReducedVisit* visit = latestVisit();
    return wrapOf(visit != nullptr ? book->get(visit->visit) : Visit{});
}

std::optional<BedLevel> BedMap::levelAt(Point place) const {
    const GridFrame& frame = grid.frame();
    // Compared before they are made whole: a place may be anywhere, and a grid may have no cells.
    const double across = std::floor((place.east - frame.west) / frame.cell);
    const double down = std::floor((frame.north - place.north) / frame.cell);
    const bool inside = down >= 0.0 && across >= 0.0 && down < frame.rows && across < frame.columns;
    const int row = inside ? static_cast<int>(down) : 0;
    const int column = inside ? static_cast<int>(across) : 0;
    if (!inside || grid.known.at(row, column) == 0) {
        return std::nullopt;
    }
    return BedLevel{static_cast<double>(grid.level.at(row, column)) * metre};
}

Result<Reduction> reduceFor(const Book& book, const BedRequest& request, const Progress& progress) {
    return reduce(book, {.water = request.water, .alone = aloneSwim(book, request)}, progress);
}

Result<std::shared_ptr<const BedMap>> makeBedMap(
    const std::shared_ptr<const Book>& book, const BedRequest& request, const Progress& progress) {
    auto map = std::make_shared<BedMap>();
    map->book = book;
    map->request = request;
    Result<Reduction> reduction = reduceFor(*book, request, progress.part(0.0, 0.1));
    if (!reduction) {
        return fail(reduction.error());
    }
    map->reduction = std::move(*reduction);
    map->level = latestLevel(map->reduction);
    Result<BedSurface> surface = BedSurface::fit(map->reduction, progress.part(0.1, 0.5));
    if (!surface) {
        return fail(surface.error());
    }
    map->surface = std::move(*surface);
    Result<BedGrid> grid = map->surface.grid(liveFrame(map->surface), progress.part(0.5, 1.0));
    if (!grid) {
        return fail(grid.error());
    }
    map->grid = std::move(*grid);
    placeByBed(map->reduction, [&](Point place) { return map->levelAt(place); });
    return std::shared_ptr<const BedMap>(std::move(map));
}

bool movesTheBed(const Change& change) {
    return change.touches<Reading>() || change.touches<Cast>() || change.touches<Aim>() ||
           change.touches<Visit>() || change.touches<Swim>() || change.touches<Water>() ||
           change.touches<Mark>() || change.touches<Reel>() || change.touches<Kit>() ||
           change.touches<FixSet>() || change.touches<Spot>();
}

} // namespace bedlore
