// SPDX-License-Identifier: MIT
#pragma once

// A place on the earth.

namespace bedlore {

/// WGS 84, degrees; latitude −90 to 90, longitude −180 to 180.
struct GeographicPoint {
    double latitude = 0.0;
    double longitude = 0.0;

    friend constexpr bool operator==(const GeographicPoint&, const GeographicPoint&) = default;
};

} // namespace bedlore
