// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/app/program.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>

// What `info` and `check` say, and every exit status.

namespace bedlore::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::json;

class Faults : public ::testing::Test {
protected:
    ScratchFolder folder;
    std::string book = folder / "pit.gpkg";

    void SetUp() override {
        const std::string swims = folder.write(
            "swims.csv", "swim,lat,lon,tip_height_m\nA,56.0,3.0,2.0\nB,56.001,3.0,2.0\n");
        const std::string page = folder.write(
            "page.txt",
            "swim A\ndate 2025-04-12\nlevel 0 m\ndistances yd\ndepths ft\naim A = 0 true\n\n"
            "A 90 9 gr\n80 8\n70 si\n");
        const Ran ran = bedlore({"import", book, swims, page, "--water", "Harl Pit"});
        ASSERT_EQ(ran.status, 0) << ran.err;
    }
    void addSecondWater() {
        const std::string swims =
            folder.write("more.csv", "swim,lat,lon,tip_height_m\nC,56.1,3.1,2.0\n");
        ASSERT_EQ(bedlore({"import", book, swims, "--water", "Other Pit"}).status, 0);
    }
};

TEST_F(Faults, InfoCountsWhatIsThere) {
    const Ran ran = bedlore({"info", book, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    // By hand, from the files above: two of the three readings have a depth.
    const Json expected{
        {"waters", 1},
        {"swims", 2},
        {"visits", 1},
        {"casts", 1},
        {"readings", 3},
        {"fixes", 0},
        {"soundings", 2},
        {"spots", 0},
        {"format", 1}};
    EXPECT_EQ(Json::parse(ran.out), expected);
}

TEST_F(Faults, InfoInWordsNamesTheWaterAndItsVisits) {
    const Ran ran = bedlore({"info", book});
    EXPECT_THAT(ran.out, HasSubstr("Harl Pit"));
    EXPECT_THAT(ran.out, HasSubstr("2025-04-12"));
}

TEST_F(Faults, WholeBookChecksOk) {
    const Ran ran = bedlore({"check", book, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["integrity"], "ok");
    EXPECT_TRUE(result["suspects"].is_array());
    EXPECT_TRUE(result["visits"].is_array());
    EXPECT_THAT(bedlore({"check", book}).out, HasSubstr("whole"));
}

TEST_F(Faults, DamagedBookIsNeverOk) {
    std::string bytes = textOf(book);
    for (std::size_t i = bytes.size() / 3; i < bytes.size() / 3 + 4096; ++i) {
        bytes[i] = static_cast<char>(bytes[i] ^ 0x55);
    }
    const std::string damaged = folder.write("damaged.gpkg", bytes);
    const Ran ran = bedlore({"check", damaged, "--json"});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, Not(IsEmpty()));
    EXPECT_NE(Json::parse(ran.out)["integrity"], "ok");
    const std::string cut = folder.write("cut.gpkg", bytes.substr(0, bytes.size() / 2));
    EXPECT_EQ(bedlore({"check", cut}).status, 1);
    EXPECT_EQ(bedlore({"export", cut, "--tiff", folder / "t.tif"}).status, 1);
    EXPECT_FALSE(std::filesystem::exists(folder / "t.tif"));
}

TEST_F(Faults, ValueThatChangedOnTheDiskAloneIsDamage) {
    std::string bytes = textOf(book);
    const std::size_t at = bytes.find("Harl Pit");
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'I'; // one bit of the letter H
    const std::string damaged = folder.write("damaged.gpkg", bytes);
    const Ran checked = bedlore({"check", damaged, "--json"});
    EXPECT_EQ(checked.status, 1);
    EXPECT_THAT(checked.err, HasSubstr("its waters are not what was written there"));
    EXPECT_NE(Json::parse(checked.out)["integrity"], "ok");
    EXPECT_EQ(bedlore({"info", damaged}).status, 1);
    EXPECT_EQ(bedlore({"export", damaged, "--tiff", folder / "t.tif"}).status, 1);
    EXPECT_FALSE(std::filesystem::exists(folder / "t.tif"));
}

TEST_F(Faults, EditOfAnotherProgramIsSaidAndIsNoDamage) {
    ASSERT_EQ(run("sqlite3", {book, "UPDATE waters SET rules = 'one rod'"}).status, 0);
    const Ran checked = bedlore({"check", book, "--json"});
    EXPECT_EQ(checked.status, 0) << checked.err;
    EXPECT_EQ(Json::parse(checked.out)["integrity"], "ok");
    EXPECT_THAT(checked.err, HasSubstr("Another program has changed"));
}

TEST_F(Faults, WhatIsNoBookIsTheInputsFault) {
    const std::string text = folder.write("text.gpkg", "hello\n");
    const std::string empty = folder.write("empty.gpkg", "");
    const std::string points = folder.write("p.csv", "lat,lon\n56,3\n");
    for (const std::string& file : {text, empty, folder / "missing.gpkg", folder.path().string()}) {
        for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
                 {"info", file},
                 {"check", file},
                 {"export", file, "--tiff", folder / "t.tif"},
                 {"depth", file, "--points", points}}) {
            const Ran ran = bedlore(arguments);
            EXPECT_EQ(ran.status, 1) << arguments[0] << " " << file << ": " << ran.err;
            EXPECT_THAT(ran.err, Not(IsEmpty()));
            EXPECT_THAT(ran.out, IsEmpty());
        }
    }
    EXPECT_FALSE(std::filesystem::exists(folder / "missing.gpkg"));
}

TEST_F(Faults, NewerBookIsRefused) {
    const std::string update = "UPDATE meta SET format = 2";
    const Ran changed = run("sqlite3", {book, update + "; SELECT changes();"});
    ASSERT_EQ(changed.out, "1\n") << changed.err;
    const Ran ran = bedlore({"info", book});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("newer"));
}

TEST_F(Faults, UnknownWaterAndSwimAreTheInputsFaultAndWriteNothing) {
    const std::string tiff = folder / "t.tif";
    const Ran swim = bedlore({"export", book, "--tiff", tiff, "--swim", "Z"});
    EXPECT_EQ(swim.status, 1);
    EXPECT_THAT(swim.err, HasSubstr("\"Z\""));
    EXPECT_THAT(swim.err, HasSubstr("\"A\" and \"B\""));
    EXPECT_EQ(bedlore({"export", book, "--tiff", tiff, "--water", "Z"}).status, 1);
    EXPECT_EQ(bedlore({"export", book, "--pdf", tiff, "--spot", "PINE"}).status, 1);
    EXPECT_FALSE(std::filesystem::exists(tiff));
}

TEST_F(Faults, RunThatFailsPrintsNoJson) {
    const std::string points = folder.write("p.csv", "lat,lon\n56,3\n");
    const std::string noPoints = folder.write("q.csv", "lat,lon\nfar,3\n");
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"export", book, "--tiff", folder / "t.tif", "--swim", "Z", "--json"},
             {"depth", book, "--points", points, "--water", "Z", "--json"},
             {"depth", book, "--points", noPoints, "--json"}}) {
        const Ran ran = bedlore(arguments);
        EXPECT_EQ(ran.status, 1) << ran.err;
        EXPECT_THAT(ran.out, IsEmpty());
        EXPECT_THAT(ran.err, Not(IsEmpty()));
    }
}

TEST_F(Faults, SecondWaterMustBeNamed) {
    addSecondWater();
    const std::string tiff = folder / "t.tif";
    const Ran ran = bedlore({"export", book, "--tiff", tiff});
    EXPECT_EQ(ran.status, 2); // as anything that the command line lacks
    EXPECT_THAT(ran.err, HasSubstr("--water"));
    EXPECT_FALSE(std::filesystem::exists(tiff));
    EXPECT_EQ(bedlore({"export", book, "--tiff", tiff, "--water", "harl pit"}).status, 0);
    EXPECT_EQ(bedlore({"export", book, "--tiff", tiff, "--water", "Other Pit"}).status, 1)
        << "a water without depths has no GeoTIFF";
}

TEST_F(Faults, BookWithoutDepthsStillPrintsASheetThatSaysSo) {
    addSecondWater();
    const std::string pdf = folder / "t.pdf";
    EXPECT_EQ(bedlore({"export", book, "--pdf", pdf, "--water", "Other Pit"}).status, 0);
    EXPECT_THAT(textOf(pdf), ::testing::StartsWith("%PDF-"));
}

TEST_F(Faults, WrongUsageIsTwo) {
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"export", book},
             {"import", book},
             {"fly", book},
             {"export", book, "--tiff"},
             {"depth", book},
             {"info"},
             {"info", book, "--deep"}}) {
        const Ran ran = bedlore(arguments);
        EXPECT_EQ(ran.status, 2) << arguments[0] << ": " << ran.err;
        EXPECT_THAT(ran.err, Not(IsEmpty()));
        EXPECT_THAT(ran.out, IsEmpty());
    }
}

TEST_F(Faults, MistypedWordIsNoBook) {
    const Ran ran = bedlore({"frob"});
    EXPECT_EQ(ran.status, 2);
    EXPECT_THAT(ran.err, HasSubstr("There is no command or book \"frob\"."));
}

TEST_F(Faults, MissingDisplayIsSaidAndIsTheMachinesFault) {
    // No display has that number: a server's port is 6000 and the number, and ports end at 65535.
    for (const std::string& display : {std::string("-uDISPLAY"), std::string("DISPLAY=:98765")}) {
        for (const std::vector<std::string>& words :
             {std::vector<std::string>{}, std::vector<std::string>{book}}) {
            std::vector<std::string> arguments{
                "-uWAYLAND_DISPLAY", "-uQT_QPA_PLATFORM", display, BEDLORE_PROGRAM};
            arguments.insert(arguments.end(), words.begin(), words.end());
            const Ran ran = run("env", arguments);
            EXPECT_EQ(ran.status, 3) << ran.err;
            EXPECT_EQ(linesOf(ran.err).size(), 1U) << ran.err;
            EXPECT_THAT(ran.err, HasSubstr("bedlore --help"));
        }
    }
}

TEST_F(Faults, WhatIsNotBuiltSaysSo) {
    const std::string file = folder / "f";
    for (const std::vector<std::string>& arguments : std::vector<std::vector<std::string>>{
             {"next", book, "--swim", "A"},
             {"spot", book, "--spot", "PINE"},
             {"export", book, "--card", file},
             {"export", book, "--bottom-tiff", file},
             {"export", book, "--tiff", file, "--card", folder / "g"}}) {
        const Ran ran = bedlore(arguments);
        EXPECT_EQ(ran.status, 2) << arguments[0];
        EXPECT_THAT(ran.err, HasSubstr("not built yet"));
        EXPECT_FALSE(std::filesystem::exists(file));
    }
}

TEST_F(Faults, BookInUseIsReadButNotWrittenTo) {
    const auto held = BookFile::open(book);
    ASSERT_TRUE(held.has_value()) << held.error().message;
    const std::string page = folder.write(
        "more.txt", "swim A\ndate 2025-05-12\ndistances yd\ndepths ft\naim A = 0 true\n\nA 90 9\n");
    const Ran ran = bedlore({"import", book, page});
    EXPECT_EQ(ran.status, 3) << ran.err;
    EXPECT_EQ(bedlore({"info", book}).status, 0);
    EXPECT_EQ(bedlore({"export", book, "--tiff", folder / "t.tif"}).status, 0);
}

TEST_F(Faults, PointsThatAreNoTextAreNotCalledEmpty) {
    const std::string points = folder.write("bin.csv", std::string("\x01\0\x02\0\xff", 5));
    const Ran ran = bedlore({"depth", book, "--points", points});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("bin.csv, line 1: "));
    EXPECT_THAT(ran.err, Not(HasSubstr("is empty")));
    const Ran empty = bedlore({"depth", book, "--points", folder.write("empty.csv", "")});
    EXPECT_EQ(empty.status, 1);
    EXPECT_THAT(empty.err, HasSubstr("is empty"));
}

TEST_F(Faults, OneCastIsNotSeveral) {
    EXPECT_THAT(bedlore({"info", book}).out, HasSubstr("1 cast, 3 readings, 0 fixes; 2 places"));
}

TEST_F(Faults, FolderThatIsNotThereIsSaid) {
    // The name that was given is at fault, whatever is to be written under it.
    for (const char* option : {"--tiff", "--pdf", "--geojson", "--csv"}) {
        const Ran ran = bedlore({"export", book, option, folder / "no/such/t"});
        EXPECT_EQ(ran.status, 1) << option;
        EXPECT_THAT(ran.err, HasSubstr("folder")) << option;
    }
    for (const char* option : {"--tiff", "--pdf", "--geojson"}) {
        EXPECT_EQ(bedlore({"export", book, option, folder.path().string()}).status, 1) << option;
    }
}

TEST_F(Faults, FullDiskIsTheMachinesFault) {
    const Ran ran =
        run("sh", {"-c", std::string(BEDLORE_PROGRAM) + " info '" + book + "' >/dev/full"});
    EXPECT_EQ(ran.status, 3);
    EXPECT_THAT(ran.err, HasSubstr("disk"));
}

TEST_F(Faults, HelpAndVersionGoToStandardOutput) {
    const Ran help = bedlore({"--help"});
    EXPECT_EQ(help.status, 0);
    EXPECT_THAT(help.out, HasSubstr("import"));
    EXPECT_THAT(help.err, IsEmpty());
    EXPECT_EQ(bedlore({"--version"}).status, 0);
}

} // namespace
} // namespace bedlore::testing
