// SPDX-License-Identifier: MIT
#include "app/command_line.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

using ::testing::HasSubstr;

template <class Command>
Command read(const std::vector<std::string>& arguments) {
    const auto options = readCommandLine(arguments);
    if (!options) {
        ADD_FAILURE() << options.error().message;
        return {};
    }
    if (!std::holds_alternative<Command>(options->command)) {
        ADD_FAILURE() << "read as another command";
        return {};
    }
    return std::get<Command>(options->command);
}

std::string refusal(const std::vector<std::string>& arguments) {
    const auto options = readCommandLine(arguments);
    if (options) {
        ADD_FAILURE() << "was understood";
        return {};
    }
    EXPECT_EQ(options.error().fault, Fault::Usage);
    return options.error().message;
}

TEST(CommandLine, NothingOpensTheWindow) {
    EXPECT_EQ(read<OpenWindow>({}), OpenWindow{});
}

TEST(CommandLine, BookAloneOpensTheWindowOnIt) {
    EXPECT_EQ(read<OpenWindow>({"pit.gpkg"}).book, "pit.gpkg");
    EXPECT_EQ(read<OpenWindow>({"--", "-odd.gpkg"}).book, "-odd.gpkg");
}

TEST(CommandLine, ImportTakesABookAndItsFiles) {
    const auto c = read<ImportCommand>(
        {"import", "pit.gpkg", "a.txt", "--water", "Harl Pit", "b.csv", "--skip-bad", "--again"});
    EXPECT_EQ(c.book, "pit.gpkg");
    EXPECT_EQ(c.files, (std::vector<std::filesystem::path>{"a.txt", "b.csv"}));
    EXPECT_EQ(c.water, "Harl Pit");
    EXPECT_TRUE(c.skipBad);
    EXPECT_TRUE(c.again);
}

TEST(CommandLine, ImportRefusesBadRowsAndOldFilesUnlessTold) {
    const auto c = read<ImportCommand>({"import", "pit.gpkg", "a.txt"});
    EXPECT_FALSE(c.skipBad);
    EXPECT_FALSE(c.again);
    EXPECT_FALSE(c.water);
}

TEST(CommandLine, TwoDashesEndTheOptions) {
    const auto c = read<ImportCommand>({"import", "--again", "--", "-book.gpkg", "--water", "-f"});
    EXPECT_EQ(c.book, "-book.gpkg");
    EXPECT_EQ(c.files, (std::vector<std::filesystem::path>{"--water", "-f"}));
    EXPECT_FALSE(c.water);
    const auto d = read<InfoCommand>({"info", "--", "--json"});
    EXPECT_EQ(d.book, "--json");
}

TEST(CommandLine, FileMayBearTheNameOfACommand) {
    const auto c = read<ImportCommand>({"import", "info", "check", "export"});
    EXPECT_EQ(c.book, "info");
    EXPECT_EQ(c.files, (std::vector<std::filesystem::path>{"check", "export"}));
}

TEST(CommandLine, ExportReadsEveryOption) {
    const auto c = read<ExportCommand>(
        {"export",  "b.gpkg", "--tiff",   "t",    "--bottom-tiff", "u",   "--geojson", "g",
         "--pdf",   "p",      "--card",   "c",    "--csv",         "d",   "--water",   "W",
         "--swim",  "S",      "--spot",   "PINE", "--cell",        "0.5", "--level",   "1.25",
         "--share", "all",    "--private"});
    const ExportCommand expected{
        .book = "b.gpkg",
        .tiff = "t",
        .bottomTiff = "u",
        .geojson = "g",
        .pdf = "p",
        .card = "c",
        .csv = "d",
        .water = "W",
        .swim = "S",
        .spot = "PINE",
        .cell = 0.5,
        .level = 1.25,
        .share = SharingTier::All,
        .shareWasSaid = true,
        .privateThings = PrivateThings::Include};
    EXPECT_EQ(c, expected);
}

TEST(CommandLine, ExportSharesDepthAloneUnlessTold) {
    const auto c = read<ExportCommand>({"export", "b", "--tiff", "t"});
    EXPECT_EQ(c.share, SharingTier::Depth);
    EXPECT_EQ(c.privateThings, PrivateThings::LeaveOut);
    EXPECT_EQ(
        read<ExportCommand>({"export", "b", "--tiff", "t", "--share", "bottom"}).share,
        SharingTier::Bottom);
}

TEST(CommandLine, NegativeLevelIsAValue) {
    EXPECT_EQ(read<DepthCommand>({"depth", "b", "--points", "f", "--level", "-2"}).level, -2.0);
    EXPECT_EQ(read<DepthCommand>({"depth", "b", "--level", "-.5", "--points", "f"}).level, -0.5);
    EXPECT_EQ(read<DepthCommand>({"depth", "b", "--level=-1e-1", "--points", "f"}).level, -0.1);
    EXPECT_EQ(read<ExportCommand>({"export", "b", "--tiff", "t", "--level", "-2"}).level, -2.0);
}

TEST(CommandLine, DepthKeepsItsPoints) {
    const auto c = read<DepthCommand>({"depth", "b", "--points", "f.csv", "--water", "W"});
    EXPECT_EQ(c.points, "f.csv");
    EXPECT_EQ(c.water, "W");
    EXPECT_FALSE(c.level);
}

TEST(CommandLine, NextAndSpotAreUnderstood) {
    EXPECT_EQ(
        read<NextCommand>({"next", "b", "--swim", "the Point", "--casts", "5"}),
        (NextCommand{.book = "b", .water = {}, .swim = "the Point", .casts = 5}));
    EXPECT_EQ(
        read<SpotCommand>({"spot", "b", "--spot", "PINE"}),
        (SpotCommand{.book = "b", .water = {}, .spot = "PINE"}));
}

TEST(CommandLine, JsonIsAskedForWithEveryCommand) {
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"import", "b", "f", "--json"},
             {"export", "b", "--tiff", "t", "--json"},
             {"info", "--json", "b"},
             {"check", "b", "--json"},
             {"depth", "b", "--points", "f", "--json"},
             {"next", "b", "--swim", "s", "--json"},
             {"spot", "b", "--spot", "s", "--json"}}) {
        const auto options = readCommandLine(arguments);
        ASSERT_TRUE(options.has_value()) << arguments.front() << ": " << options.error().message;
        EXPECT_TRUE(options->json) << arguments.front();
    }
    EXPECT_FALSE(readCommandLine({"info", "b"})->json);
}

TEST(CommandLine, WhatCannotBeMeantIsWrongUsage) {
    EXPECT_THAT(refusal({"import", "b"}), HasSubstr("FILES"));
    EXPECT_THAT(refusal({"import"}), HasSubstr("BOOK"));
    EXPECT_THAT(refusal({"info"}), HasSubstr("BOOK"));
    EXPECT_THAT(refusal({"export", "b"}), HasSubstr("--tiff"));
    EXPECT_THAT(refusal({"depth", "b"}), HasSubstr("--points"));
    EXPECT_THAT(refusal({"next", "b"}), HasSubstr("--swim"));
    EXPECT_THAT(refusal({"info", "b", "c"}), HasSubstr("c"));
    EXPECT_THAT(refusal({"info", "b", "--deep"}), HasSubstr("--deep"));
    EXPECT_THAT(refusal({"export", "b", "--tiff"}), HasSubstr("--tiff"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--share", "some"}), HasSubstr("some"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--cell", "0"}), HasSubstr("--cell"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--cell", "-1"}), HasSubstr("--cell"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--level", "deep"}), HasSubstr("deep"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--level", "1,5"}), HasSubstr("1,5"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", "t", "--level", "nan"}), HasSubstr("nan"));
    EXPECT_THAT(refusal({"export", "b", "--tiff", ""}), HasSubstr("--tiff"));
    EXPECT_THAT(refusal({"next", "b", "--swim", "s", "--casts", "0"}), HasSubstr("--casts"));
    EXPECT_THAT(refusal({"one.gpkg", "two.gpkg"}), HasSubstr("two.gpkg"));
}

TEST(CommandLine, HelpAndVersionAreText) {
    EXPECT_THAT(read<ShowText>({"--help"}).text, HasSubstr("import"));
    EXPECT_THAT(read<ShowText>({"export", "--help"}).text, HasSubstr("--geojson"));
    EXPECT_THAT(read<ShowText>({"--version"}).text, HasSubstr("bedlore "));
}

} // namespace
} // namespace bedlore
