// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/contour_trace.hpp"

#include <vector>

// Fewer vertices for lines of equal depth, without making any two meet. Only `contours.cpp` needs
// this.

namespace bedlore::detail {

/// The lines of `traced` with the vertices left out that lie within `tolerance` [m] of the line
/// without them (Douglas and Peucker, 1973, The Canadian Cartographer 10(2)). A line that would
/// then touch another, itself or an outline keeps all its vertices. Ends stay.
[[nodiscard]] std::vector<TracedLine>
simplified(const TracedContours& traced, double tolerance, double cell);

} // namespace bedlore::detail
