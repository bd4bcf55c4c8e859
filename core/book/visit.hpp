// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/kit.hpp"
#include "core/book/mark.hpp"
#include "core/book/place.hpp"
#include "core/book/swim.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>

// A day at a swim, how its numbers are to be read, and the directions that he cast in.

namespace bedlore {

/// One pass from stick to stick, or there and back as a few people count.
enum class WrapCounts : std::uint8_t { Pass, ThereAndBack };

/// What gave the directions of a visit. It sets their usual error.
enum class BearingSource : std::uint8_t { Unsaid, Mark, SightingCompass, Phone, Photo, Map, Guess };

/// The float's pull length and what the rig adds (link and float), for depths counted in pulls.
struct FloatRig {
    Entered pull;
    Entered offset;
    friend bool operator==(const FloatRig&, const FloatRig&) = default;
};

/// A swim and a date: that pair is the visit. What is empty was not said.
struct Visit {
    Id<Visit> id;
    Id<Swim> swim;
    Date date{};
    std::string author;
    std::optional<Entered> level;
    std::optional<Entered> sticks;
    WrapCounts wrapCounts = WrapCounts::Pass;
    std::optional<Unit> bareDistance;
    std::optional<Unit> bareDepth;
    std::optional<FloatRig> floatRig;
    std::optional<Id<Reel>> reel;
    BearingSource bearingSource = BearingSource::Unsaid;
    std::optional<Entered> bearingError;
    std::optional<Entered> tipHeight;
    RodPosition whenClipping = RodPosition::Unsaid;
    std::string note;
    friend bool operator==(const Visit&, const Visit&) = default;
};

struct Aim;

/// On nothing but its place in the fan, from left to right.
struct AimWithoutAngle {
    friend bool operator==(const AimWithoutAngle&, const AimWithoutAngle&) = default;
};
struct AimAtMark {
    Id<Mark> mark;
    std::optional<Entered> offset; ///< degrees, fists or fingers; right positive
    friend bool operator==(const AimAtMark&, const AimAtMark&) = default;
};
struct AimAtBearing {
    BearingEntry bearing;
    friend bool operator==(const AimAtBearing&, const AimAtBearing&) = default;
};
struct AimFromAim {
    Id<Aim> other;
    Entered offset; ///< degrees, fists or fingers; right positive
    friend bool operator==(const AimFromAim&, const AimFromAim&) = default;
};
/// By the clock, 12 being straight out from the swim.
struct AimAtClock {
    Entered hour;
    friend bool operator==(const AimAtClock&, const AimAtClock&) = default;
};
struct AimLeftOf {
    Id<Aim> other;
    friend bool operator==(const AimLeftOf&, const AimLeftOf&) = default;
};

using AimBasis =
    std::variant<AimWithoutAngle, AimAtMark, AimAtBearing, AimFromAim, AimAtClock, AimLeftOf>;

/// A direction that he casts in on one visit, under the letter or word that he gave it.
/// `order` counts from the left as he faces the water where `basis` has no angle, else the order of
/// entry.
struct Aim {
    Id<Aim> id;
    Id<Visit> visit;
    int order = 0;
    std::string label;
    AimBasis basis;
    std::string text; ///< the definition as typed
    friend bool operator==(const Aim&, const Aim&) = default;
};

} // namespace bedlore
