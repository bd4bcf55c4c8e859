// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/place.hpp"
#include "core/book/water.hpp"

#include <optional>
#include <string>

// A place on the bank to fish from (a peg).

namespace bedlore {

/// `place` is where the rod tip was held on the plan, not the angler's feet: every distance of this
/// swim starts there. `tipHeight` is above the water of the day; a visit may override it.
struct Swim {
    Id<Swim> id;
    Id<Water> water;
    std::string name;
    Place place;
    std::string standing;
    std::optional<Entered> tipHeight;
    std::optional<BearingEntry> leftBoundary;
    std::optional<BearingEntry> rightBoundary;
    friend bool operator==(const Swim&, const Swim&) = default;
};

} // namespace bedlore
