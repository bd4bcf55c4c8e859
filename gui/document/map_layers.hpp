// SPDX-License-Identifier: MIT
#pragma once

#include <array>

// What of a map is shown on the screen.

namespace bedlore {

/// What he may hide. The hatch over what nobody knows is not among it: without it a guess would
/// look like a bed.
struct MapLayers {
    bool casts = true;
    bool readings = true;
    bool depths = true; ///< the number beside each reading
    bool contours = true;
    bool shading = true;
    bool rings = true;
    bool marks = true;
    bool spots = true;
    bool fixes = true; ///< depths from elsewhere
    friend bool operator==(const MapLayers&, const MapLayers&) = default;
};

struct MapLayer {
    const char* name; ///< in the settings, and of its action behind "layer"
    bool MapLayers::*shown;
};
inline constexpr std::array<MapLayer, 9> mapLayers{{
    {"Casts", &MapLayers::casts},
    {"Readings", &MapLayers::readings},
    {"Depths", &MapLayers::depths},
    {"Contours", &MapLayers::contours},
    {"Shading", &MapLayers::shading},
    {"Rings", &MapLayers::rings},
    {"Marks", &MapLayers::marks},
    {"Spots", &MapLayers::spots},
    {"Fixes", &MapLayers::fixes},
}};

} // namespace bedlore
