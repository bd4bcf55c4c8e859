// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/cast.hpp"
#include "core/book/imported_file.hpp"
#include "core/book/kinds.hpp"
#include "core/units/entered.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// Something felt or measured on a cast.

namespace bedlore {

/// `NearerThanLast` is a count wound in since the reading before it on the cast ("-6t").
enum class DistanceMode : std::uint8_t { StillOut, NearerThanLast };

enum class DepthMethod : std::uint8_t { FloatPulls, Measured, Counted };

/// A depth below that day's surface. In pulls it excludes the rig's offset, which the visit holds;
/// in any other unit offsets are already in it. `to` is the deeper end of "between 8 and 10".
struct DepthEntry {
    Entered value;
    std::optional<Entered> to;
    DepthMethod method = DepthMethod::Measured;
    bool about = false;
    friend bool operator==(const DepthEntry&, const DepthEntry&) = default;
};

/// Where in an imported file a reading stood; lines count from 1.
struct SourceLine {
    Id<ImportedFile> file;
    int line = 0;
    friend bool operator==(const SourceLine&, const SourceLine&) = default;
};

/// From `from` (line out) to the nearer `to` where it is a stretch. Most readings have no depth; a
/// stretch's depth is at `from`. Depth is not comparable between days until the water level has
/// been taken out of it.
struct Reading {
    Id<Reading> id;
    Id<Cast> cast;
    int order = 0;
    Entered from;
    DistanceMode mode = DistanceMode::StillOut;
    bool about = false;
    std::optional<Entered> to;
    std::optional<DepthEntry> depth;
    std::optional<Drop> drop;
    std::optional<Pull> pull;
    std::vector<OnLead> onLead;
    std::optional<Substrate> substrate;
    std::optional<Substrate> otherSubstrate; ///< the second of "gr/si", an edge between two
    std::optional<Cover> cover;
    int sureness = 2; ///< 1 doubtful ("?"), 2 as usual, 3 sure ("!")
    int agreeing = 1; ///< casts that agree ("x3")
    std::optional<Outcome> outcome;
    std::string note;
    std::optional<SourceLine> source;
    friend bool operator==(const Reading&, const Reading&) = default;
};

} // namespace bedlore
