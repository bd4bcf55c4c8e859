// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/live_bed.hpp"
#include "gui/document/bed_map.hpp"

#include <memory>
#include <mutex>
#include <optional>

// The map while a page is typed: each line shows at once, a full rebuild comes behind.

namespace bedlore {

/// A bed that follows the book from edit to edit. Jobs on several threads may ask, one is answered
/// at a time.
class LiveMap {
public:
    /// From a finished map; null where following makes no sense (few readings, crowded fixes).
    [[nodiscard]] static std::shared_ptr<LiveMap> over(const BedMap& map);

    /// The map of `book` under the unknowns that were found last, not settled. Null where only a
    /// full rebuild will do, then and from then on; also when stopped.
    [[nodiscard]] std::shared_ptr<const BedMap>
    follow(const std::shared_ptr<const Book>& book, const Progress& progress = {});

    [[nodiscard]] const BedRequest& request() const { return request_; }

private:
    LiveMap(const BedRequest& request, LiveBed bed)
        : request_(request)
        , bed_(std::move(bed)) {}

    BedRequest request_;
    std::mutex mutex_;
    std::optional<LiveBed> bed_;
};

} // namespace bedlore
