// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/geodesy/local_frame.hpp"
#include "core/units/bearing.hpp"

#include <map>
#include <string>
#include <vector>

// Where the casts of a visit went, from marks, bearings, fists and the order of the aims.

namespace bedlore {

struct CastDirection {
    PlaneBearing bearing;
    Angle sigma;
    bool guessed = false;
};

struct VisitDirections {
    std::map<Id<Cast>, CastDirection> casts;
    std::map<Id<Aim>, CastDirection> aims;
    std::vector<std::string> notices;
};

/// Directions of all casts and aims of `visit`, seen from `tip`. A cast's own bearing comes before
/// its aim. Fists are 10°, fingers 2° [M]; a clock hour is 30° from straight out, which is midway
/// between the swim's boundaries, else the middle of the directions known. What has no angle is
/// spread evenly, from left to right in the order of the aims: 10° apart, or within the gap between
/// neighbours that have one; it is marked as guessed.
[[nodiscard]] VisitDirections
castDirections(const Book& book, const Visit& visit, const LocalFrame& frame, Point tip);

/// A bearing of the notes in the plane; fails for a magnetic one in a water without position.
[[nodiscard]] Result<PlaneBearing>
planeBearing(const BearingEntry& entry, const LocalFrame& frame, Point tip, Date date);

} // namespace bedlore
