// SPDX-License-Identifier: MIT
#include "core/io/geotiff.hpp"

#include "core/io/gdal_guard.hpp"
#include "core/io/output_file.hpp"
#include "core/io/told_plane.hpp"
#include "core/units/format.hpp"

#include <cpl_error.h>
#include <cpl_string.h>
#include <gdal.h>
#include <gdal_frmts.h>

#include <array>
#include <cmath>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr float notKnown = -9999.0F;

struct CloseDataset {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<std::remove_pointer_t<GDALDatasetH>, CloseDataset>;

struct DestroyList {
    void operator()(char** list) const { CSLDestroy(list); }
};
using Options = std::unique_ptr<char*, DestroyList>;

void registerDrivers() {
    static std::once_flag once;
    std::call_once(once, [] {
        GDALRegister_MEM();
        GDALRegister_GTiff();
        GDALRegister_COG();
    });
}

Error libraryFault() {
    return machineError("The GeoTIFF could not be made.", CPLGetLastErrorMsg());
}

/// What a band of the file holds.
struct BandContent {
    const char* name;
    const Raster<float>& values;
};

/// False also when stopped.
bool addBand(
    GDALDatasetH dataset, int number, const BandContent& content, const Progress& progress) {
    const Raster<float>& values = content.values;
    GDALRasterBandH band = GDALGetRasterBand(dataset, number);
    GDALSetDescription(band, content.name);
    GDALSetRasterUnitType(band, "m");
    if (GDALSetRasterNoDataValue(band, static_cast<double>(notKnown)) != CE_None) {
        return false;
    }
    std::vector<float> row(static_cast<std::size_t>(values.frame.columns));
    for (int r = 0; r < values.frame.rows; ++r) {
        if (progress.cancelled()) {
            return false;
        }
        for (int c = 0; c < values.frame.columns; ++c) {
            const float value = values.at(r, c);
            row[static_cast<std::size_t>(c)] = std::isfinite(value) ? value : notKnown;
        }
        if (GDALRasterIO(
                band,
                GF_Write,
                0,
                r,
                values.frame.columns,
                1,
                row.data(),
                values.frame.columns,
                1,
                GDT_Float32,
                0,
                0) != CE_None) {
            return false;
        }
    }
    return true;
}

Dataset inMemory(const MapDrawing& map, const LocalFrame& frame, const Progress& progress) {
    const GridFrame& grid = map.depth->frame;
    const int bands = map.sigma ? 2 : 1;
    Dataset dataset(GDALCreate(
        GDALGetDriverByName("MEM"), "", grid.columns, grid.rows, bands, GDT_Float32, nullptr));
    if (!dataset) {
        return {};
    }
    const ToldPlane::Grid told = ToldPlane(map, frame).of(grid);
    std::array<double, 6> corner{
        told.corner.east, grid.cell, 0.0, told.corner.north, 0.0, -grid.cell};
    const bool placed = GDALSetGeoTransform(dataset.get(), corner.data()) == CE_None &&
                        GDALSetProjection(dataset.get(), told.wkt.c_str()) == CE_None;
    const std::string level = printExact(map.level.aboveDatum / metre);
    GDALSetMetadataItem(dataset.get(), "LEVEL_M", level.c_str(), nullptr);
    const bool filled =
        addBand(dataset.get(), 1, {"depth", *map.depth}, progress) &&
        (bands == 1 || addBand(dataset.get(), 2, {"standard error", *map.sigma}, progress));
    return placed && filled ? std::move(dataset) : Dataset();
}

Options cogOptions() {
    char** list = nullptr;
    list = CSLSetNameValue(list, "COMPRESS", "DEFLATE");
    list = CSLSetNameValue(list, "PREDICTOR", "YES");
    list = CSLSetNameValue(list, "RESAMPLING", "AVERAGE");
    list = CSLSetNameValue(list, "NUM_THREADS", "1");
    return Options(list);
}

int CPL_STDCALL report(double share, const char* /*message*/, void* data) {
    const Progress& progress = *static_cast<const Progress*>(data);
    progress.at(share);
    return progress.cancelled() ? FALSE : TRUE;
}

} // namespace

Result<void> writeBedGeoTiff(
    const std::filesystem::path& path,
    const MapDrawing& map,
    const LocalFrame& frame,
    const Progress& progress) {
    if (map.depth->frame.size() == 0) {
        return fail(inputError(
            map.emptyWords.empty() ? "There is no bed to write to a GeoTIFF." : map.emptyWords));
    }
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    // A file that cannot be written is refused before the work.
    auto target = OutputFile::create(path);
    if (!target) {
        return fail(std::move(target).error());
    }
    registerDrivers();
    const QuietGdal quiet;
    const Dataset source = inMemory(map, frame, progress);
    if (!source) {
        return fail(progress.cancelled() ? cancelledError() : libraryFault());
    }
    const GdalMemoryFile file(".tif");
    Progress copying = progress.part(0.1, 0.9);
    Dataset written(GDALCreateCopy(
        GDALGetDriverByName("COG"),
        file.path(),
        source.get(),
        FALSE,
        cogOptions().get(),
        report,
        &copying));
    if (!written) {
        return fail(progress.cancelled() ? cancelledError() : libraryFault());
    }
    written.reset(); // writes the rest
    if (file.bytes().empty()) {
        return fail(libraryFault());
    }
    return target->finish(file.bytes(), progress);
}

} // namespace bedlore
