// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/place.hpp"
#include "core/book/water.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// What to keep off or keep clear of.

namespace bedlore {

enum class HazardKind : std::uint8_t { Snag, OverheadLine, Shallow, Boundary };

/// One vertex is a place, several a line; `clearance` is the distance to keep.
struct Hazard {
    Id<Hazard> id;
    Id<Water> water;
    HazardKind kind = HazardKind::Snag;
    std::string name;
    std::vector<Place> vertices;
    std::optional<Entered> clearance;
    std::string note;
    friend bool operator==(const Hazard&, const Hazard&) = default;
};

} // namespace bedlore
