// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/reduction/north.hpp"
#include "core/reduction/notes.hpp"
#include "core/units/bearing.hpp"

#include <map>
#include <string>
#include <variant>
#include <vector>

// Where the casts of a visit went, from marks, bearings, fists and the order of the aims.

namespace bedlore {

struct CastDirection {
    PlaneBearing bearing;
    Angle sigma;
    bool guessed = false;
};

/// A bearing of an aim or a cast that could not be used, and why.
struct DirectionFault {
    std::variant<Id<Aim>, Id<Cast>> about;
    std::string sentence;
};

struct VisitDirections {
    std::map<Id<Cast>, CastDirection> casts;
    std::map<Id<Aim>, CastDirection> aims;
    std::vector<DirectionFault> faults;
    bool usesTrueNorth = false;
    bool usesCompass = false;
};

/// Directions of all casts and aims of a visit, seen from `tip`. A cast's own bearing comes before
/// its aim; a mark's own place before its bearing, which counts only as seen from this swim. Fists
/// are 10°, fingers 2° [M]; a clock hour is 30° from straight out, which is midway between the
/// swim's boundaries, else the middle of the directions known, else the plane's north. What has no
/// angle is spread evenly, from left to right in the order of the aims: 10° apart (closer where the
/// fan would pass 150°), or within the gap between neighbours that have an angle; it is marked as
/// guessed. A compass bearing that cannot be turned to the plane keeps its degrees, guessed, so
/// that the fan keeps its shape.
[[nodiscard]] VisitDirections
castDirections(const Book& book, const VisitNotes& notes, const NorthAt& north, Point tip);

/// The same for one visit of the book.
[[nodiscard]] VisitDirections
castDirections(const Book& book, const Visit& visit, const LocalFrame& frame, Point tip);

} // namespace bedlore
