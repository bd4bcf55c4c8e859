// SPDX-License-Identifier: MIT
#include "tests/architecture/source_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TEST(Layers, FileIncludesItsOwnLayerOrLowerOnesAndLibrariesThroughTheirDoor) {
    std::size_t looked = 0;
    for (const std::string& path : treeFiles(BEDLORE_SOURCE_DIR)) {
        if (!isSource(path) || path.starts_with("tests/")) {
            continue;
        }
        ++looked;
        const auto text = readText(std::filesystem::path(BEDLORE_SOURCE_DIR) / path);
        for (const std::string& fault : includeFaults(path, text)) {
            ADD_FAILURE() << fault;
        }
    }
    EXPECT_GT(looked, 40U) << "the sources were not found";
}

// The rules themselves, on made-up files: each of them can fail.

TEST(LayerRules, LowerLayerMayNotIncludeAHigherOne) {
    EXPECT_THAT(
        includeFaults("core/units/length.hpp", "#pragma once\n#include \"core/book/cast.hpp\"\n"),
        ElementsAre("core/units/length.hpp:2: a lower layer includes a higher one: "
                    "#include \"core/book/cast.hpp\""));
    EXPECT_FALSE(includeFault("core/io/csv.cpp", "gui/paint/theme.hpp").empty());
    EXPECT_FALSE(includeFault("gui/paint/theme.cpp", "gui/window/main_window.hpp").empty());
    EXPECT_FALSE(includeFault("gui/window/main_window.cpp", "app/headless.hpp").empty());
    EXPECT_FALSE(includeFault("core/io/csv.cpp", "tests/support/matchers.hpp").empty());
}

TEST(LayerRules, OwnLayerAndLowerOnesAreFree) {
    EXPECT_EQ(includeFault("core/io/csv.cpp", "core/io/csv.hpp"), "");
    EXPECT_EQ(includeFault("core/io/csv.cpp", "core/base/result.hpp"), "");
    EXPECT_EQ(includeFault("gui/paint/theme.cpp", "core/io/book_file.hpp"), "");
    EXPECT_EQ(includeFault("app/main.cpp", "gui/window/main_window.hpp"), "");
}

TEST(LayerRules, CoreHasNoQt) {
    EXPECT_EQ(includeFault("core/book/cast.cpp", "QString"), "core has no Qt");
    EXPECT_EQ(includeFault("core/book/cast.cpp", "QtGlobal"), "core has no Qt");
    EXPECT_EQ(includeFault("gui/paint/theme.cpp", "QString"), "");
}

TEST(LayerRules, LibrariesStayInsideSourceFilesOfCore) {
    for (const char* library :
         {"boost/geometry.hpp",
          "gdal_priv.h",
          "gdal.h",
          "ogrsf_frmts.h",
          "ogr_spatialref.h",
          "cpl_conv.h",
          "sqlite3.h",
          "proj.h",
          "nlohmann/json.hpp",
          "LBFGS.h"}) {
        EXPECT_FALSE(includeFault("core/io/geotiff.hpp", library).empty()) << library;
        EXPECT_FALSE(includeFault("app/headless.hpp", library).empty()) << library;
        EXPECT_FALSE(includeFault("gui/paint/theme.cpp", library).empty()) << library;
        EXPECT_EQ(includeFault("core/io/geotiff.cpp", library), "") << library;
    }
}

TEST(LayerRules, EigenShowsInHeadersOfGeometryBedAndCheckAlone) {
    EXPECT_FALSE(includeFault("core/reduction/spool.hpp", "Eigen/Core").empty());
    EXPECT_EQ(includeFault("core/bed/surface.hpp", "Eigen/Core"), "");
    EXPECT_EQ(includeFault("core/check/cause.hpp", "Eigen/Core"), "");
    EXPECT_EQ(includeFault("core/geometry/raster.hpp", "Eigen/Core"), "");
    EXPECT_EQ(includeFault("core/reduction/spool.cpp", "Eigen/Core"), "");
}

TEST(LayerRules, FolderThatIsNoLayerIsSaid) {
    EXPECT_THAT(
        includeFaults("core/utils/things.hpp", ""),
        ElementsAre("core/utils/things.hpp:1: this folder is no layer"));
    EXPECT_THAT(
        includeFaults("gui/loose.cpp", ""),
        ElementsAre("gui/loose.cpp:1: this folder is no layer"));
    EXPECT_THAT(includeFaults("app/main.cpp", ""), IsEmpty());
}

TEST(LayerRules, IncludeLineIsFoundHoweverItIsSpaced) {
    EXPECT_EQ(includedName("#include <vector>"), "vector");
    EXPECT_EQ(includedName("  #  include \"core/a.hpp\" // why"), "core/a.hpp");
    EXPECT_EQ(includedName("// #include <QString>"), "");
    EXPECT_EQ(includedName("int include = 3;"), "");
    EXPECT_EQ(includedName(""), "");
}

} // namespace
} // namespace bedlore::testing
