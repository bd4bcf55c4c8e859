// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <cstdint>
#include <utility>
#include <vector>

// From pieces of a contour to lines.

namespace bedlore::detail {

/// A piece of a line across one triangle.
struct Segment {
    std::uint64_t from = 0; ///< edges
    std::uint64_t to = 0;
    Point start;
    Point end;
};

/// A line made of pieces.
struct JoinedLine {
    bool closed = false;
    std::uint64_t from = 0; ///< edges where an open line begins and ends
    std::uint64_t to = 0;
    std::vector<Point> vertices; ///< of a closed one, the first is not repeated
};

/// The lines of one level, open ones first; their order hangs on where they are and not on the
/// order of `segments`. No two pieces begin on the same edge, nor end on one.
[[nodiscard]] std::vector<JoinedLine> joined(const std::vector<Segment>& segments);

} // namespace bedlore::detail
