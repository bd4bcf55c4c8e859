// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <numbers>

// `export` and `depth` of small books made from pages, against what can be worked out by hand.

namespace bedlore::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::json;

/// A swim at `east_m`, `north_m` zero would do, but GeoJSON needs a place on the earth.
constexpr const char* swims = "swim,lat,lon,tip_height_m\nA,56.0,3.0,2.0\n";

class Maps : public ::testing::Test {
protected:
    ScratchFolder folder;
    std::string book = folder / "pit.gpkg";

    void take(const std::string& page, const std::string& swimTable = swims) {
        const std::string table = folder.write("swims.csv", swimTable);
        const std::string file = folder.write("page.txt", page);
        const Ran ran = bedlore({"import", book, table, file});
        ASSERT_EQ(ran.status, 0) << ran.err;
    }
    /// The features of one kind in a GeoJSON of everything.
    Json features(const std::string& kind) {
        const std::string file = folder / "all.geojson";
        const Ran ran = bedlore({"export", book, "--geojson", file, "--share", "all"});
        EXPECT_EQ(ran.status, 0) << ran.err;
        Json found = Json::array();
        const Json collection = Json::parse(textOf(file));
        for (const Json& feature : collection["features"]) {
            if (feature["properties"]["kind"] == kind) {
                found.push_back(feature);
            }
        }
        return found;
    }
    /// The rows that `depth` prints for these metres east and north, header left out.
    std::vector<std::string> depths(const std::string& rows, std::vector<std::string> more = {}) {
        const std::string file = folder.write("points.csv", "east_m,north_m\n" + rows);
        std::vector<std::string> arguments{"depth", book, "--points", file};
        arguments.insert(arguments.end(), more.begin(), more.end());
        const Ran ran = bedlore(arguments);
        EXPECT_EQ(ran.status, 0) << ran.err;
        auto lines = linesOf(ran.out);
        EXPECT_FALSE(lines.empty());
        EXPECT_EQ(lines.front(), "east_m,north_m,depth_m,se_m,known");
        lines.erase(lines.begin());
        return lines;
    }
};

struct DepthRow {
    double depth = NAN;
    double error = NAN;
    int known = -1;
};

DepthRow depthRow(const std::string& line) {
    DepthRow row;
    double east = 0.0;
    double north = 0.0;
    const int read = std::sscanf(
        line.c_str(), "%lf,%lf,%lf,%lf,%d", &east, &north, &row.depth, &row.error, &row.known);
    EXPECT_EQ(read, 5) << line;
    return row;
}

constexpr const char* wrapsPage = "swim A\ndate 2025-04-12\nlevel 0 m\nsticks 12 ft\n"
                                  "distances wraps\ndepths ft\nfloat pulls 12 in + 12 in\n"
                                  "aim A = 0 true\n\n";

std::string withSticks(const std::string& sticks) {
    std::string page = wrapsPage;
    page.replace(page.find("12 ft"), 5, sticks);
    return page;
}

// Source: by hand. 26¾ wraps of 12 ft: 321 ft × 0.3048 = 97.8408 m. Of 13 ft: 347.75 ft =
// 105.9942 m. Of 2 m: 53.5 m.
TEST_F(Maps, LineIsWrapsTimesTheSticksOfThatDay) {
    take(std::string(wrapsPage) + "A 26¾ 9\n");
    EXPECT_NEAR(features("reading")[0]["properties"]["line_m"].get<double>(), 97.8408, 1e-3);
}

TEST_F(Maps, OtherSticksGiveAnotherLine) {
    take(withSticks("13 ft") + "A 26¾ 9\n");
    EXPECT_NEAR(features("reading")[0]["properties"]["line_m"].get<double>(), 105.9942, 1e-3);
}

TEST_F(Maps, SticksInMetresGiveMetres) {
    take(withSticks("2 m") + "A 26¾ 9\n");
    EXPECT_NEAR(features("reading")[0]["properties"]["line_m"].get<double>(), 53.5, 1e-3);
}

// Source: by hand. 9 pulls of 12 in and 12 in of rig: 10 ft = 3.048 m; with 18 in of rig 10½ ft =
// 3.2004 m; 9 ft as typed stays 9 ft = 2.7432 m.
TEST_F(Maps, PullsCountTheRigAndFeetDoNot) {
    take(std::string(wrapsPage) + "A 27 9p\n25 9'\n");
    const Json found = features("reading");
    ASSERT_EQ(found.size(), 2U);
    EXPECT_NEAR(found[0]["properties"]["depth_m"].get<double>(), 3.048, 1e-4);
    EXPECT_NEAR(found[1]["properties"]["depth_m"].get<double>(), 2.7432, 1e-4);
}

TEST_F(Maps, LongerRigDeepensPullsAlone) {
    std::string page = wrapsPage;
    page.replace(page.find("+ 12 in"), 7, "+ 18 in");
    take(page + "A 27 9p\n25 9'\n");
    const Json found = features("reading");
    ASSERT_EQ(found.size(), 2U);
    EXPECT_NEAR(found[0]["properties"]["depth_m"].get<double>(), 3.2004, 1e-4);
    EXPECT_NEAR(found[1]["properties"]["depth_m"].get<double>(), 2.7432, 1e-4);
}

// Source: by hand. sqrt(50² − (2 + 12)²) = 48 m.
TEST_F(Maps, SlantOfTheLineIsTakenOff) {
    take("swim A\ndate 2025-04-12\nlevel 0 m\ndistances m\ndepths m\naim A = 0 true\n\nA 50 12\n");
    EXPECT_NEAR(features("reading")[0]["properties"]["range_m"].get<double>(), 48.0, 1e-3);
}

// Source: by hand. sqrt(120² − 36²) ft = 114.47 ft = 34.8915 m.
TEST_F(Maps, SlantInFeetComesOutTheSame) {
    take(
        "swim A\ndate 2025-04-12\nlevel 0 m\ndistances ft\ndepths ft\naim A = 0 true\n\n"
        "A 120 30\n",
        "swim,lat,lon,tip_height_m\nA,56.0,3.0,1.8288\n");
    EXPECT_NEAR(features("reading")[0]["properties"]["range_m"].get<double>(), 34.8915, 1e-3);
}

TEST_F(Maps, LineShorterThanItIsDeepIsRefusedInASentenceAndKept) {
    take("swim A\ndate 2025-04-12\nlevel 0 m\ndistances ft\ndepths ft\naim A = 0 true\n\n"
         "A 120 30\n12 30\n");
    const std::string file = folder / "a.geojson";
    const Ran ran = bedlore({"export", book, "--geojson", file, "--share", "all"});
    EXPECT_EQ(ran.status, 0);
    EXPECT_THAT(ran.err, HasSubstr("cannot reach a bed 30 ft deep"));
    const Json found = features("reading");
    ASSERT_EQ(found.size(), 2U);
    EXPECT_TRUE(found[1]["geometry"].is_null()) << found[1];
}

std::string eightOn(const std::string& aim) {
    std::string page;
    for (int i = 0; i < 8; ++i) {
        page += (i == 0 ? aim + " " : "") + std::to_string(110 - 5 * i) + " " +
                std::to_string(8 + i % 3) + "\n";
    }
    return page;
}

constexpr const char* yardsPage = "swim A\ndate 2025-04-12\nlevel 0 m\ndistances yd\ndepths ft\n"
                                  "aim A = 0 true\naim B = 5 true\n\n";

// 30 yd = 27.43 m to the side of an aim due north, 95 yd = 86.87 m out.
TEST_F(Maps, ThirtyYardsBesideTheOnlyAimNobodyKnows) {
    take(yardsPage + eightOn("A"));
    const auto rows = depths("27.43,86.87\n0,86.87\n");
    ASSERT_EQ(rows.size(), 2U);
    EXPECT_EQ(depthRow(rows[0]).known, 0);
    EXPECT_EQ(depthRow(rows[1]).known, 1);

    const std::string tiff = folder / "a.tif";
    const Ran exported = bedlore({"export", book, "--tiff", tiff, "--share", "all"});
    ASSERT_EQ(exported.status, 0);
    // A raster of depths and errors holds nothing else, whatever the tier.
    EXPECT_NE(exported.err.find("No casts, readings, swims, spots"), std::string::npos)
        << exported.err;
    const auto valueAt = [&](const char* east, const char* north) {
        return linesOf(
            run("gdallocationinfo", {"-valonly", "-geoloc", "-b", "1", tiff, east, north}).out);
    };
    const auto beside = valueAt("27.43", "86.87");
    EXPECT_TRUE(beside.empty() || beside[0].empty() || std::stod(beside[0]) == -9999.0)
        << beside[0];
    const auto on = valueAt("0", "86.87");
    ASSERT_FALSE(on.empty());
    EXPECT_NEAR(std::stod(on[0]), depthRow(rows[1]).depth, 0.3); // the cell's middle is elsewhere
}

// Source: geometry. Two aims 5° apart, 100 yd = 91.44 m out: midway is as far from one as from the
// other, on an aim there are readings.
TEST_F(Maps, MidwayBetweenTwoAimsIsLessSureThanOnEither) {
    take(yardsPage + eightOn("A") + eightOn("B"));
    const double five = 5.0 * std::numbers::pi / 180.0;
    std::string points;
    for (const double angle : {0.0, five / 2.0, five}) {
        points += std::to_string(91.44 * std::sin(angle)) + "," +
                  std::to_string(91.44 * std::cos(angle)) + "\n";
    }
    const auto rows = depths(points);
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_GT(depthRow(rows[1]).error, depthRow(rows[0]).error);
    EXPECT_GT(depthRow(rows[1]).error, depthRow(rows[2]).error);
}

// Source: the definition. Depth is level less bed level, so 2 m more water is 2 m more depth.
TEST_F(Maps, LevelShiftsEveryDepthByItself) {
    take(yardsPage + eightOn("A") + eightOn("B"));
    const std::string points = "0,80\n3,90\n40,40\n0,-500\n";
    const auto low = depths(points, {"--level", "-2"});
    const auto high = depths(points, {"--level", "0"});
    ASSERT_EQ(low.size(), 4U);
    ASSERT_EQ(high.size(), 4U);
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(
            depthRow(high[i]).depth - depthRow(low[i]).depth, 2.0, 1.01e-4); // two roundings
        EXPECT_EQ(depthRow(high[i]).error, depthRow(low[i]).error);
    }
}

TEST_F(Maps, RowIsPrintedForEveryRowWithNumbersOnEach) {
    take(yardsPage + eightOn("A"));
    const std::string file = folder.write("p.csv", "lon,name,lat\n3.0,a,56.0005\n3.0,b,57.5\n");
    const Ran ran = bedlore({"depth", book, "--points", file});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const auto lines = linesOf(ran.out);
    ASSERT_EQ(lines.size(), 3U);
    EXPECT_EQ(lines[0], "lon,lat,depth_m,se_m,known");
    EXPECT_THAT(
        lines[1],
        ::testing::MatchesRegex("3\\.0,56\\.0005,-?[0-9]+\\.[0-9]{4},[0-9]+\\."
                                "[0-9]{4},[01]"));
    EXPECT_THAT(
        lines[2],
        ::testing::MatchesRegex("3\\.0,57\\.5,-?[0-9]+\\.[0-9]{4},[0-9]+\\."
                                "[0-9]{4},0"));
}

TEST_F(Maps, WithoutAnyDepthTheNumbersAreEmpty) {
    take(std::string(wrapsPage) + "A 26¾ gr\n");
    const auto rows = depths("0,50\n");
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0], "0,50,,,0");
}

TEST_F(Maps, SharedTablesHoldTheMapAndNothingOfHis) {
    take(yardsPage + eightOn("A") + eightOn("B"));
    const std::string tables = folder / "tables";
    const Ran ran = bedlore({"export", book, "--csv", tables, "--share", "depth", "--json"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("No casts, readings, swims, spots, names or dates."));
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["files"].size(), 4U);
    EXPECT_EQ(result["cell_m"], 1.0);
    for (const Json& file : result["files"]) {
        const std::string text = textOf(file.get<std::string>());
        EXPECT_THAT(text, Not(HasSubstr("2025-"))) << file;
        EXPECT_THAT(text, Not(HasSubstr("56.0000000"))) << "the swim's latitude, in " << file;
        EXPECT_THAT(text, Not(HasSubstr("pit"))) << "the water's name, in " << file;
    }
    EXPECT_EQ(bedlore({"export", book, "--csv", tables, "--share", "depth"}).status, 1)
        << "a folder that is not empty is left alone";

    const std::string everything = folder / "everything";
    const Ran all = bedlore({"export", book, "--csv", everything, "--share", "all"});
    ASSERT_EQ(all.status, 0) << all.err;
    EXPECT_EQ(linesOf(textOf(everything + "/readings.csv")).size(), 17U) << "sixteen and a header";
}

TEST_F(Maps, SharedTablesAreNotTakenInAsNotes) {
    take(yardsPage + eightOn("A") + eightOn("B"));
    const std::string tables = folder / "tables";
    ASSERT_EQ(bedlore({"export", book, "--csv", tables, "--share", "all"}).status, 0);
    const std::string other = folder / "other.gpkg";
    std::vector<std::string> files{tables};
    for (const auto& entry : std::filesystem::directory_iterator(tables)) {
        files.push_back(entry.path().string());
    }
    ASSERT_EQ(files.size(), 10U);
    // As a spreadsheet in many countries saves it.
    std::string semicolons = textOf(tables + "/depths.csv");
    std::replace(semicolons.begin(), semicolons.end(), ',', ';');
    files.push_back(folder.write("semicolons.csv", semicolons));
    for (const std::string& file : files) {
        const Ran ran = bedlore({"import", other, file});
        EXPECT_EQ(ran.status, 1) << file;
        EXPECT_THAT(ran.err, HasSubstr("is a table of a shared map")) << file;
        EXPECT_FALSE(std::filesystem::exists(other));
    }
}

TEST_F(Maps, BadPointIsSaidWithItsLineAndNothingIsPrinted) {
    take(yardsPage + eightOn("A"));
    const std::string file =
        folder.write("p.csv", "lat,lon\n56.0,3.0\n91,3.0\nhere,3.0\n56.0\n56.0,nan\n");
    const Ran ran = bedlore({"depth", book, "--points", file});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.out, IsEmpty());
    for (const char* place : {"p.csv, line 3", "p.csv, line 4", "p.csv, line 5", "p.csv, line 6"}) {
        EXPECT_THAT(ran.err, HasSubstr(place));
    }
}

TEST_F(Maps, PointsWithoutAPlaceAreRefused) {
    take(yardsPage + eightOn("A"));
    for (const char* text : {"", "x,y\n1,2\n", "lat\n56\n"}) {
        const std::string file = folder.write("p.csv", text);
        EXPECT_EQ(bedlore({"depth", book, "--points", file}).status, 1) << text;
    }
    EXPECT_EQ(bedlore({"depth", book, "--points", folder / "none.csv"}).status, 1);
}

TEST_F(Maps, ExportWritesEveryFileAndSaysSo) {
    take(yardsPage + eightOn("A") + eightOn("B"));
    const std::string tiff = folder / "a.tif";
    const std::string geojson = folder / "a.geojson";
    const std::string pdf = folder / "a.pdf";
    const Ran ran =
        bedlore({"export", book, "--tiff", tiff, "--geojson", geojson, "--pdf", pdf, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["files"].size(), 3U);
    EXPECT_EQ(result["level_m"], 0.0);
    EXPECT_EQ(result["cell_m"], 1.0);
    EXPECT_GT(result["unknown_share"].get<double>(), 0.0);
    EXPECT_LT(result["unknown_share"].get<double>(), 1.0);
    EXPECT_THAT(textOf(pdf), ::testing::StartsWith("%PDF-"));
    EXPECT_THAT(ran.err, HasSubstr("names or dates but the day of printing, which the PDF has."));
    EXPECT_EQ(Json::parse(textOf(geojson))["type"], "FeatureCollection");
    EXPECT_EQ(run("gdalinfo", {tiff}).status, 0);
    EXPECT_THAT(ran.err, HasSubstr("No casts, readings, swims"));
}

TEST_F(Maps, LevelIsThatOfTheLatestVisitUnlessSaid) {
    take(
        "swim A\ndate 2025-04-12\nlevel 0.50 m\ndistances yd\ndepths ft\naim A = 0 true\n\n" +
        eightOn("A") + "\nswim A\ndate 2025-08-01\nlevel 0.20 m\naim A = 0 true\n\n" + "A 80 7\n");
    const std::string tiff = folder / "a.tif";
    Ran ran = bedlore({"export", book, "--tiff", tiff, "--json"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_NEAR(Json::parse(ran.out)["level_m"].get<double>(), 0.20, 1e-9);
    ran = bedlore({"export", book, "--tiff", tiff, "--json", "--level", "-2"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(Json::parse(ran.out)["level_m"], -2.0);
}

TEST_F(Maps, DepthTierHoldsDepthsAlone) {
    take(yardsPage + eightOn("A"));
    const std::string file = folder / "shared.geojson";
    ASSERT_EQ(bedlore({"export", book, "--geojson", file}).status, 0);
    const Json collection = Json::parse(textOf(file));
    ASSERT_FALSE(collection["features"].empty());
    for (const Json& feature : collection["features"]) {
        const std::string kind = feature["properties"]["kind"];
        EXPECT_TRUE(kind == "contour" || kind == "depth_band") << kind;
    }
    EXPECT_THAT(textOf(file), Not(HasSubstr("2025")));
}

TEST_F(Maps, CellIsAsAskedAndNeverTooMany) {
    take(yardsPage + eightOn("A"));
    const std::string tiff = folder / "a.tif";
    const Ran fine = bedlore({"export", book, "--tiff", tiff, "--json", "--cell", "2.5"});
    EXPECT_EQ(Json::parse(fine.out)["cell_m"], 2.5);
    const Ran absurd = bedlore({"export", book, "--tiff", tiff, "--cell", "0.0001"});
    EXPECT_EQ(absurd.status, 1);
    EXPECT_THAT(absurd.err, HasSubstr("--cell"));
}

TEST_F(Maps, WaterWithoutPositionHasNoGeoJsonButATiff) {
    take(
        "swim A\ndate 2025-04-12\nlevel 0 m\ndistances yd\ndepths ft\naim A = 0 grid\n\n" +
            eightOn("A"),
        "swim,east_m,north_m,tip_height_m\nA,0,0,2\n");
    const std::string geojson = folder / "a.geojson";
    const std::string tiff = folder / "a.tif";
    const Ran ran = bedlore({"export", book, "--geojson", geojson, "--tiff", tiff});
    EXPECT_EQ(ran.status, 1);
    EXPECT_FALSE(std::filesystem::exists(geojson));
    EXPECT_FALSE(std::filesystem::exists(tiff)) << "something was written before the refusal";
    EXPECT_EQ(bedlore({"export", book, "--tiff", tiff}).status, 0);
    const std::string points = folder.write("p.csv", "lat,lon\n56,3\n");
    EXPECT_EQ(bedlore({"depth", book, "--points", points}).status, 1);
}

TEST_F(Maps, OutputNeverFallsOnTheBookOrOnAnother) {
    take(yardsPage + eightOn("A"));
    const std::string before = textOf(book);
    EXPECT_EQ(bedlore({"export", book, "--tiff", book}).status, 2);
    EXPECT_EQ(bedlore({"export", book, "--pdf", folder / "./pit.gpkg"}).status, 2);
    EXPECT_EQ(textOf(book), before);
    const std::string one = folder / "one";
    EXPECT_EQ(bedlore({"export", book, "--pdf", one, "--tiff", one}).status, 2);
    EXPECT_FALSE(std::filesystem::exists(one));
}

} // namespace
} // namespace bedlore::testing
