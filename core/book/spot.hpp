// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/kit.hpp"
#include "core/book/mark.hpp"
#include "core/book/visit.hpp"

#include <optional>
#include <string>
#include <variant>
#include <vector>

// A place on the bed to come back to.

namespace bedlore {

/// Where a marker lead lay: on an aim at a length, as typed.
struct OnAim {
    Id<Aim> aim;
    Entered lineOut;
    friend bool operator==(const OnAim&, const OnAim&) = default;
};

using SpotPlace = std::variant<Place, OnAim>;

/// The length that was really clipped. It outranks whatever is computed.
struct LengthUsed {
    std::string rod; ///< as he named it ("rods", "spod")
    std::optional<Id<Visit>> visit;
    Entered length;
    friend bool operator==(const LengthUsed&, const LengthUsed&) = default;
};

/// A spot is where a marker lead lies on the bed on a tight line.
struct Spot {
    Id<Spot> id;
    Id<Water> water;
    std::string name;
    SpotPlace place;
    std::optional<Entered> lengthAlong;
    std::optional<Entered> width;
    std::optional<Id<Mark>> dayMark;
    std::optional<Entered> dayOffset;
    std::optional<Id<Mark>> nightMark;
    std::optional<Entered> nightOffset;
    bool isPrivate = false;
    std::vector<LengthUsed> lengths;
    std::string note;
    friend bool operator==(const Spot&, const Spot&) = default;
};

} // namespace bedlore
