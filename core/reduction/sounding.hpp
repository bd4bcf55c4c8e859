// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/book.hpp"
#include "core/book/change.hpp"
#include "core/geodesy/local_frame.hpp"
#include "core/geometry/point.hpp"
#include "core/units/bearing.hpp"
#include "core/units/depth.hpp"
#include "core/units/length.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

// What the notes become: places with bed levels, their own errors, and the errors that they share.

namespace bedlore {

/// Errors that all soundings of a swim share (1 sd): where the rod tip was, in each direction of
/// the plan.
struct ReducedSwim {
    Id<Swim> swim;
    std::string name;
    Point tip;
    Length placeSigma;
};

/// Errors that all soundings of a visit share (1 sd). `level` is that day's surface.
struct ReducedVisit {
    Id<Visit> visit;
    std::size_t swim = 0; ///< into `Reduction::swims`
    Date date{};
    WaterLevel level;
    bool levelSaid = false;
    Length tipHeight; ///< above the water of the day
    Length levelSigma;
    Angle rotationSigma;
    double rangeScaleSigma = 0.0; ///< share of the line's length
    Length rangeOffsetSigma;
};

/// One throw. `direction` is guessed from the order of the aims where nothing gives an angle.
struct ReducedCast {
    Id<Cast> cast;
    std::size_t visit = 0; ///< into `Reduction::visits`
    std::string name;      ///< the aim's letter and the cast's own name or number
    PlaneBearing direction;
    Angle aimSigma;
    bool directionGuessed = false;
};

/// A row of a set of fixes.
struct FixRow {
    Id<FixSet> set;
    std::size_t row = 0;
    friend constexpr auto operator<=>(const FixRow&, const FixRow&) = default;
};

/// How a reading's place came about: what a change of an error does to its place and depth follows
/// from these.
struct LineGeometry {
    std::size_t cast = 0; ///< into `Reduction::casts`
    LineOut line;         ///< tip to lead
    Length drop;          ///< tip above the water plus depth: h + d
    GroundDistance range; ///< sqrt(line² − drop²)
    Length lineSigma;     ///< of the count alone, rounding included (1 sd)
};

/// A place on the bed with its level. `levelSigma` is the independent error of the depth itself,
/// rounding included (1 sd); errors of place are in `line` (readings) or `placeSigma` (fixes, each
/// direction).
struct Sounding {
    std::variant<Id<Reading>, FixRow> source;
    Point place;
    BedLevel level;
    Length levelSigma;
    std::optional<LineGeometry> line;
    Length placeSigma;
};

/// Any reading, with or without a depth, where it lies. `place` is empty where nothing can give it
/// one; `placeTo` is the near end of a stretch. Sigmas are of the place, along and across the cast,
/// shared errors included (1 sd).
struct PlacedReading {
    Id<Reading> reading;
    std::size_t cast = 0;
    std::optional<LineOut> line;
    std::optional<LineOut> lineTo;
    std::optional<GroundDistance> range;
    std::optional<Point> place;
    std::optional<Point> placeTo;
    std::optional<Depth> depth;
    std::optional<BedLevel> level;
    std::optional<Length> depthSigma;
    Length alongSigma;
    Length acrossSigma;
};

/// Something about the notes that he should know: a refused line, or what was assumed. Shown in
/// words, blocks nothing.
struct ReductionNotice {
    std::optional<AnyId> about;
    std::string sentence;
    bool refused = false; ///< the reading could not be used
};

/// All that was derived from one water's notes. Soundings stand in an order that depends on their
/// content only (date, swim, cast, place), never on ids, so the same notes give the same map
/// whatever the order of entry.
struct Reduction {
    Id<Water> water;
    LocalFrame frame = LocalFrame::withoutOrigin();
    std::vector<ReducedSwim> swims;
    std::vector<ReducedVisit> visits;
    std::vector<ReducedCast> casts;
    std::vector<PlacedReading> readings;
    std::vector<Sounding> soundings;
    std::vector<ReductionNotice> notices;
};

} // namespace bedlore
