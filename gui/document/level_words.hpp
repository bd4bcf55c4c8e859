// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"
#include "gui/document/bed_map.hpp"

#include <map>
#include <string>

// Visits whose level nobody said, where that makes their depths less sure than others.

namespace bedlore {

/// A sentence for each visit whose level counts for nothing: none is said though another visit to
/// the water has one, or what is said gives no height. `depthUnit` is foot or metre.
[[nodiscard]] std::map<Id<Visit>, std::string> levelRemarks(const BedMap& map, Unit depthUnit);

/// The same of the visit that took the depth nearest to `place`, in a few words; empty where its
/// level is said.
[[nodiscard]] std::string levelRemarkAt(const BedMap& map, Point place, Unit depthUnit);

} // namespace bedlore
