// SPDX-License-Identifier: MIT
#include "gui/document/map_export.hpp"

#include "core/io/geotiff.hpp"
#include "core/io/map_tables.hpp"
#include "core/io/new_folder.hpp"
#include "core/io/vector_file.hpp"
#include "gui/document/bed_picture.hpp"
#include "gui/paint/sheet_painter.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

// Cells of the largest grid that is written unasked.
constexpr std::size_t usualCells = 4'000'000;

GridFrame exportFrame(const BedSurface& surface) {
    double cell = 1.0;
    GridFrame frame = surface.frameFor(cell);
    while (frame.size() > usualCells) {
        cell *= 2.0;
        frame = surface.frameFor(cell);
    }
    return frame;
}

MapDrawing drawing(
    const BedMap& map, const BedGrid& grid, const MapShare& share, const Progress& progress = {}) {
    return drawMap(
        *map.book,
        map.reduction,
        grid,
        {.level = map.level,
         .tier = share.tier,
         .privateThings = share.privateThings,
         .swim = map.request.swim,
         .depthUnit = share.units.depth,
         .distanceUnit = sheetUnit(share.units),
         .ringsInWraps = share.units.distance == Unit::Wrap},
        progress);
}

std::string counted(std::size_t count, const char* one, const char* many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

} // namespace

Result<void> checkWhatTheMapHas(const BedMap& map, const MapFiles& files) {
    if (files.geojson && !map.reduction.frame.hasOrigin()) {
        return fail(
            inputError("This water has no latitude and longitude, which GeoJSON needs. Give "
                       "its swims a position, or write a GeoTIFF instead."));
    }
    if (files.geotiff && map.surface.soundingCount() == 0) {
        return fail(inputError("There is no depth yet to make a GeoTIFF of: type a reading with a "
                               "depth, or take some in, first."));
    }
    return {};
}

std::vector<std::filesystem::path> MapFiles::all() const {
    std::vector<std::filesystem::path> paths;
    for (const auto& path : {geotiff, geojson, pdf, tables}) {
        if (path) {
            paths.push_back(*path);
        }
    }
    return paths;
}

MapDrawing shownMap(const BedMap& map, const MapShare& share) {
    return drawing(map, map.grid, share);
}

std::vector<std::string>
holdings(const MapDrawing& drawing, MapFileKind kind, PrivateThings privateThings) {
    const bool isSheet = kind == MapFileKind::Pdf;
    if (drawing.tier != SharingTier::All) {
        if (isSheet) {
            return {
                "depths inside one smooth outline",
                "the day of printing",
                "no casts, readings, swims, spots, names or other dates"};
        }
        return {
            "depths inside one smooth outline", "no casts, readings, swims, spots, names or dates"};
    }
    std::vector<std::string> lines;
    const auto say = [&lines](std::size_t count, const char* one, const char* many) {
        if (count > 0) {
            lines.push_back(counted(count, one, many));
        }
    };
    // The sheet has a hatch where he is too unsure, and no number for it.
    lines.emplace_back(isSheet ? "depths" : "depths, and how sure each is");
    if (kind == MapFileKind::GeoTiff) {
        return lines;
    }
    const bool hasMarks = isSheet || kind == MapFileKind::Tables;
    if (hasMarks) {
        lines.emplace_back("the water's name and the days of the visits");
    }
    if (isSheet) {
        lines.emplace_back("the day of printing");
    }
    say(drawing.swims.size(), "swim with its name", "swims with their names");
    say(drawing.casts.size(), "cast with its date", "casts with their dates");
    say(drawing.readings.size(), "reading", "readings");
    say(drawing.spots.size(), "spot with its name", "spots with their names");
    if (hasMarks) {
        say(drawing.marks.size(), "mark with its name", "marks with their names");
    }
    lines.push_back(
        std::string("private spots") + (hasMarks ? " and marks" : "") +
        (privateThings == PrivateThings::Include ? " too, where there are any" : " are left out"));
    return lines;
}

Result<MapDrawing> leavingMap(
    const std::shared_ptr<const BedMap>& map, const MapShare& share, const Progress& progress) {
    if (!map->settled) {
        const auto settled = makeBedMap(map->book, map->request, progress.part(0.0, 0.5));
        return settled ? leavingMap(*settled, share, progress.part(0.5, 1.0))
                       : fail(settled.error());
    }
    const GridFrame frame =
        frameAtTier(exportFrame(map->surface), map->reduction.frame, share.tier);
    const Result<BedGrid> grid = map->surface.grid(frame, progress);
    if (!grid) {
        return fail(grid.error());
    }
    MapDrawing shown = drawing(*map, *grid, share, progress);
    return progress.cancelled() ? Result<MapDrawing>(fail(cancelledError()))
                                : Result<MapDrawing>(std::move(shown));
}

std::string writtenWords(const std::vector<std::filesystem::path>& files) {
    std::string names;
    for (const std::filesystem::path& path : files) {
        names += (names.empty() ? "" : ", ") + path.filename().string();
    }
    return files.empty()
               ? std::string()
               : "Written: " + names + ", in " +
                     std::filesystem::absolute(files.front()).parent_path().string() + ".";
}

Result<void> writeMapFiles(
    const std::shared_ptr<const BedMap>& map,
    const MapShare& share,
    const MapFiles& files,
    Date printed,
    const Progress& progress) {
    // What can be refused is refused before anything is written.
    if (Result<void> has = checkWhatTheMapHas(*map, files); !has) {
        return has;
    }
    if (files.tables) {
        if (Result<void> isNew = checkNewFolder(*files.tables); !isNew) {
            return isNew;
        }
    }
    const Result<MapDrawing> shown = leavingMap(map, share, progress.part(0.0, 0.6));
    if (!shown) {
        return fail(shown.error());
    }
    const auto& frame = map->reduction.frame;
    Result<void> written;
    if (files.geotiff) {
        written = writeBedGeoTiff(*files.geotiff, *shown, frame, progress.part(0.6, 0.8));
    }
    if (written && files.geojson) {
        written = writeGeoJson(*files.geojson, *shown, frame, progress.part(0.8, 0.9));
    }
    if (written && files.pdf) {
        written = writeSheetPdf(*files.pdf, *shown, {.printed = printed}, progress.part(0.9, 0.95));
    }
    if (written && files.tables) {
        const auto names = writeMapTables(*files.tables, *shown, frame, progress.part(0.95, 1.0));
        return names ? Result<void>() : fail(names.error());
    }
    return written;
}

} // namespace bedlore
