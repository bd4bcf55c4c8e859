// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/units/angle.hpp"
#include "gui/document/bed_map.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// The directions that he casts in from one swim.

namespace bedlore {

/// Throws of one visit in one direction. `label` is his letter ("A"), `mark` what it points at
/// where that was said.
struct AimLine {
    std::string label;
    std::string mark;
    Id<Visit> visit;
    Point tip;
    PlaneBearing direction;
    bool guessed = false;
    std::vector<std::size_t> casts; ///< into `Reduction::casts`
    Length reach;                   ///< ground distance of its farthest reading
    Length tipHeight;               ///< above the water, on that visit
    Length wrap;                    ///< what one was on that visit
    bool wrapIsSaid = false;        ///< by the visit's page
    friend bool operator==(const AimLine&, const AimLine&) = default;
};

/// Aims of the swim that the map is for, from left to right as he stands. Those of `visit` where it
/// has any, else of the latest visit that has.
[[nodiscard]] std::vector<AimLine> aimLines(const BedMap& map, std::optional<Id<Visit>> visit);

/// The place on an aim at a ground distance.
[[nodiscard]] Point placeOn(Point tip, PlaneBearing direction, Length range);

/// The ground distance of a lead with `line` out on an aim, from its own tip, the bed taken where
/// it is known.
[[nodiscard]] Length rangeFor(const BedMap& map, const AimLine& aim, Length line);

/// What one wrap is where these aims are, all of one visit: that visit's; where there are none, the
/// latest visit's.
[[nodiscard]] Length wrapFor(const BedMap& map, const std::vector<AimLine>& aims);

/// The aim nearest to the direction of a place; none without aims.
[[nodiscard]] std::optional<std::size_t>
nearestAim(const std::vector<AimLine>& aims, Point tip, Point place);

/// The direction from one place to another.
[[nodiscard]] PlaneBearing directionTo(Point from, Point to);

} // namespace bedlore
