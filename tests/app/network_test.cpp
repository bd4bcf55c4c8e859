// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"
#include "tests/support/python.hpp"

#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <string>
#include <vector>

// Nothing leaves the machine: every command and the window are run under a tracer of their system
// calls.

namespace bedlore::testing {
namespace {

const std::filesystem::path pit =
    std::filesystem::path(BEDLORE_SOURCE_DIR) / "samples" / "harl-pit";

class Network : public ::testing::Test {
protected:
    void SetUp() override {
        if (traced("/bin/true", {}).status != 0) {
            GTEST_SKIP() << "System calls may not be traced here.";
        }
        std::filesystem::copy_file(pit / "harl-pit.gpkg", folder / "pit.gpkg");
    }

    [[nodiscard]] std::vector<std::string>
    underTracer(const std::string& program, const std::vector<std::string>& arguments) const {
        std::vector<std::string> all{
            "-f",
            "-qq",
            "-I",
            "waiting",
            "-e",
            "trace=network",
            "-E",
            "ASAN_OPTIONS=detect_leaks=0", // under a tracer the sanitizer cannot look for leaks
            "-o",
            log,
            program};
        all.insert(all.end(), arguments.begin(), arguments.end());
        return all;
    }
    /// Runs `program`; what it asked of the network is then in `calls`.
    Ran traced(const std::string& program, const std::vector<std::string>& arguments) {
        Ran ran = run("strace", underTracer(program, arguments));
        calls = textOf(log);
        return ran;
    }
    [[nodiscard]] bool usesInternet() const {
        return calls.find("AF_INET") != std::string::npos ||
               calls.find("PF_INET") != std::string::npos;
    }
    void expectOffline(const std::vector<std::string>& arguments) {
        const Ran ran = traced(BEDLORE_PROGRAM, arguments);
        EXPECT_EQ(ran.status, 0) << arguments[0] << ": " << ran.err;
        EXPECT_FALSE(usesInternet()) << arguments[0] << ":\n" << calls;
    }

    ScratchFolder folder;
    std::string book = folder / "pit.gpkg";
    std::string log = folder / "calls.txt";
    std::string calls;
};

TEST_F(Network, TheTracerSeesASocketWhereThereIsOne) {
    const Ran ran = traced(
        python, {"-c", "import socket; socket.socket(socket.AF_INET, socket.SOCK_DGRAM).close()"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(usesInternet());
}

TEST_F(Network, NoCommandOpensAnInternetSocket) {
    const std::string points = folder.write("points.csv", "east_m,north_m\n0,50\n");
    expectOffline(
        {"import",
         folder / "new.gpkg",
         "--water",
         "Harl Pit",
         (pit / "swims.csv").string(),
         (pit / "reels.csv").string(),
         (pit / "2024-04-13-the-point.txt").string()});
    expectOffline({"info", book});
    expectOffline({"check", book});
    expectOffline({"depth", book, "--points", points});
    expectOffline(
        {"export",
         book,
         "--tiff",
         folder / "a.tif",
         "--geojson",
         folder / "a.geojson",
         "--pdf",
         folder / "a.pdf",
         "--share",
         "all"});
    expectOffline({"--help"});
    expectOffline({"--version"});
}

TEST_F(Network, NoTablesInOrOutOpenAnInternetSocket) {
    expectOffline({"export", book, "--csv", folder / "tables"});
    expectOffline({"export", book, "--csv", folder / "shared", "--share", "depth"});
    expectOffline({"import", folder / "again.gpkg", folder / "tables"});
}

// GDAL can fetch what a file names; it must not.
TEST_F(Network, NoFileOfAnotherProgramOpensAnInternetSocket) {
    const std::string corners = "3.0,56.0 3.001,56.0 3.001,56.001 3.0,56.0";
    const std::vector<std::string> files{
        folder.write(
            "lake.kml",
            "<?xml version=\"1.0\"?>\n<kml xmlns=\"http://www.opengis.net/kml/2.2\"><Document>"
            "<NetworkLink><Link><href>http://127.0.0.1/more.kml</href></Link></NetworkLink>"
            "<Placemark><Polygon><outerBoundaryIs><LinearRing><coordinates>" +
                corners +
                "</coordinates></LinearRing></outerBoundaryIs></Polygon></Placemark>"
                "</Document></kml>\n"),
        folder.write(
            "walk.gpx",
            "<?xml version=\"1.0\"?>\n"
            "<gpx version=\"1.1\" creator=\"hand\" xmlns=\"http://www.topografix.com/GPX/1/1\" "
            "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" xsi:schemaLocation="
            "\"http://www.topografix.com/GPX/1/1 http://127.0.0.1/gpx.xsd\"><trk><trkseg>"
            "<trkpt lat=\"56.0\" lon=\"3.0\"/><trkpt lat=\"56.0\" lon=\"3.001\"/>"
            "<trkpt lat=\"56.001\" lon=\"3.001\"/></trkseg></trk></gpx>\n"),
        folder.write(
            "lake.geojson",
            R"({"type":"Polygon","coordinates":[[[3.0,56.0],[3.001,56.0],[3.001,56.001],[3.0,56.0]]]})"),
        folder.write("fixes.csv", "lat,lon,depth_m\n56.0,3.0,2\n56.001,3.0,3\n")};
    for (const std::string& file : files) {
        SCOPED_TRACE(file);
        expectOffline({"import", file + ".gpkg", file, "--water", "Harl Pit"});
    }
}

TEST_F(Network, WindowOnABookOpensNoInternetSocket) {
    // Qt says what it paints: first the window, then the plan again with its map.
    Running window(
        "strace",
        underTracer(
            "env",
            {"QT_QPA_PLATFORM=offscreen",
             "QT_LOGGING_RULES=qt.widgets.painting.info=true",
             "XDG_CONFIG_HOME=" + (folder / "config"),
             "XDG_DATA_HOME=" + (folder / "data"),
             "XDG_CACHE_HOME=" + (folder / "cache"),
             BEDLORE_PROGRAM,
             book}));
    const bool shown = window.hasSaid("name=\"planView\") as needing flush", 2);
    window.signal(SIGTERM); // the tracer hands it on
    const Ran ran = window.finish();
    EXPECT_TRUE(shown) << ran.err;
    calls = textOf(log);
    EXPECT_FALSE(usesInternet()) << calls;
}

} // namespace
} // namespace bedlore::testing
