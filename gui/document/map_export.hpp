// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/chart/map_drawing.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/display_units.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// The map that leaves the window as files.

namespace bedlore {

/// How much of the map leaves, and in whose units.
struct MapShare {
    SharingTier tier = SharingTier::Depth;
    PrivateThings privateThings = PrivateThings::LeaveOut;
    DisplayUnits units;
    friend bool operator==(const MapShare&, const MapShare&) = default;
};

/// Files that are wanted; what is empty is not written.
struct MapFiles {
    std::optional<std::filesystem::path> geotiff;
    std::optional<std::filesystem::path> geojson;
    std::optional<std::filesystem::path> pdf;
    std::optional<std::filesystem::path> tables; ///< a folder, new or empty

    [[nodiscard]] std::vector<std::filesystem::path> all() const;
    friend bool operator==(const MapFiles&, const MapFiles&) = default;
};

/// The map as it would leave, on the grid of `map`.
[[nodiscard]] MapDrawing shownMap(const BedMap& map, const MapShare& share);

enum class MapFileKind : std::uint8_t { GeoTiff, GeoJson, Pdf, Tables };

/// What a file of this map will hold, and what it will not, in a few words each. `privateThings` is
/// what `drawing` was made with.
[[nodiscard]] std::vector<std::string>
holdings(const MapDrawing& drawing, MapFileKind kind, PrivateThings privateThings);

/// The map as it leaves: settled, on a grid of 1 m (coarser for a large water) that tells nothing
/// which its tier keeps back.
[[nodiscard]] Result<MapDrawing> leavingMap(
    const std::shared_ptr<const BedMap>& map, const MapShare& share, const Progress& progress);

/// Whether all that these files need is known: a sentence that says what is not.
[[nodiscard]] Result<void> checkWhatTheMapHas(const BedMap& map, const MapFiles& files);

/// "Written: map.pdf, map.tif, in maps." (the folder by its whole path)
[[nodiscard]] std::string writtenWords(const std::vector<std::filesystem::path>& files);

/// Makes the map on a grid of 1 m (coarser for a large water) and writes the files, each whole or
/// not at all, stopping at the first that cannot be written. `printed` is the day that the sheet
/// carries.
[[nodiscard]] Result<void> writeMapFiles(
    const std::shared_ptr<const BedMap>& map,
    const MapShare& share,
    const MapFiles& files,
    Date printed,
    const Progress& progress = {});

} // namespace bedlore
