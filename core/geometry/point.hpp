// SPDX-License-Identifier: MIT
#pragma once

// A place in the water's plane.

namespace bedlore {

/// Metres east and north of the water's origin.
struct Point {
    double east = 0.0;
    double north = 0.0;

    friend constexpr bool operator==(const Point&, const Point&) = default;
};

} // namespace bedlore
