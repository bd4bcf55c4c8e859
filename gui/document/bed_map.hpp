// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/surface.hpp"
#include "core/book/book.hpp"
#include "core/reduction/reduction.hpp"
#include "core/units/depth.hpp"

#include <memory>
#include <optional>

// All that is derived from one water's notes for the screen: a value, made in one go.

namespace bedlore {

/// Which bed is wanted. `swim` is the swim that he is in: it decides what stands upright, and where
/// it has no place among others, it is shown by itself.
struct BedRequest {
    Id<Water> water;
    std::optional<Id<Swim>> swim;
    friend bool operator==(const BedRequest&, const BedRequest&) = default;
};

struct BedMap {
    std::shared_ptr<const Book> book; ///< the book that it was made from
    BedRequest request;
    Reduction reduction; ///< readings without a depth are placed by the bed
    BedSurface surface;
    BedGrid grid;
    WaterLevel level; ///< of the latest visit
    /// Whether the bed's unknowns were found for these readings, and not for those of a line or two
    /// before: what is written or printed is settled.
    bool settled = true;

    /// The swim that he is in, where it could be placed.
    [[nodiscard]] const ReducedSwim* standing() const;
    /// The latest visit to that swim.
    [[nodiscard]] const ReducedVisit* latestVisit() const;
    /// Height of the rod tip above the water at the chosen swim.
    [[nodiscard]] Length tipHeight() const;
    /// One counted wrap on the latest visit to it.
    [[nodiscard]] Length wrap() const;
    /// Bed level at a place, from the grid; none where it is not known.
    [[nodiscard]] std::optional<BedLevel> levelAt(Point place) const;
};

/// Cells of the grid that is drawn live: at least so many, and at most a quarter more.
inline constexpr int liveGridCells = 40'000;

/// The notes of the request's water, or of its swim where that has no place among others.
[[nodiscard]] Result<Reduction>
reduceFor(const Book& book, const BedRequest& request, const Progress& progress = {});

/// Pure: the same book and request give the same map. Stopped between its steps.
[[nodiscard]] Result<std::shared_ptr<const BedMap>> makeBedMap(
    const std::shared_ptr<const Book>& book,
    const BedRequest& request,
    const Progress& progress = {});

/// Whether a change of these records can move the bed.
[[nodiscard]] bool movesTheBed(const Change& change);

} // namespace bedlore
