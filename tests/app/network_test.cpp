// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <vector>

// Nothing leaves the machine: every command is run under a tracer of its system calls.

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

    /// Runs `program`; what it asked of the network is then in `calls`.
    Ran traced(const std::string& program, const std::vector<std::string>& arguments) {
        const std::string log = folder / "calls.txt";
        std::vector<std::string> all{"-f", "-qq", "-e", "trace=network", "-o", log, program};
        all.insert(all.end(), arguments.begin(), arguments.end());
        Ran ran = run("strace", all);
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
    std::string calls;
};

TEST_F(Network, TheTracerSeesASocketWhereThereIsOne) {
    const Ran ran = traced(
        "/usr/bin/python3",
        {"-c", "import socket; socket.socket(socket.AF_INET, socket.SOCK_DGRAM).close()"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(usesInternet());
}

TEST_F(Network, NoCommandOpensAnInternetSocket) {
    const std::string book = folder / "pit.gpkg";
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
}

} // namespace
} // namespace bedlore::testing
