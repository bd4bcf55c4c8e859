// SPDX-License-Identifier: MIT
#include "core/io/geotiff.hpp"
#include "core/io/map_tables.hpp"
#include "core/io/told_plane.hpp"
#include "core/io/vector_file.hpp"
#include "tests/support/drawn_pit.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

// The tables of a map hold what its tier allows, and say the same as its GeoJSON.

namespace bedlore {
namespace {

using nlohmann::json;
using testing::bytesOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::pit;
using testing::TempFolder;

constexpr SharingTier tiers[] = {SharingTier::Depth, SharingTier::Bottom, SharingTier::All};

using Rows = std::vector<std::vector<std::string>>;

/// Without the header. None of the pit's cells has a separator or a quotation mark in it.
Rows rowsOf(const std::string& text) {
    Rows rows;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::vector<std::string> cells(1);
        for (const char c : line) {
            if (c == ',') {
                cells.emplace_back();
            } else {
                cells.back() += c;
            }
        }
        rows.push_back(std::move(cells));
    }
    if (!rows.empty()) {
        rows.erase(rows.begin());
    }
    return rows;
}

/// The files of a map's folder by their names.
std::map<std::string, std::string>
tablesOf(const MapDrawing& map, const LocalFrame& frame = pit().reduction.frame) {
    const TempFolder folder;
    const auto written = writeMapTables(folder / "tables", map, frame);
    EXPECT_TRUE(written) << written.error().message;
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "tables")) {
        files[entry.path().filename().string()] = bytesOf(entry.path());
    }
    EXPECT_TRUE(!written || files.size() == written->size());
    return files;
}

std::string geoJsonText(const MapDrawing& map, const LocalFrame& frame) {
    const TempFolder folder;
    const auto written = writeGeoJson(folder / "map.geojson", map, frame);
    EXPECT_TRUE(written) << written.error().message;
    return bytesOf(folder / "map.geojson");
}

json featuresOf(const MapDrawing& map, const std::string& kind) {
    json found = json::array();
    const json collection = json::parse(geoJsonText(map, pit().reduction.frame));
    for (const json& feature : collection["features"]) {
        if (feature["properties"]["kind"] == kind) {
            found.push_back(feature);
        }
    }
    return found;
}

/// A number of a table as one of the GeoJSON: both are the shortest text of the same figure.
json figure(const std::string& cell) {
    return cell.empty() ? json() : json(std::stod(cell));
}

void expectPlace(const json& position, const std::string& lat, const std::string& lon) {
    EXPECT_EQ(position[0].get<double>(), std::stod(lon));
    EXPECT_EQ(position[1].get<double>(), std::stod(lat));
}

TEST(MapTables, AreFourBelowTierAllAndTellNothingOfHis) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom}) {
        const auto files = tablesOf(pit().map(tier));
        std::vector<std::string> names;
        for (const auto& [name, text] : files) {
            names.push_back(name);
            for (const char* secret : testing::secretsOfThePit) {
                // A year alone may stand among the digits of a place.
                const std::string year = std::string(secret) + "-";
                EXPECT_THAT(text, Not(HasSubstr(secret == std::string("2025") ? year : secret)))
                    << name;
            }
            for (const char* secret : {"nobody's business", "my own stump", "pole"}) {
                EXPECT_THAT(text, Not(HasSubstr(secret))) << name;
            }
        }
        EXPECT_THAT(
            names, ElementsAre("about.csv", "contours.csv", "depth_bands.csv", "depths.csv"));
    }
}

TEST(MapTables, BelowTierAllHoldNoPlaceOfASwimCastOrReading) {
    const auto files = tablesOf(pit().map(SharingTier::Depth));
    const MapDrawing everything = pit().map(SharingTier::All);
    const ToldPlane told(pit().map(SharingTier::Depth), pit().reduction.frame);
    const ToldPlane own(everything, pit().reduction.frame);
    std::vector<Point> places{{4.0, 63.0}}; // the spot
    for (const DrawnSwim& swim : everything.swims) {
        places.push_back(swim.tip);
    }
    for (const DrawnReading& reading : everything.readings) {
        if (reading.placed.place) {
            places.push_back(*reading.placed.place);
        }
    }
    ASSERT_GT(places.size(), 100U);
    for (const auto& [name, text] : files) {
        for (const Point place : places) {
            for (const ToldPlane* plane : {&told, &own}) {
                const ToldDegrees d = plane->degreesOf(place);
                EXPECT_THAT(
                    text, Not(HasSubstr(degreesText(d.latitude) + "," + degreesText(d.longitude))))
                    << name;
            }
        }
    }
}

TEST(MapTables, HoldTheDepthOfEachCellThatIsShown) {
    for (const SharingTier tier : tiers) {
        const MapDrawing map = pit().map(tier);
        const auto files = tablesOf(map);
        const Rows rows = rowsOf(files.at("depths.csv"));
        const ToldPlane plane(map, pit().reduction.frame);
        std::size_t at = 0;
        for (int r = 0; r < map.depth->frame.rows; ++r) {
            for (int c = 0; c < map.depth->frame.columns; ++c) {
                const double depth = static_cast<double>(map.depth->at(r, c));
                if (!std::isfinite(depth)) {
                    continue;
                }
                ASSERT_LT(at, rows.size());
                const ToldDegrees d = plane.degreesOf(map.depth->frame.centre(r, c));
                ASSERT_EQ(rows[at][0], degreesText(d.latitude));
                ASSERT_EQ(rows[at][1], degreesText(d.longitude));
                ASSERT_NEAR(std::stod(rows[at][2]), depth, 0.5001e-4); // four decimals
                ASSERT_EQ(rows[at].size(), tier == SharingTier::All ? 4U : 3U);
                ++at;
            }
        }
        EXPECT_EQ(at, rows.size());
    }
}

TEST(MapTables, HaveTheContoursOfTheGeoJson) {
    for (const SharingTier tier : tiers) {
        const MapDrawing map = pit().map(tier);
        const Rows rows = rowsOf(tablesOf(map).at("contours.csv"));
        const json contours = featuresOf(map, "contour");
        std::size_t at = 0;
        for (std::size_t i = 0; i < contours.size(); ++i) {
            for (const json& position : contours[i]["geometry"]["coordinates"]) {
                ASSERT_LT(at, rows.size());
                EXPECT_EQ(rows[at][0], std::to_string(i + 1));
                EXPECT_EQ(figure(rows[at][1]), contours[i]["properties"]["depth_m"]);
                expectPlace(position, rows[at][2], rows[at][3]);
                ++at;
            }
        }
        EXPECT_EQ(at, rows.size());
        EXPECT_GT(at, 100U);
    }
}

TEST(MapTables, HaveTheBandsOfTheGeoJsonWithTheirArea) {
    const MapDrawing map = pit().map(SharingTier::Depth);
    const Rows rows = rowsOf(tablesOf(map).at("depth_bands.csv"));
    const json bands = featuresOf(map, "depth_band");
    ASSERT_EQ(rows.size(), bands.size());
    double sum = 0.0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(figure(rows[i][0]), bands[i]["properties"]["from_m"]);
        EXPECT_EQ(figure(rows[i][1]), bands[i]["properties"]["to_m"]);
        sum += std::stod(rows[i][2]);
    }
    // Bands make up what is shown, without gap or overlap; each is rounded to a square metre.
    double shown = 0.0;
    for (const Polygon& polygon : map.contours.shown) {
        shown += area(polygon);
    }
    EXPECT_NEAR(sum, shown, 0.5 * static_cast<double>(rows.size()));
}

TEST(MapTables, AtTierAllHaveTheSwimsCastsAndSpotsOfTheGeoJson) {
    const MapDrawing map = pit().map(SharingTier::All);
    const auto files = tablesOf(map);
    const json swims = featuresOf(map, "swim");
    const Rows swimRows = rowsOf(files.at("swims.csv"));
    ASSERT_EQ(swimRows.size(), swims.size());
    for (std::size_t i = 0; i < swims.size(); ++i) {
        EXPECT_EQ(swimRows[i][0], swims[i]["properties"]["swim"]);
        expectPlace(swims[i]["geometry"]["coordinates"], swimRows[i][1], swimRows[i][2]);
    }
    const json casts = featuresOf(map, "cast");
    const Rows castRows = rowsOf(files.at("casts.csv"));
    ASSERT_EQ(castRows.size(), casts.size());
    for (std::size_t i = 0; i < casts.size(); ++i) {
        const json& properties = casts[i]["properties"];
        EXPECT_EQ(castRows[i][0], properties["swim"]);
        EXPECT_EQ(castRows[i][1], properties["date"]);
        EXPECT_EQ(castRows[i][2], properties["cast"]);
        EXPECT_EQ(figure(castRows[i][3]), properties["bearing_true_deg"]);
        expectPlace(casts[i]["geometry"]["coordinates"][0], castRows[i][4], castRows[i][5]);
        expectPlace(casts[i]["geometry"]["coordinates"][1], castRows[i][6], castRows[i][7]);
    }
    const json spots = featuresOf(map, "spot");
    const Rows spotRows = rowsOf(files.at("spots.csv"));
    ASSERT_EQ(spotRows.size(), 1U);
    EXPECT_EQ(spotRows[0][0], "Gravel Tooth");
    expectPlace(spots[0]["geometry"]["coordinates"], spotRows[0][1], spotRows[0][2]);
}

TEST(MapTables, SayWhichBearingsAreGuessed) {
    MapDrawing map = pit().map(SharingTier::All);
    ASSERT_GE(map.casts.size(), 2U);
    for (DrawnCast& cast : map.casts) {
        cast.directionGuessed = false;
    }
    map.anglesGuessed = false;
    const auto measured = tablesOf(map);
    EXPECT_THAT(measured.at("casts.csv"), HasSubstr(",map_bearing_guessed\n"));
    for (const auto& row : rowsOf(measured.at("casts.csv"))) {
        EXPECT_EQ(row.back(), "no");
    }
    EXPECT_THAT(measured.at("about.csv"), Not(HasSubstr("guessed")));
    map.casts[1].directionGuessed = true;
    map.anglesGuessed = true;
    const auto guessed = tablesOf(map);
    const Rows rows = rowsOf(guessed.at("casts.csv"));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(rows[i].back(), i == 1 ? "yes" : "no") << i;
    }
    EXPECT_THAT(guessed.at("about.csv"), HasSubstr("\nbearings,"));
    EXPECT_THAT(guessed.at("about.csv"), HasSubstr("guessed"));
    map = pit().map(SharingTier::Depth);
    map.anglesGuessed = true;
    EXPECT_THAT(tablesOf(map).at("about.csv"), Not(HasSubstr("guessed"))) << "it tells of no casts";
}

TEST(MapTables, AtTierAllHaveTheReadingsOfTheGeoJson) {
    const MapDrawing map = pit().map(SharingTier::All);
    const Rows rows = rowsOf(tablesOf(map).at("readings.csv"));
    const json readings = featuresOf(map, "reading");
    ASSERT_EQ(rows.size(), readings.size());
    const std::vector<std::pair<std::size_t, std::string>> figures{
        {3, "line_m"},
        {5, "range_m"},
        {6, "depth_m"},
        {7, "bed_level_m"},
        {8, "depth_sigma_m"},
        {9, "along_sigma_m"},
        {10, "across_sigma_m"}};
    int stretches = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const json& properties = readings[i]["properties"];
        EXPECT_EQ(rows[i][2], properties["cast"]);
        for (const auto& [column, key] : figures) {
            EXPECT_EQ(figure(rows[i][column]), properties[key]) << key << " of reading " << i;
        }
        EXPECT_EQ(rows[i][4].empty(), !properties.contains("line_to_m"));
        EXPECT_EQ(rows[i][11], properties["bottom"].is_null() ? "" : properties["bottom"]);
        const json& geometry = readings[i]["geometry"];
        if (geometry.is_null()) {
            EXPECT_EQ(rows[i][12] + rows[i][13], "");
        } else if (geometry["type"] == "LineString") {
            expectPlace(geometry["coordinates"][0], rows[i][12], rows[i][13]);
            expectPlace(geometry["coordinates"][1], rows[i][14], rows[i][15]);
            ++stretches;
        } else {
            expectPlace(geometry["coordinates"], rows[i][12], rows[i][13]);
            EXPECT_EQ(rows[i][14] + rows[i][15], "");
        }
    }
    EXPECT_GT(stretches, 5);
}

TEST(MapTables, MarksHaveTheirBearingFromTheChosenSwim) {
    const Rows rows = rowsOf(tablesOf(pit().map(SharingTier::All)).at("marks.csv"));
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_EQ(rows[0][0], "dead pine");
    EXPECT_EQ(rows[0][1], "day");
    // Alder Stand is at the plane's origin, where its north is true north.
    EXPECT_NEAR(std::stod(rows[0][2]), 352.0, 1e-4);
    EXPECT_NEAR(std::stod(rows[1][2]), 24.0, 1e-4);
}

TEST(MapTables, PrivateThingsLeaveOnlyWhenAskedFor) {
    const auto usual = tablesOf(pit().map(SharingTier::All));
    EXPECT_THAT(usual.at("spots.csv"), Not(HasSubstr("nobody's business")));
    EXPECT_THAT(usual.at("marks.csv"), Not(HasSubstr("my own stump")));
    MapOptions options = pit().options(SharingTier::All);
    options.privateThings = PrivateThings::Include;
    const auto asked = tablesOf(drawMap(pit().book, pit().reduction, pit().grid, options));
    EXPECT_THAT(asked.at("spots.csv"), HasSubstr("nobody's business"));
    EXPECT_THAT(asked.at("marks.csv"), HasSubstr("my own stump"));
}

TEST(MapTables, TextNeverBecomesAFormula) {
    // Common practice: these begin a formula, or may after a spreadsheet has taken blanks off.
    for (const char* risky : {"=1+1", "+44", "-x", "@SUM(A1)", "\t=1", "\r=1", "\n=1"}) {
        EXPECT_EQ(harmlessText(risky), std::string("'") + risky);
    }
    for (const char* harmless : {"", "the Point", "a=b", "'=1", " =1"}) {
        EXPECT_EQ(harmlessText(harmless), harmless);
    }
    MapDrawing map = pit().map(SharingTier::All);
    map.swims[0].name = "=HYPERLINK(1)";
    map.spots[0].name = "+1";
    map.marks[0].name = "@x";
    map.casts[0].name = "-A";
    map.title = "=2";
    const auto files = tablesOf(map);
    EXPECT_THAT(files.at("swims.csv"), HasSubstr("\n'=HYPERLINK(1),"));
    EXPECT_THAT(files.at("casts.csv"), HasSubstr("\n'=HYPERLINK(1),2025-04-12,'-A,"));
    EXPECT_THAT(files.at("readings.csv"), HasSubstr("\n'=HYPERLINK(1),2025-04-12,'-A,"));
    EXPECT_THAT(files.at("spots.csv"), HasSubstr("\n'+1,"));
    EXPECT_THAT(files.at("marks.csv"), HasSubstr("\n'@x,"));
    EXPECT_THAT(files.at("about.csv"), HasSubstr("\ntitle,'=2\n"));
    // A number below zero is a number.
    EXPECT_THAT(files.at("about.csv"), HasSubstr("\nlevel_m,-0.36\n"));
}

/// A bed that lies on the earth as `pitLevel` lies in the plane about 52.20 N 1.20 W, drawn in the
/// plane of a water that begins at `origin`.
MapDrawing sharedFrom(const LocalFrame& frame) {
    const Point nearly = frame.neutralAbout({0.0, 0.0}).shift;
    const GridFrame wanted{
        .west = -89.7 - nearly.east,
        .north = 129.6 - nearly.north,
        .cell = 1.0,
        .rows = 149,
        .columns = 199};
    const GridFrame grid = frameToShare(wanted, frame);
    const Point shift = frame.neutralAbout(grid.centre(grid.rows / 2, grid.columns / 2)).shift;
    BedGrid bed{{grid, 0.0F}, {grid, 0.1F}, {grid, 0}};
    for (int r = 0; r < grid.rows; ++r) {
        for (int c = 0; c < grid.columns; ++c) {
            const Point p = grid.centre(r, c);
            const Point there{p.east + shift.east, p.north + shift.north};
            bed.level.at(r, c) = static_cast<float>(testing::pitLevel(there));
            bed.known.at(r, c) = std::hypot(there.east, there.north - 60.0) < 45.0 ? 1 : 0;
        }
    }
    return drawMap(Book{}, Reduction{}, bed, {.level = {}, .tier = SharingTier::Depth, .swim = {}});
}

// The origin of a plane is where he stands, to a few metres. If the same bed in the planes of two
// swims gives the same files, then nothing in them can tell which it was.
TEST(MapTables, OfTheSameBedAreTheSameWhereverHisPlaneBegins) {
    const LocalFrame here = LocalFrame::atOrigin({52.2003, -1.2006}).value();
    const LocalFrame there = LocalFrame::atOrigin({52.1998, -1.1994}).value();
    const MapDrawing one = sharedFrom(here);
    const MapDrawing other = sharedFrom(there);
    const auto files = tablesOf(one, here);
    EXPECT_GT(rowsOf(files.at("depths.csv")).size(), 1000U);
    EXPECT_EQ(files, tablesOf(other, there));
    EXPECT_EQ(geoJsonText(one, here), geoJsonText(other, there));
    const TempFolder folder;
    ASSERT_TRUE(writeBedGeoTiff(folder / "one.tif", one, here));
    ASSERT_TRUE(writeBedGeoTiff(folder / "other.tif", other, there));
    EXPECT_EQ(bytesOf(folder / "one.tif"), bytesOf(folder / "other.tif"));
}

TEST(MapTables, OfAWaterWithoutPositionAreInMetresFromTheMapsCorner) {
    const LocalFrame nowhere = LocalFrame::withoutOrigin();
    const MapDrawing map = pit().map(SharingTier::Depth);
    const std::string text = tablesOf(map, nowhere).at("depths.csv");
    EXPECT_THAT(text, ::testing::StartsWith("east_m,north_m,map_depth_m\n"));
    double west = 1e9;
    double south = 1e9;
    for (const auto& row : rowsOf(text)) {
        west = std::min(west, std::stod(row[0]));
        south = std::min(south, std::stod(row[1]));
    }
    // The outline's corner is the zero; the first cells' middles are less than a cell from it.
    EXPECT_NEAR(west, 0.0, 1.0);
    EXPECT_NEAR(south, 0.0, 1.0);
    const Rows own = rowsOf(tablesOf(pit().map(SharingTier::All), nowhere).at("swims.csv"));
    EXPECT_THAT(own[0], ElementsAre("Alder Stand", "0", "0"));
    EXPECT_THAT(own[1], ElementsAre("Long Board", "70", "12"));
}

TEST(MapTables, AreWrittenTogetherOrNotAtAll) {
    const TempFolder folder;
    std::filesystem::create_directory(folder / "full");
    std::ofstream(folder / "full" / "mine.txt") << "mine";
    const auto full =
        writeMapTables(folder / "full", pit().map(SharingTier::Depth), pit().reduction.frame);
    ASSERT_FALSE(full);
    EXPECT_EQ(full.error().fault, Fault::Input);
    EXPECT_THAT(full.error().message, HasSubstr("is not empty"));

    std::stop_source stop;
    stop.request_stop();
    const auto stopped = writeMapTables(
        folder / "stopped",
        pit().map(SharingTier::All),
        pit().reduction.frame,
        Progress(stop.get_token()));
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);

    const MapDrawing none = drawMap(Book{}, Reduction{}, BedGrid{}, {.level = {}, .swim = {}});
    const auto empty = writeMapTables(folder / "empty", none, LocalFrame::withoutOrigin());
    ASSERT_FALSE(empty);
    EXPECT_THAT(empty.error().message, HasSubstr("No depth has been noted yet"));

    std::size_t there = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        ++there;
    }
    EXPECT_EQ(there, 1U) << "the folder that was there, and nothing beside it";
}

} // namespace
} // namespace bedlore
