// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/chart/map_drawing.hpp"
#include "core/geodesy/local_frame.hpp"

#include <filesystem>

// The bed as an OGC GeoTIFF for a GIS.

namespace bedlore {

/// Writes a cloud-optimised GeoTIFF, whole or not at all, without a sidecar: float32, nodata −9999,
/// cells as areas, in the plane that `ToldPlane` gives. Band 1 `depth` [m, positive down, at
/// the map's level]; band 2 `standard error` [m] where the map may hold it (tier `All`). Fails when
/// the map has no cells or the disk does not take the file.
[[nodiscard]] Result<void> writeBedGeoTiff(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress = {});

} // namespace bedlore
