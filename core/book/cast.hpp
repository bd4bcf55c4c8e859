// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/place.hpp"
#include "core/book/visit.hpp"

#include <optional>
#include <string>

// One throw from a swim.

namespace bedlore {

/// Its readings share one aiming error. `name` is unique within the visit where it is not empty (an
/// import's own name for the cast). `bearing` counts where there is no `aim`, or where this throw
/// had a bearing of its own.
struct Cast {
    Id<Cast> id;
    Id<Visit> visit;
    int order = 0;
    std::string name;
    std::optional<Id<Aim>> aim;
    std::optional<BearingEntry> bearing;
    std::optional<Id<Reel>> reel;
    friend bool operator==(const Cast&, const Cast&) = default;
};

} // namespace bedlore
