// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"

#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

// Ctrl-C while the program writes what leaves. It is sent once a sign of the work can be seen: a
// file or folder in the making, or the first of what is printed.

namespace bedlore::testing {
namespace {

/// A book whose files take a while to write, although its bed is found at once: three depths, and
/// tens of thousands of places where only the bottom was felt.
class Interrupted : public ::testing::Test {
protected:
    static void SetUpTestSuite() {
        folder = std::make_unique<ScratchFolder>();
        std::string readings = "swim,date,cast,bearing,north,distance,distance_unit,depth,"
                               "depth_unit,bottom,note\n"
                               "A,2025-04-12,1,0,true,60,m,3,m,gravel,\n"
                               "A,2025-04-12,2,30,true,70,m,4,m,silt,\n"
                               "A,2025-04-12,3,330,true,50,m,3.5,m,silt,\n";
        for (int i = 0; i < 40'000; ++i) {
            readings += "A,2025-04-12,4,15,true," + std::to_string(80.0 - 0.001 * i) +
                        ",m,,,gravel,\"felt\"\n";
        }
        const Ran ran = bedlore(
            {"import",
             *folder / "pit.gpkg",
             folder->write("swims.csv", "swim,lat,lon,tip_height_m\nA,56.0,3.0,2.0\n"),
             folder->write("readings.csv", readings)});
        ASSERT_EQ(ran.status, 0) << ran.err;
    }
    static void TearDownTestSuite() { folder.reset(); }

    /// What is left in the folder that was written to.
    [[nodiscard]] std::vector<std::string> left() const {
        std::vector<std::string> names;
        for (const auto& entry : std::filesystem::directory_iterator(out.path())) {
            names.push_back(entry.path().filename().string());
        }
        return names;
    }

    /// The output is cut off once it is in the making, and nothing of it stays.
    void expectCutOff(const std::vector<std::string>& output) {
        SCOPED_TRACE(output.front());
        std::vector<std::string> arguments{"export", book, "--share", "all"};
        arguments.insert(arguments.end(), output.begin(), output.end());
        Running running(BEDLORE_PROGRAM, arguments);
        ASSERT_TRUE(running.hasMade(out.path(), ".bedlore-")) << running.finish().err;
        running.signal(SIGINT);
        const Ran ran = running.finish();
        EXPECT_EQ(ran.signal, 0) << "it was ended by the signal instead of ending by itself";
        EXPECT_EQ(ran.status, 130) << ran.err;
        EXPECT_EQ(left(), std::vector<std::string>());
    }

    static std::unique_ptr<ScratchFolder> folder;
    ScratchFolder out;
    std::string book = *folder / "pit.gpkg";
};

std::unique_ptr<ScratchFolder> Interrupted::folder;

TEST_F(Interrupted, AnExportLeavesNoHalfGeoTiff) {
    expectCutOff({"--tiff", out / "map.tif", "--cell", "0.05"});
}

TEST_F(Interrupted, AnExportLeavesNoHalfGeoJson) {
    expectCutOff({"--geojson", out / "map.geojson"});
}

TEST_F(Interrupted, AnExportLeavesNoHalfPdf) {
    expectCutOff({"--pdf", out / "map.pdf"});
}

TEST_F(Interrupted, AnExportLeavesNoHalfFolderOfMapTables) {
    expectCutOff({"--csv", out / "tables", "--cell", "0.2"});
}

TEST_F(Interrupted, AnExportLeavesNoHalfFolderOfTheWholeBook) {
    Running running(BEDLORE_PROGRAM, {"export", book, "--csv", out / "tables"});
    ASSERT_TRUE(running.hasMade(out.path(), ".bedlore-")) << running.finish().err;
    running.signal(SIGINT);
    EXPECT_EQ(running.finish().status, 130);
    EXPECT_EQ(left(), std::vector<std::string>());
}

constexpr int asked = 300'000;

std::string manyPoints() {
    std::string points = "east_m,north_m\n";
    for (int i = 0; i < asked; ++i) {
        points += std::to_string(i % 100) + "," + std::to_string(i % 90) + "\n";
    }
    return points;
}

TEST_F(Interrupted, DepthStopsWhileItReads) {
    const std::string file = out.write("points.csv", manyPoints());
    Running running(BEDLORE_PROGRAM, {"depth", book, "--points", file});
    ASSERT_TRUE(running.hasOpened(file)) << running.finish().err;
    running.signal(SIGINT);
    const Ran ran = running.finish();
    EXPECT_EQ(ran.status, 130) << ran.err;
    EXPECT_EQ(ran.out, "");
}

TEST_F(Interrupted, DepthStopsWhileItPrints) {
    const std::string file = out.write("points.csv", manyPoints());
    Running running(BEDLORE_PROGRAM, {"depth", book, "--points", file});
    ASSERT_TRUE(running.hasPrinted()) << running.finish().err;
    running.signal(SIGINT);
    const Ran ran = running.finish();
    EXPECT_EQ(ran.status, 130) << ran.err;
    EXPECT_LT(linesOf(ran.out).size(), static_cast<std::size_t>(asked));
}

} // namespace
} // namespace bedlore::testing
