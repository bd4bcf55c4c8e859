// SPDX-License-Identifier: MIT
#include "core/io/vector_file.hpp"
#include "tests/support/drawn_pit.hpp"
#include "tests/support/run_tool.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>
#include <ogr_api.h>
#include <ogr_geometry.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <random>
#include <set>
#include <stop_token>

namespace bedlore {
namespace {

using nlohmann::json;
using testing::bytesOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::pit;
using testing::runTool;
using testing::TempFolder;
using ::testing::UnorderedElementsAre;

std::string written(const MapDrawing& map, const LocalFrame& frame = pit().reduction.frame) {
    const TempFolder folder;
    const auto path = folder.path() / "map.geojson";
    const auto result = writeGeoJson(path, map, frame);
    EXPECT_TRUE(result) << result.error().message;
    return bytesOf(path);
}

std::map<std::string, int> kindsIn(const json& collection) {
    std::map<std::string, int> kinds;
    for (const json& feature : collection["features"]) {
        ++kinds[feature["properties"]["kind"]];
    }
    return kinds;
}

std::set<std::string> keysOf(const json& object) {
    std::set<std::string> keys;
    for (const auto& item : object.items()) {
        keys.insert(item.key());
    }
    return keys;
}

const json& firstOf(const json& collection, const std::string& kind) {
    for (const json& feature : collection["features"]) {
        if (feature["properties"]["kind"] == kind) {
            return feature;
        }
    }
    throw std::runtime_error("no " + kind);
}

// GEOS through GDAL: an independent judge of validity.
bool isValid(const json& geometry) {
    const std::unique_ptr<OGRGeometry> parsed(
        OGRGeometry::FromHandle(OGR_G_CreateGeometryFromJson(geometry.dump().c_str())));
    return parsed && parsed->IsValid();
}

double twiceSignedArea(const json& ring) {
    double sum = 0.0;
    for (std::size_t i = 1; i < ring.size(); ++i) {
        const double ax = ring[i - 1][0].get<double>() - ring[0][0].get<double>();
        const double ay = ring[i - 1][1].get<double>() - ring[0][1].get<double>();
        const double bx = ring[i][0].get<double>() - ring[0][0].get<double>();
        const double by = ring[i][1].get<double>() - ring[0][1].get<double>();
        sum += ax * by - bx * ay;
    }
    return sum;
}

// RFC 7946, 3.1.6: closed, four positions or more, outer anticlockwise, holes clockwise.
void expectRingsByTheRule(const json& polygon) {
    for (std::size_t i = 0; i < polygon.size(); ++i) {
        const json& ring = polygon[i];
        ASSERT_GE(ring.size(), 4U);
        EXPECT_EQ(ring.front(), ring.back());
        if (i == 0) {
            EXPECT_GT(twiceSignedArea(ring), 0.0);
        } else {
            EXPECT_LT(twiceSignedArea(ring), 0.0);
        }
    }
}

void expectBandsAreSound(const json& collection) {
    for (const json& feature : collection["features"]) {
        if (feature["properties"]["kind"] != "depth_band") {
            continue;
        }
        const json& geometry = feature["geometry"];
        EXPECT_TRUE(isValid(geometry)) << feature["properties"];
        if (geometry["type"] == "Polygon") {
            expectRingsByTheRule(geometry["coordinates"]);
        } else {
            for (const json& polygon : geometry["coordinates"]) {
                expectRingsByTheRule(polygon);
            }
        }
    }
}

TEST(GeoJson, HoldsEveryKindAtTierAllWithItsKeys) {
    const json all = json::parse(written(pit().map(SharingTier::All)));
    EXPECT_EQ(all["type"], "FeatureCollection");
    EXPECT_DOUBLE_EQ(all["level_m"].get<double>(), -0.36);
    const auto kinds = kindsIn(all);
    EXPECT_EQ(kinds.at("swim"), 2);
    EXPECT_EQ(kinds.at("cast"), 13);
    EXPECT_EQ(kinds.at("reading"), 130);
    EXPECT_EQ(kinds.at("spot"), 1);
    EXPECT_GT(kinds.at("contour"), 5);
    EXPECT_GT(kinds.at("depth_band"), 5);
    const auto keys = [&](const char* kind) { return keysOf(firstOf(all, kind)["properties"]); };
    EXPECT_THAT(keys("contour"), UnorderedElementsAre("kind", "depth_m"));
    EXPECT_THAT(keys("depth_band"), UnorderedElementsAre("kind", "from_m", "to_m"));
    EXPECT_THAT(keys("swim"), UnorderedElementsAre("kind", "swim"));
    EXPECT_THAT(
        keys("cast"), UnorderedElementsAre("kind", "swim", "date", "cast", "bearing_true_deg"));
    EXPECT_THAT(
        keys("reading"),
        UnorderedElementsAre(
            "kind",
            "swim",
            "date",
            "cast",
            "line_m",
            "range_m",
            "depth_m",
            "bed_level_m",
            "depth_sigma_m",
            "along_sigma_m",
            "across_sigma_m",
            "bottom"));
    EXPECT_EQ(firstOf(all, "cast")["properties"]["date"], "2025-04-12");
}

TEST(GeoJson, HoldsOnlyContoursAndBandsBelowTierAll) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom}) {
        const std::string text = written(pit().map(tier));
        const auto kinds = kindsIn(json::parse(text));
        std::set<std::string> found;
        for (const auto& [kind, count] : kinds) {
            found.insert(kind);
        }
        EXPECT_THAT(found, UnorderedElementsAre("contour", "depth_band"));
        for (const char* secret : testing::secretsOfThePit) {
            EXPECT_THAT(text, Not(HasSubstr(secret)));
        }
    }
}

TEST(GeoJson, HasSoundBandsByTheRightHandRule) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::All}) {
        expectBandsAreSound(json::parse(written(pit().map(tier))));
    }
}

TEST(GeoJson, HasSoundBandsOfARoughBedWithLinesCloserThanItsDecimals) {
    std::mt19937 random(7);
    std::uniform_real_distribution<float> share(0.0F, 1.0F);
    const GridFrame frame{.west = 0.0, .north = 20.0, .cell = 0.5, .rows = 40, .columns = 40};
    BedGrid grid{{frame, 0.0F}, {frame, 0.1F}, {frame, 1}};
    for (std::size_t i = 0; i < frame.size(); ++i) {
        grid.level.values[i] = -9.0F * share(random);
        grid.known.values[i] = share(random) < 0.2F ? 0 : 1;
    }
    const MapDrawing map =
        drawMap(Book{}, Reduction{}, grid, {.level = {}, .tier = SharingTier::All, .swim = {}});
    expectBandsAreSound(json::parse(written(map)));
}

TEST(GeoJson, PutsASwimWhereItIs) {
    const json all = json::parse(written(pit().map(SharingTier::All)));
    // Alder Stand is the plane's origin, 52.2 N 1.2 W; Long Board 70 m east and 12 m north of it.
    std::map<std::string, std::pair<double, double>> swims;
    for (const json& feature : all["features"]) {
        if (feature["properties"]["kind"] == "swim") {
            const json& at = feature["geometry"]["coordinates"];
            swims[feature["properties"]["swim"]] = {at[0].get<double>(), at[1].get<double>()};
        }
    }
    EXPECT_NEAR(swims.at("Alder Stand").first, -1.2, 1e-7);
    EXPECT_NEAR(swims.at("Alder Stand").second, 52.2, 1e-7);
    // By hand on the ellipsoid WGS 84 (a 6378137, f 1/298.257223563) at 52.2°: a degree of
    // longitude is pi/180 N cos(lat) = 68371.5 m, so 70 m are 0.0010238°; a degree of latitude is
    // pi/180 M = 111271.2 m, so 12 m are 0.0001078°.
    EXPECT_NEAR(swims.at("Long Board").first, -1.2 + 0.0010238, 3e-7);
    EXPECT_NEAR(swims.at("Long Board").second, 52.2 + 0.0001078, 3e-7);
}

TEST(GeoJson, WritesSevenDecimals) {
    const std::string text = written(pit().map(SharingTier::Depth));
    const auto at = text.find("\"coordinates\":[[");
    ASSERT_NE(at, std::string::npos);
    const std::string position = text.substr(at + 16, text.find(']', at) - at - 16);
    const auto comma = position.find(',');
    EXPECT_EQ(comma - position.find('.') - 1, 7U) << position;
    EXPECT_EQ(position.size() - position.rfind('.') - 1, 7U) << position;
}

TEST(GeoJson, GivesStretchesALineAndReadingsWithoutAPlaceNoGeometry) {
    MapDrawing map = pit().map(SharingTier::All);
    map.readings.resize(1);
    map.readings[0].placed.place.reset();
    map.readings[0].placed.placeTo.reset();
    map.readings[0].placed.range.reset();
    DrawnReading stretch = map.readings[0];
    stretch.placed.place = Point{1.0, 20.0};
    stretch.placed.placeTo = Point{1.0, 14.0};
    stretch.placed.line = LineOut{21.0 * metre};
    stretch.placed.lineTo = LineOut{15.0 * metre};
    stretch.placed.depth.reset();
    stretch.placed.level.reset();
    stretch.placed.depthSigma.reset();
    stretch.substrate = Substrate::Silt;
    map.readings.push_back(stretch);
    const json all = json::parse(written(map));
    std::vector<json> readings;
    for (const json& feature : all["features"]) {
        if (feature["properties"]["kind"] == "reading") {
            readings.push_back(feature);
        }
    }
    ASSERT_EQ(readings.size(), 2U);
    EXPECT_TRUE(readings[0]["geometry"].is_null());
    EXPECT_TRUE(readings[0]["properties"]["range_m"].is_null());
    EXPECT_EQ(readings[1]["geometry"]["type"], "LineString");
    EXPECT_DOUBLE_EQ(readings[1]["properties"]["line_to_m"].get<double>(), 15.0);
    EXPECT_TRUE(readings[1]["properties"]["depth_m"].is_null());
    EXPECT_TRUE(readings[1]["properties"]["bed_level_m"].is_null());
    EXPECT_TRUE(readings[1]["properties"]["depth_sigma_m"].is_null());
    EXPECT_EQ(readings[1]["properties"]["bottom"], "silt");
}

TEST(GeoJson, KeepsAwkwardNamesAsTheyAre) {
    MapDrawing map = pit().map(SharingTier::All);
    map.swims[0].name = "the \"Point\"\\ \n\xC2\xBD";
    map.swims[1].name = "bad \xFF byte";
    const json all = json::parse(written(map));
    EXPECT_EQ(firstOf(all, "swim")["properties"]["swim"], "the \"Point\"\\ \n\xC2\xBD");
}

TEST(GeoJson, IsReadByOthersWithEveryFeature) {
    const TempFolder folder;
    const auto path = folder.path() / "map.geojson";
    ASSERT_TRUE(writeGeoJson(path, pit().map(SharingTier::All), pit().reduction.frame));
    const auto count = json::parse(bytesOf(path))["features"].size();
    const auto info = runTool("ogrinfo -ro -so -al '" + path.string() + "'");
    EXPECT_EQ(info.status, 0);
    EXPECT_THAT(info.output, HasSubstr("Feature Count: " + std::to_string(count)));
    EXPECT_THAT(info.output, HasSubstr("WGS 84"));
}

TEST(GeoJson, OfAWaterWithoutPositionIsRefusedInASentence) {
    const TempFolder folder;
    const auto path = folder.path() / "map.geojson";
    const auto refused =
        writeGeoJson(path, pit().map(SharingTier::Depth), LocalFrame::withoutOrigin());
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().fault, Fault::Input);
    EXPECT_THAT(refused.error().message, HasSubstr("no position on the earth"));
    EXPECT_FALSE(std::filesystem::exists(path));
}

TEST(GeoJson, IsStoppedInTheMiddleWithNothingWritten) {
    const TempFolder folder;
    std::stop_source stop;
    const Progress progress(stop.get_token(), [&](double) { stop.request_stop(); });
    const auto stopped = writeGeoJson(
        folder.path() / "map.geojson",
        pit().map(SharingTier::All),
        pit().reduction.frame,
        progress);
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(GeoJson, OfNothingIsAnEmptyCollection) {
    const MapDrawing map = drawMap(Book{}, Reduction{}, BedGrid{}, {.level = {}, .swim = {}});
    const json empty = json::parse(written(map));
    EXPECT_EQ(empty["features"].size(), 0U);
}

} // namespace
} // namespace bedlore
