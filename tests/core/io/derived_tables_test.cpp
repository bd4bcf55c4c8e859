// SPDX-License-Identifier: MIT
#include "core/io/derived_tables.hpp"
#include "core/io/geopackage_geometry.hpp"
#include "core/reduction/reduction.hpp"
#include "tests/core/io/store_support.hpp"

#include <cmath>
#include <numbers>
#include <optional>
#include <regex>
#include <string>
#include <vector>

namespace bedlore {
namespace {

using testing::bookOf;
using testing::everyRecord;
using ::testing::HasSubstr;
using testing::inQuotes;
using testing::makeFullBook;
using ::testing::Not;
using testing::Output;
using testing::run;
using testing::sayings;
using testing::sqlite;
using testing::TempFolder;
using testing::validated;

constexpr GeographicPoint peg{.latitude = 52.2, .longitude = -1.2};

BearingEntry trueBearing(double degrees) {
    return {{degrees, Unit::Degree, std::to_string(degrees)}, North::True};
}

/// One swim, one visit, one cast due east with two readings; ids from `first` on. By hand: line
/// 50 m, tip 2 m above the water, depth 12 m make 48 m on the plan (50² = 48² + 14²).
Edits smallWater(std::int64_t first, const Place& place) {
    using namespace std::chrono;
    const Date day{year{2025}, month{4}, std::chrono::day{12}};
    const auto metres = [](double v, const char* text) { return Entered{v, Unit::Metre, text}; };
    Edits edits;
    const std::string name = "Pit " + std::to_string(first);
    edits.emplace_back(Put<Water>{{.id = {first}, .name = name}});
    edits.emplace_back(Put<Swim>{
        {.id = {first + 1},
         .water = {first},
         .name = "Point",
         .place = place,
         .tipHeight = metres(2.0, "2")}});
    edits.emplace_back(
        Put<Visit>{{.id = {first + 2}, .swim = {first + 1}, .date = day, .level = metres(0, "0")}});
    edits.emplace_back(Put<Cast>{
        {.id = {first + 3}, .visit = {first + 2}, .name = "7", .bearing = trueBearing(90.0)}});
    edits.emplace_back(Put<Reading>{
        {.id = {first + 4},
         .cast = {first + 3},
         .from = metres(50.0, "50"),
         .depth = DepthEntry{.value = metres(12.0, "12")},
         .substrate = Substrate::Gravel,
         .cover = Cover::Weed}});
    edits.emplace_back(Put<Reading>{
        {.id = {first + 5},
         .cast = {first + 3},
         .order = 1,
         .from = metres(13.0, "13"),
         .depth = DepthEntry{.value = metres(3.0, "3")}}});
    return edits;
}

/// A book with these edits and its layers.
void makeDerivedBook(const std::filesystem::path& path, const Edits& edits) {
    Result<BookFile> file = BookFile::create(path);
    ASSERT_TRUE(file) << sayings(file);
    const Result<void> written = file->write(edits, largestId(edits) + 1);
    ASSERT_TRUE(written) << sayings(written);
    const Book book = bookOf(edits);
    std::vector<Reduction> reductions;
    for (const Water& water : book.all<Water>()) {
        Result<Reduction> reduction = reduce(book, {.water = water.id, .alone = {}});
        ASSERT_TRUE(reduction) << sayings(reduction);
        reductions.push_back(std::move(*reduction));
    }
    EXPECT_TRUE(file->derivedIsStale());
    const Result<void> derived = file->writeDerived(reductions);
    ASSERT_TRUE(derived) << sayings(derived);
    EXPECT_FALSE(file->derivedIsStale());
}

Output layer(const std::filesystem::path& book, const std::string& name) {
    return run("ogrinfo -al -ro " + inQuotes(book) + " " + name);
}

/// All numbers of the geometry that begins with `kind`, in the order of the features.
std::vector<double> coordinates(const std::string& text, const std::string& kind) {
    std::vector<double> numbers;
    const std::regex geometry("\n  " + kind + " \\(([^)]*)\\)");
    const std::regex number("-?[0-9.]+(e[-+]?[0-9]+)?");
    for (std::sregex_iterator at(text.begin(), text.end(), geometry), end; at != end; ++at) {
        const std::string inside = (*at)[1];
        for (std::sregex_iterator n(inside.begin(), inside.end(), number); n != end; ++n) {
            numbers.push_back(std::stod(n->str()));
        }
    }
    return numbers;
}

/// Longitude of a place `metres` east of the peg along its parallel. Source: radius of curvature in
/// the prime vertical on WGS 84, N = a / sqrt(1 − e² sin² φ), e² = f (2 − f).
double longitudeEastOfPeg(double metres) {
    const double phi = peg.latitude * std::numbers::pi / 180.0;
    const double f = 1.0 / 298.257223563;
    const double n = 6378137.0 / std::sqrt(1.0 - f * (2.0 - f) * std::pow(std::sin(phi), 2));
    return peg.longitude + metres / (n * std::cos(phi)) * 180.0 / std::numbers::pi;
}

// A millimetre on the ground; over 48 m the parallel leaves the straight cast by less than that.
constexpr double millimetreInDegrees = 1.5e-8;

TEST(DerivedTables, ShowSwimsCastsAndSoundingsWhereTheyAre) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", smallWater(1, peg));
    const Output swims = layer(folder / "a.gpkg", "swims");
    EXPECT_THAT(swims.text, HasSubstr("swim (String) = Point"));
    EXPECT_THAT(swims.text, HasSubstr("WGS 84"));
    const auto tip = coordinates(swims.text, "POINT");
    ASSERT_EQ(tip.size(), 2U) << swims.text;
    EXPECT_NEAR(tip[0], peg.longitude, millimetreInDegrees);
    EXPECT_NEAR(tip[1], peg.latitude, millimetreInDegrees);

    const Output soundings = layer(folder / "a.gpkg", "soundings");
    const auto places = coordinates(soundings.text, "POINT");
    ASSERT_EQ(places.size(), 4U) << soundings.text;
    EXPECT_NEAR(places[0], longitudeEastOfPeg(48.0), 2.0 * millimetreInDegrees);
    EXPECT_NEAR(places[1], peg.latitude, 2.0 * millimetreInDegrees);
    // By hand: 13² = 12² + 5², tip 2 m and depth 3 m.
    EXPECT_NEAR(places[2], longitudeEastOfPeg(12.0), millimetreInDegrees);
    for (const char* field :
         {"reading (Integer64) = 5",
          "water (String) = Pit 1",
          "swim (String) = Point",
          "date (Date) = 2025/04/12",
          "line_m (Real) = 50",
          "range_m (Real) = 48",
          "depth_m (Real) = 12",
          "bed_level_m (Real) = -12",
          "bottom (String) = gravel",
          "cover (String) = weed"}) {
        EXPECT_THAT(soundings.text, HasSubstr(field));
    }

    const Output casts = layer(folder / "a.gpkg", "casts");
    const auto line = coordinates(casts.text, "LINESTRING");
    ASSERT_EQ(line.size(), 4U) << casts.text;
    EXPECT_NEAR(line[0], peg.longitude, millimetreInDegrees);
    EXPECT_NEAR(line[2], longitudeEastOfPeg(48.0), 2.0 * millimetreInDegrees);
    const std::regex bearing("bearing_true_deg \\(Real\\) = ([0-9.]+)");
    std::smatch found;
    ASSERT_TRUE(std::regex_search(casts.text, found, bearing)) << casts.text;
    EXPECT_NEAR(std::stod(found[1]), 90.0, 1e-9);
}

TEST(DerivedTables, WaterWithoutPositionLiesInMetres) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", smallWater(1, Point{.east = 10.0, .north = 20.0}));
    const Output soundings = layer(folder / "a.gpkg", "soundings");
    const auto places = coordinates(soundings.text, "POINT");
    ASSERT_EQ(places.size(), 4U) << soundings.text;
    EXPECT_NEAR(places[0], 58.0, 1e-9);
    EXPECT_NEAR(places[1], 20.0, 1e-9);
    EXPECT_THAT(soundings.text, HasSubstr("Undefined Cartesian"));
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");
}

TEST(DerivedTables, WatersOfBothKindsLieInLayersOfTheirOwn) {
    const TempFolder folder;
    Edits edits = smallWater(1, peg);
    for (const Edit& edit : smallWater(11, Point{})) {
        edits.push_back(edit);
    }
    makeDerivedBook(folder / "a.gpkg", edits);
    EXPECT_THAT(layer(folder / "a.gpkg", "soundings").text, HasSubstr("Feature Count: 2\n"));
    const Output plane = layer(folder / "a.gpkg", "soundings_plane");
    EXPECT_THAT(plane.text, HasSubstr("Feature Count: 2\n"));
    EXPECT_THAT(plane.text, HasSubstr("Pit 11"));
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");

    // Without the second water its layers go.
    const Book before = bookOf(edits);
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    const Result<Reduction> first = reduce(before, {.water = {1}, .alone = {}});
    ASSERT_TRUE(first) << sayings(first);
    const Result<void> derived = file->writeDerived({*first});
    ASSERT_TRUE(derived) << sayings(derived);
    EXPECT_THAT(run("ogrinfo -ro " + inQuotes(folder / "a.gpkg")).text, Not(HasSubstr("_plane")));
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");
    EXPECT_EQ(file->integrity(), "ok");
}

TEST(DerivedTables, MayBeWrittenForABookWithoutAnything) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", {});
    EXPECT_THAT(layer(folder / "a.gpkg", "soundings").text, HasSubstr("Feature Count: 0"));
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");
}

TEST(DerivedTables, FixesAreSoundingsToo) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", everyRecord());
    const Output fixes =
        run("ogrinfo -al -ro -where 'fix_set = 14' " + inQuotes(folder / "a.gpkg") + " soundings");
    // The sample's second fix is set aside; the first lies where its columns say.
    EXPECT_THAT(fixes.text, HasSubstr("Feature Count: 1\n"));
    EXPECT_THAT(fixes.text, HasSubstr("depth_m (Real) = 3.5"));
    EXPECT_THAT(fixes.text, HasSubstr("bottom (String) = gravel"));
    EXPECT_THAT(fixes.text, HasSubstr("date (Date) = 2025/04/12"));
    const auto place = coordinates(fixes.text, "POINT");
    ASSERT_EQ(place.size(), 2U);
    EXPECT_NEAR(place[0], -1.2, millimetreInDegrees);
    EXPECT_NEAR(place[1], 52.2, millimetreInDegrees);
}

TEST(DerivedTables, ExtentIsThatOfTheSoundings) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", smallWater(1, Point{}));
    EXPECT_EQ(
        sqlite(
            folder / "a.gpkg",
            "SELECT round(min_x, 6), round(min_y, 6), round(max_x, 6), round(max_y, 6) FROM "
            "gpkg_contents WHERE table_name = 'soundings'")
            .text,
        "12.0|0.0|48.0|0.0\n");
}

TEST(DerivedTables, AnEditMakesThemStale) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", smallWater(1, peg));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_FALSE(file->derivedIsStale());
    ASSERT_TRUE(file->write({Put<Word>{{.id = {20}}}}, 21));
    EXPECT_TRUE(file->derivedIsStale());
}

TEST(DerivedTables, SpatialIndexOfAGisIsKeptUpToDate) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", smallWater(1, Point{}));
    for (const char* table : {"soundings", "casts"}) {
        const Output added =
            run("ogrinfo " + inQuotes(folder / "a.gpkg") + " -sql \"SELECT CreateSpatialIndex('" +
                table + "', 'geom')\"");
        ASSERT_THAT(added.text, Not(HasSubstr("ERROR")));
    }
    Edits edits = smallWater(1, Point{});
    edits.pop_back();
    {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write({Remove<Reading>{{6}}}, 7));
        const Result<Reduction> reduction = reduce(bookOf(edits), {.water = {1}, .alone = {}});
        ASSERT_TRUE(reduction) << sayings(reduction);
        const Result<void> derived = file->writeDerived({*reduction});
        ASSERT_TRUE(derived) << sayings(derived);
        EXPECT_EQ(file->integrity(), "ok");
    }
    EXPECT_EQ(
        sqlite(
            folder / "a.gpkg",
            "SELECT id, round(minx, 3), round(maxx, 3), round(miny, 3) FROM rtree_soundings_geom; "
            "SELECT id, round(minx, 3), round(maxx, 3) FROM rtree_casts_geom")
            .text,
        "5|48.0|48.0|0.0\n4|0.0|48.0\n");
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");
}

TEST(GeoPackageGeometry, BoundsAreThoseOfWhatWasEncoded) {
    EXPECT_EQ(boundsOf(encodePoint(4326, {1.5, -2.5})), (LayerBox{1.5, -2.5, 1.5, -2.5}));
    const std::vector<LayerPoint> line{{1.0, 5.0}, {-1.0, 2.0}, {0.0, 9.0}};
    EXPECT_EQ(boundsOf(encodeLine(-1, line)), (LayerBox{-1.0, 2.0, 1.0, 9.0}));
    EXPECT_EQ(boundsOf(encodeLine(-1, {})), std::nullopt);
}

TEST(GeoPackageGeometry, NoPrefixOfAGeometryIsReadBeyondItsEnd) {
    const std::vector<LayerPoint> line{{1.0, 5.0}, {-1.0, 2.0}};
    for (const std::vector<std::byte>& whole :
         {encodePoint(4326, {1.0, 2.0}), encodeLine(1, line)}) {
        for (std::size_t size = 0; size < whole.size(); ++size) {
            // A copy of just that size, so that a check of memory sees a step beyond it.
            const std::vector<std::byte> part(
                whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(size));
            const auto bounds = boundsOf(part);
            EXPECT_TRUE(!bounds || bounds == boundsOf(whole)) << size;
        }
    }
}

TEST(GeoPackageGeometry, LayoutIsThatOfTheStandard) {
    // Source: OGC 12-128r14, section 2.1.3.1.1, written out by hand: magic "GP", version 0, flags
    // 0x01 (little-endian, no envelope), srs_id 4326 = 0x10E6, then WKB of a point.
    const std::vector<std::byte> bytes = encodePoint(4326, {1.0, 2.0});
    std::string hex;
    for (const std::byte b : bytes) {
        constexpr const char* digits = "0123456789abcdef";
        hex += digits[std::to_integer<unsigned>(b) >> 4U];
        hex += digits[std::to_integer<unsigned>(b) & 15U];
    }
    EXPECT_EQ(
        hex,
        "47500001"
        "e6100000"
        "0101000000"
        "000000000000f03f"
        "0000000000000040");
}

TEST(GeoPackage, EmptyAndFullBooksPassTheValidator) {
    const TempFolder folder;
    ASSERT_TRUE(BookFile::create(folder / "empty.gpkg"));
    ASSERT_TRUE(makeFullBook(folder / "full.gpkg"));
    for (const char* name : {"empty.gpkg", "full.gpkg"}) {
        const Output output = validated(folder / name);
        EXPECT_EQ(output.text, "") << name;
        EXPECT_EQ(output.status, 0) << name;
    }
}

TEST(GeoPackage, ValidatorFindsABrokenOne) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ASSERT_EQ(
        sqlite(folder / "a.gpkg", "DELETE FROM gpkg_spatial_ref_sys WHERE srs_id = 0").status, 0);
    EXPECT_NE(validated(folder / "a.gpkg").text, "");
}

TEST(GeoPackage, CopyAndDerivedBookPassTheValidator) {
    const TempFolder folder;
    makeDerivedBook(folder / "a.gpkg", everyRecord());
    {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->copyTo(folder / "b.gpkg"));
    }
    EXPECT_EQ(validated(folder / "a.gpkg").text, "");
    EXPECT_EQ(validated(folder / "b.gpkg").text, "");
}

TEST(GeoPackage, HeaderSaysWhatItIs) {
    // Source: tests/reference/case12_standards_facts.csv; OGC 12-128r14, requirement 2: bytes 68 to
    // 71 "GPKG", and for version 1.2 the user version 10200 = 0x27D8 in bytes 60 to 63 (SQLite file
    // format, section 1.3).
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string bytes = testing::bytesOf(folder / "a.gpkg");
    EXPECT_EQ(bytes.substr(68, 4), "GPKG");
    EXPECT_EQ(bytes.substr(60, 4), std::string("\0\0\x27\xD8", 4));
}

} // namespace
} // namespace bedlore
