// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/app/program.hpp"
#include "tests/support/sample_notebook.hpp"
#include "tests/support/sample_water.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <optional>
#include <sstream>
#include <vector>

// The sample that ships: its pages, its book and its map against the formula that it was made from.

namespace bedlore::testing {
namespace {

using Json = nlohmann::json;

const std::filesystem::path pit =
    std::filesystem::path(BEDLORE_SOURCE_DIR) / "samples" / "harl-pit";

std::string fileText(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

TEST(Sample, NotebookIsWhatItsProgramWrites) {
    const auto notebook = sampleNotebook();
    ASSERT_FALSE(notebook.empty());
    for (const auto& [name, text] : notebook) {
        EXPECT_EQ(fileText(pit / name), text) << name;
    }
}

TEST(Sample, BookIsWhatItsPagesGive) {
    const ScratchFolder folder;
    const std::string fresh = folder / "fresh.gpkg";
    std::vector<std::string> arguments{"import", fresh, "--water", "Harl Pit"};
    for (const auto& [name, text] : sampleNotebook()) {
        arguments.push_back((pit / name).string());
    }
    const Ran ran = bedlore(arguments);
    ASSERT_EQ(ran.status, 0) << ran.err;
    const std::string copy = folder / "copy.gpkg";
    std::filesystem::copy_file(pit / "harl-pit.gpkg", copy);
    const Json ofPages = Json::parse(bedlore({"info", fresh, "--json"}).out);
    const Json shipped = Json::parse(bedlore({"info", copy, "--json"}).out);
    EXPECT_EQ(ofPages, shipped);
    const auto recordsOf = [](const std::string& path) {
        const auto file = BookFile::open(path, BookAccess::ReadOnly);
        EXPECT_TRUE(file) << file.error().message;
        return file ? file->book() : Book{};
    };
    EXPECT_TRUE(recordsOf(fresh) == recordsOf(copy));
    // What the sample promises: an invented pit, two swims, three visits, about 300 readings.
    EXPECT_EQ(shipped["swims"], 2);
    EXPECT_EQ(shipped["visits"], 3);
    EXPECT_GE(shipped["readings"].get<int>(), 270);
    EXPECT_LE(shipped["readings"].get<int>(), 350);
}

struct Compared {
    int points = 0;
    int known = 0;
    int inside = 0;
    double squares = 0.0;
    double sum = 0.0;
    double sumSquares = 0.0;
};

Compared compareWithFormula(const std::string& book, const ScratchFolder& folder) {
    std::vector<Point> places;
    std::string rows = "east_m,north_m\n";
    for (int east = -60; east <= 70; east += 5) {
        for (int north = -50; north <= 60; north += 5) {
            places.push_back({static_cast<double>(east), static_cast<double>(north)});
            rows += std::to_string(east) + "," + std::to_string(north) + "\n";
        }
    }
    const std::string points = folder.write("points.csv", rows);
    const Ran ran = bedlore({"depth", book, "--points", points, "--level", "0"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    std::istringstream in(ran.out);
    std::string line;
    std::getline(in, line);
    Compared result;
    for (const Point place : places) {
        std::getline(in, line);
        double east = 0.0;
        double north = 0.0;
        double depth = 0.0;
        double error = 0.0;
        int known = 0;
        char comma = 0;
        std::istringstream cells(line);
        cells >> east >> comma >> north >> comma >> depth >> comma >> error >> comma >> known;
        EXPECT_FALSE(cells.fail()) << line;
        ++result.points;
        if (known == 0) {
            continue;
        }
        const double truth = harlPitDepth(place, 0.0);
        ++result.known;
        result.inside += std::abs(depth - truth) <= 1.96 * error ? 1 : 0;
        result.squares += (depth - truth) * (depth - truth);
        result.sum += truth;
        result.sumSquares += truth * truth;
    }
    return result;
}

TEST(Sample, MapAgreesWithTheFormulaWhereItClaimsToKnow) {
    const ScratchFolder folder;
    const std::string copy = folder / "copy.gpkg";
    std::filesystem::copy_file(pit / "harl-pit.gpkg", copy);
    const Compared found = compareWithFormula(copy, folder);
    ASSERT_GT(found.known, 100);
    EXPECT_LT(found.known, found.points) << "the corners were never fished";
    const double n = found.known;
    const double rmse = std::sqrt(found.squares / n);
    const double mean = found.sum / n;
    const double spread = std::sqrt(found.sumSquares / n - mean * mean);
    // A map that knew the mean depth alone would be out by the spread; one that is worth having by
    // less than half of it.
    EXPECT_LT(rmse, 0.5 * spread);
    // 95 of 100 by the meaning of the interval; ten points either way for one draw whose points
    // hang together.
    EXPECT_GE(found.inside / n, 0.85);
    RecordProperty("rmse_mm", static_cast<int>(1000.0 * rmse));
    RecordProperty("inside_per_mille", static_cast<int>(1000.0 * found.inside / n));
}

/// Line and depth of each reading [mm], none where it is not known.
std::vector<std::vector<std::optional<long>>> readingsOf(const std::filesystem::path& path) {
    const Json collection = Json::parse(fileText(path));
    std::vector<std::vector<std::optional<long>>> found;
    for (const Json& feature : collection["features"]) {
        const Json& properties = feature["properties"];
        if (properties["kind"] != "reading") {
            continue;
        }
        auto& row = found.emplace_back();
        for (const char* key : {"line_m", "depth_m"}) {
            const Json& value = properties[key];
            row.push_back(
                value.is_null() ? std::nullopt
                                : std::optional(std::lround(1000.0 * value.get<double>())));
        }
    }
    return found;
}

TEST(Sample, MapsAreWrittenFromTheShippedBook) {
    const ScratchFolder folder;
    const std::string copy = folder / "copy.gpkg";
    std::filesystem::copy_file(pit / "harl-pit.gpkg", copy);
    const std::vector<std::string> files{folder / "a.pdf", folder / "a.tif", folder / "a.geojson"};
    const Ran ran = bedlore(
        {"export",
         copy,
         "--share",
         "all",
         "--pdf",
         files[0],
         "--tiff",
         files[1],
         "--geojson",
         files[2]});
    ASSERT_EQ(ran.status, 0) << ran.err;
    for (const std::string& file : files) {
        EXPECT_GT(std::filesystem::file_size(file), 10'000U) << file;
    }
    // What leaves the notes does not depend on how the program was compiled; contours may by a
    // hair.
    EXPECT_EQ(readingsOf(files[2]), readingsOf(pit / "harl-pit.geojson"))
        << "run samples/make after a change of the notes";
}

} // namespace
} // namespace bedlore::testing
