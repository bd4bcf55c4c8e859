// SPDX-License-Identifier: MIT
#include "gui/document/live_map.hpp"

#include <utility>

namespace bedlore {

std::shared_ptr<LiveMap> LiveMap::over(const BedMap& map) {
    auto bed = LiveBed::over(map.surface, map.reduction, map.grid.frame());
    return bed ? std::shared_ptr<LiveMap>(new LiveMap(map.request, *std::move(bed))) : nullptr;
}

std::shared_ptr<const BedMap>
LiveMap::follow(const std::shared_ptr<const Book>& book, const Progress& progress) {
    auto reduction = reduceFor(*book, request_, progress);
    if (!reduction) {
        return nullptr;
    }
    const std::scoped_lock lock(mutex_);
    if (progress.cancelled() || !bed_) {
        return nullptr;
    }
    if (!bed_->follow(*reduction)) {
        bed_.reset();
        return nullptr;
    }
    auto surface = bed_->surface();
    if (!surface) {
        bed_.reset();
        return nullptr;
    }
    auto map = std::make_shared<BedMap>();
    map->book = book;
    map->request = request_;
    map->reduction = *std::move(reduction);
    map->level = latestLevel(map->reduction);
    map->surface = *std::move(surface);
    map->grid = bed_->grid();
    map->settled = false;
    placeByBed(map->reduction, [&](Point place) { return map->levelAt(place); });
    return map;
}

} // namespace bedlore
