// SPDX-License-Identifier: MIT
#include "core/io/geotiff.hpp"
#include "tests/support/drawn_pit.hpp"
#include "tests/support/python.hpp"
#include "tests/support/run_tool.hpp"
#include "tests/support/temp_folder.hpp"

#include <gdal.h>
#include <gdal_frmts.h>
#include <gmock/gmock.h>
#include <ogr_srs_api.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <stop_token>
#include <type_traits>

namespace bedlore {
namespace {

using testing::bytesOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::pit;
using testing::python;
using testing::runTool;
using testing::TempFolder;

struct CloseDataset {
    void operator()(void* dataset) const { GDALClose(dataset); }
};
using Dataset = std::unique_ptr<std::remove_pointer_t<GDALDatasetH>, CloseDataset>;

Dataset openTiff(const std::filesystem::path& path) {
    GDALRegister_GTiff();
    return Dataset(GDALOpen(path.c_str(), GA_ReadOnly));
}

std::vector<float> cellsOf(const Dataset& dataset, int band) {
    const int columns = GDALGetRasterXSize(dataset.get());
    const int rows = GDALGetRasterYSize(dataset.get());
    std::vector<float> cells(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows));
    EXPECT_EQ(
        GDALRasterIO(
            GDALGetRasterBand(dataset.get(), band),
            GF_Read,
            0,
            0,
            columns,
            rows,
            cells.data(),
            columns,
            rows,
            GDT_Float32,
            0,
            0),
        CE_None);
    return cells;
}

std::size_t filesIn(const std::filesystem::path& folder) {
    return static_cast<std::size_t>(std::distance(
        std::filesystem::directory_iterator(folder), std::filesystem::directory_iterator()));
}

TEST(BedGeoTiff, IsWrittenWithoutANetwork) {
    const TempFolder folder;
    OSRSetPROJEnableNetwork(1); // as a machine's own settings may have it
    ASSERT_TRUE(writeBedGeoTiff(
        folder.path() / "bed.tif", pit().map(SharingTier::All), pit().reduction.frame));
    EXPECT_EQ(OSRGetPROJEnableNetwork(), 0);
}

TEST(BedGeoTiff, HoldsDepthAndErrorWhereKnownAndNodataElsewhere) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    const MapDrawing map = pit().map(SharingTier::All);
    ASSERT_TRUE(writeBedGeoTiff(path, map, pit().reduction.frame));

    const Dataset dataset = openTiff(path);
    ASSERT_TRUE(dataset);
    ASSERT_EQ(GDALGetRasterCount(dataset.get()), 2);
    const GDALRasterBandH depth = GDALGetRasterBand(dataset.get(), 1);
    EXPECT_STREQ(GDALGetDescription(depth), "depth");
    EXPECT_STREQ(GDALGetDescription(GDALGetRasterBand(dataset.get(), 2)), "standard error");
    EXPECT_EQ(GDALGetRasterDataType(depth), GDT_Float32);
    EXPECT_EQ(GDALGetRasterNoDataValue(depth, nullptr), -9999.0);
    EXPECT_STREQ(GDALGetMetadataItem(dataset.get(), "AREA_OR_POINT", nullptr), "Area");
    const std::vector<float> depths = cellsOf(dataset, 1);
    const std::vector<float> errors = cellsOf(dataset, 2);
    const BedGrid& grid = pit().grid;
    for (std::size_t i = 0; i < depths.size(); ++i) {
        if (grid.known.values[i] != 0) {
            ASSERT_NEAR(depths[i], -0.36F - grid.level.values[i], 1e-5F);
            ASSERT_EQ(errors[i], grid.sigma.values[i]);
        } else {
            ASSERT_EQ(depths[i], -9999.0F);
            ASSERT_EQ(errors[i], -9999.0F);
        }
    }
}

TEST(BedGeoTiff, StandsWhereTheGridStands) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    ASSERT_TRUE(writeBedGeoTiff(path, pit().map(SharingTier::All), pit().reduction.frame));
    const Dataset dataset = openTiff(path);
    double corner[6] = {};
    ASSERT_EQ(GDALGetGeoTransform(dataset.get(), corner), CE_None);
    // The pit's grid: 1 m cells, outer corner 90 m west and 130 m north of the origin.
    EXPECT_EQ(
        std::vector<double>(corner, corner + 6), (std::vector<double>{-90, 1, 0, 130, 0, -1}));
    const std::string wkt = GDALGetProjectionRef(dataset.get());
    EXPECT_THAT(wkt, HasSubstr("Transverse_Mercator"));
    EXPECT_THAT(wkt, HasSubstr("WGS 84"));
    // The origin of the pit's plane, 52.2 N 1.2 W, is the middle of the projection.
    EXPECT_THAT(wkt, HasSubstr("\"latitude_of_origin\",52.2"));
    EXPECT_THAT(wkt, HasSubstr("\"central_meridian\",-1.2"));
}

TEST(BedGeoTiff, HasOneBandAndNothingOfHisBelowTierAll) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom}) {
        const MapDrawing map = pit().map(tier);
        ASSERT_TRUE(writeBedGeoTiff(path, map, pit().reduction.frame));
        const Dataset dataset = openTiff(path);
        EXPECT_EQ(GDALGetRasterCount(dataset.get()), 1);
        const std::vector<float> depths = cellsOf(dataset, 1);
        for (std::size_t i = 0; i < depths.size(); ++i) {
            ASSERT_EQ(depths[i] != -9999.0F, std::isfinite(map.depth->values[i]));
        }
        const std::string bytes = bytesOf(path);
        for (const char* secret : testing::secretsOfThePit) {
            EXPECT_THAT(bytes, Not(HasSubstr(secret)));
        }
    }
}

TEST(BedGeoTiff, BelowTierAllHasAnOriginThatTellsNoSwimAndLiesWhereItLay) {
    const TempFolder folder;
    const auto shared = folder.path() / "shared.tif";
    // Alder Stand is at the plane's origin; a water whose origin is no round figure.
    const LocalFrame frame = LocalFrame::atOrigin({55.9988, 2.9877}).value();
    const MapDrawing map = pit().map(SharingTier::Depth);
    ASSERT_TRUE(writeBedGeoTiff(shared, map, frame));
    const Dataset dataset = openTiff(shared);
    const std::string wkt = GDALGetProjectionRef(dataset.get());
    EXPECT_THAT(wkt, HasSubstr("\"latitude_of_origin\",56]"));
    EXPECT_THAT(wkt, HasSubstr("\"central_meridian\",2.99]"));
    EXPECT_THAT(bytesOf(shared), Not(HasSubstr("55.9988")));
    EXPECT_THAT(bytesOf(shared), Not(HasSubstr("2.9877")));
    double corner[6] = {};
    ASSERT_EQ(GDALGetGeoTransform(dataset.get(), corner), CE_None);
    EXPECT_EQ(std::fmod(corner[0], corner[1]), 0.0);
    EXPECT_EQ(std::fmod(corner[3], corner[1]), 0.0);
    // Another program's way from the file's plane to latitude and longitude must end where the
    // water's own plane has the corner; 1 cm is what the planes' norths may turn it by.
    const auto there =
        runTool("echo 0 0 | gdaltransform -t_srs EPSG:4326 '" + shared.string() + "'");
    ASSERT_EQ(there.status, 0) << there.output;
    double longitude = 0.0;
    double latitude = 0.0;
    std::istringstream(there.output) >> longitude >> latitude;
    const Point corners = frame.toPlane({latitude, longitude});
    EXPECT_NEAR(corners.east, map.depth->frame.west, 0.02);
    EXPECT_NEAR(corners.north, map.depth->frame.north, 0.02);
}

TEST(BedGeoTiff, IsACloudOptimisedFileWithoutASidecar) {
    const TempFolder folder;
    // Larger than one tile of 512 cells, so that it must have overviews.
    const GridFrame frame{.west = 0.0, .north = 600.0, .cell = 0.5, .rows = 1200, .columns = 700};
    const BedGrid grid{{frame, -2.0F}, {frame, 0.2F}, {frame, 1}};
    const MapDrawing map = drawMap(
        pit().book, pit().reduction, grid, {.level = {}, .tier = SharingTier::All, .swim = {}});
    const auto path = folder.path() / "bed.tif";
    ASSERT_TRUE(writeBedGeoTiff(path, map, pit().reduction.frame));
    EXPECT_EQ(filesIn(folder.path()), 1U);
    const auto checked = runTool(
        std::string(python) + " -m osgeo_utils.samples.validate_cloud_optimized_geotiff '" +
        path.string() + "'");
    EXPECT_EQ(checked.status, 0) << checked.output;
    EXPECT_THAT(checked.output, HasSubstr("is a valid cloud optimized GeoTIFF"));
    EXPECT_EQ(filesIn(folder.path()), 1U);
}

TEST(BedGeoTiff, OfAWaterWithoutPositionHasAPlaneOfItsOwn) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    ASSERT_TRUE(writeBedGeoTiff(path, pit().map(SharingTier::All), LocalFrame::withoutOrigin()));
    EXPECT_EQ(filesIn(folder.path()), 1U);
    const auto info = runTool("gdalinfo '" + path.string() + "'");
    EXPECT_EQ(info.status, 0);
    EXPECT_THAT(info.output, HasSubstr("ENGCRS"));
    EXPECT_THAT(info.output, HasSubstr("Origin = (-90.0"));
}

TEST(BedGeoTiff, NamesNoPersonPathOrTime) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    ASSERT_TRUE(writeBedGeoTiff(path, pit().map(SharingTier::Depth), pit().reduction.frame));
    const std::string bytes = bytesOf(path);
    EXPECT_THAT(bytes, Not(HasSubstr(folder.path().string())));
    EXPECT_THAT(bytes, Not(HasSubstr("vsimem")));
    const auto tags = runTool("gdalinfo -mdd all '" + path.string() + "'");
    EXPECT_THAT(tags.output, Not(HasSubstr("TIFFTAG_")));
}

TEST(BedGeoTiff, IsRefusedWithoutACellAndLeavesTheOldFileAlone) {
    const TempFolder folder;
    const auto path = folder.path() / "bed.tif";
    std::ofstream(path) << "old";
    const MapDrawing map = drawMap(Book{}, Reduction{}, BedGrid{}, {.level = {}, .swim = {}});
    const auto refused = writeBedGeoTiff(path, map, LocalFrame::withoutOrigin());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().fault, Fault::Input);
    EXPECT_THAT(refused.error().message, HasSubstr("No depth has been noted yet"));
    EXPECT_EQ(bytesOf(path), "old");
}

TEST(BedGeoTiff, IsStoppedWithNothingWritten) {
    const TempFolder folder;
    std::stop_source stop;
    stop.request_stop();
    const auto stopped = writeBedGeoTiff(
        folder.path() / "bed.tif",
        pit().map(SharingTier::All),
        pit().reduction.frame,
        Progress(stop.get_token()));
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
    EXPECT_EQ(filesIn(folder.path()), 0U);
}

TEST(BedGeoTiff, SaysWhyItCannotBeWritten) {
    const TempFolder folder;
    const auto failed = writeBedGeoTiff(
        folder.path() / "missing" / "bed.tif", pit().map(SharingTier::All), pit().reduction.frame);
    ASSERT_FALSE(failed);
    EXPECT_EQ(failed.error().fault, Fault::Input);
    EXPECT_THAT(failed.error().message, HasSubstr("bed.tif cannot be written"));
}

} // namespace
} // namespace bedlore
