// SPDX-License-Identifier: MIT
#pragma once

#include "core/reduction/sounding.hpp"

#include <optional>
#include <vector>

// Where a water's swims stand in its plane.

namespace bedlore {

struct Ground {
    LocalFrame frame = LocalFrame::withoutOrigin();
    std::vector<ReducedSwim> swims; ///< by name
    std::vector<ReductionNotice> notices;
};

/// The water's plane (its stored origin, else the one that its swims or fixes give) with its swims
/// in it. A swim without a place is left out with a notice, unless it is `alone` or the only swim
/// and nothing else is placed: it then stands at the zero of a plane without origin.
[[nodiscard]] Ground
groundOf(const Book& book, const Water& water, const std::optional<Id<Swim>>& alone);

} // namespace bedlore
