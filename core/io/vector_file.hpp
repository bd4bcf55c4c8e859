// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/chart/map_drawing.hpp"
#include "core/geodesy/local_frame.hpp"

#include <filesystem>

// The map as GeoJSON.

namespace bedlore {

/// Writes `map` as one RFC 7946 FeatureCollection, whole or not at all: contours and depth bands at
/// every tier; swims, casts, readings and spots where the map holds them. `frame` is the water's
/// plane. Refused in a sentence for a water without position.
[[nodiscard]] Result<void> writeGeoJson(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress = {});

} // namespace bedlore
