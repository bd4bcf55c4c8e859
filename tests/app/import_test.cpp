// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>
#include <nlohmann/json.hpp>

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using Json = nlohmann::json;

constexpr const char* swims = "swim,lat,lon,tip_height_m\nA,56.0,3.0,1.8\nB,56.001,3.001,1.8\n";
constexpr const char* header =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n";

std::string readings(const std::string& rows) {
    return header + rows;
}

std::vector<std::string> keysOf(const Json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) {
        keys.push_back(key);
    }
    return keys;
}

/// A folder with one swim's file and one file of two readings.
class Import : public ::testing::Test {
protected:
    ScratchFolder folder;
    std::string book = folder / "pit.gpkg";
    std::string swimsFile = folder.write("swims.csv", swims);
    std::string readingsFile = folder.write(
        "readings.csv",
        readings("A,2025-04-12,1,10,true,60,m,2.5,m,gravel,\n"
                 "A,2025-04-12,1,10,true,50,m,3.0,m,silt,\n"));
};

TEST_F(Import, MakesABookThatIsNotThere) {
    const Ran ran = bedlore({"import", book, swimsFile, readingsFile, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(std::filesystem::exists(book));
    const Json result = Json::parse(ran.out);
    EXPECT_THAT(
        keysOf(result),
        ::testing::IsSupersetOf({"swims", "casts", "readings", "fixes", "assumed", "bad"}));
    // By hand: two swims, one cast name, two rows.
    EXPECT_EQ(result["swims"], 2);
    EXPECT_EQ(result["casts"], 1);
    EXPECT_EQ(result["readings"], 2);
    EXPECT_EQ(result["fixes"], 0);
    EXPECT_THAT(result["bad"], IsEmpty());
}

TEST_F(Import, TakesFilesInTheOrderThatTheirContentsNeed) {
    const Ran ran = bedlore({"import", book, readingsFile, swimsFile});
    EXPECT_EQ(ran.status, 0) << ran.err;
}

TEST_F(Import, SaysInWordsWhatWasTakenIn) {
    const Ran ran = bedlore({"import", book, swimsFile, readingsFile});
    EXPECT_THAT(ran.out, HasSubstr("2 swims, 1 cast, 2 readings, 0 fixes"));
}

TEST_F(Import, NamesTheWater) {
    EXPECT_EQ(bedlore({"import", book, swimsFile, readingsFile, "--water", "Harl Pit"}).status, 0);
    EXPECT_THAT(bedlore({"info", book}).out, HasSubstr("Harl Pit"));
}

TEST_F(Import, RefusesAllForOneBadRowAndNamesItsPlace) {
    ASSERT_EQ(bedlore({"import", book, swimsFile, readingsFile}).status, 0);
    const std::string before = textOf(book);
    const std::string bad = folder.write(
        "bad.csv",
        readings("A,2025-04-13,1,10,true,60,m,2.5,m,gravel,\n"
                 "A,2025-04-13,1,10,true,sixty,m,2.5,m,gravel,\n"
                 "A,2025-04-13,1,10,true,50,m,-3,m,gravel,\n"));
    const Ran ran = bedlore({"import", book, bad, "--json"});
    EXPECT_EQ(ran.status, 1);
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["readings"], 0);
    EXPECT_EQ(result["casts"], 0);
    ASSERT_EQ(result["bad"].size(), 2U);
    EXPECT_EQ(result["bad"][0]["file"], "bad.csv");
    EXPECT_EQ(result["bad"][0]["line"], 3);
    EXPECT_EQ(result["bad"][0]["field"], "distance");
    EXPECT_EQ(result["bad"][0]["found"], "sixty");
    EXPECT_NE(result["bad"][0]["expected"], "");
    EXPECT_EQ(result["bad"][1]["line"], 4);
    EXPECT_EQ(result["bad"][1]["field"], "depth");
    EXPECT_THAT(ran.err, HasSubstr("bad.csv, line 3"));
    EXPECT_THAT(ran.err, HasSubstr("bad.csv, line 4"));
    EXPECT_EQ(textOf(book), before) << "a refused import changed the book";
}

TEST_F(Import, SkipsBadRowsWhenAsked) {
    const std::string bad = folder.write(
        "bad.csv",
        readings("A,2025-04-13,1,10,true,60,m,2.5,m,gravel,\n"
                 "A,2025-04-13,1,10,true,sixty,m,2.5,m,gravel,\n"));
    const Ran ran = bedlore({"import", book, swimsFile, bad, "--skip-bad", "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["readings"], 1);
    EXPECT_EQ(result["bad"].size(), 1U);
}

TEST_F(Import, RefusedImportLeavesNoNewBookBehind) {
    const std::string bad =
        folder.write("bad.csv", readings("A,2025-04-13,1,10,true,sixty,m,2.5,m,gravel,\n"));
    EXPECT_EQ(bedlore({"import", book, swimsFile, bad}).status, 1);
    EXPECT_FALSE(std::filesystem::exists(book));
    EXPECT_EQ(bedlore({"import", book, folder / "nothing.csv"}).status, 1);
    EXPECT_FALSE(std::filesystem::exists(book));
}

TEST_F(Import, RefusesTheSameFileTwiceUnlessTold) {
    ASSERT_EQ(bedlore({"import", book, swimsFile, readingsFile}).status, 0);
    const std::string before = textOf(book);
    const Ran again = bedlore({"import", book, readingsFile, "--json"});
    EXPECT_EQ(again.status, 1);
    EXPECT_THAT(again.err, HasSubstr("readings.csv"));
    EXPECT_EQ(Json::parse(again.out)["readings"], 0);
    EXPECT_EQ(textOf(book), before);
    EXPECT_EQ(bedlore({"import", book, readingsFile, "--again"}).status, 0);
}

TEST_F(Import, SaysWhatItAssumed) {
    const std::string wraps =
        folder.write("wraps.csv", readings("A,2025-04-13,1,10,true,20,wrap,8,ft,gravel,\n"));
    const Ran ran = bedlore({"import", book, swimsFile, wraps, "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const Json assumed = Json::parse(ran.out)["assumed"];
    ASSERT_EQ(assumed.size(), 1U);
    EXPECT_THAT(assumed[0].get<std::string>(), HasSubstr("12"));
}

TEST_F(Import, FileThatIsNoBookIsNotWrittenTo) {
    const std::string text = folder.write("notes.gpkg", "not a book at all\n");
    const Ran ran = bedlore({"import", text, swimsFile});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, ::testing::Not(IsEmpty()));
    EXPECT_EQ(textOf(text), "not a book at all\n");
}

TEST_F(Import, FileNameWithAMinusIsTakenAfterTwoDashes) {
    const std::filesystem::path before = std::filesystem::current_path();
    std::filesystem::current_path(folder.path());
    const Ran ran = bedlore({"import", "--", "-b.gpkg", "swims.csv"});
    std::filesystem::current_path(before);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_TRUE(std::filesystem::exists(folder.path() / "-b.gpkg"));
}

TEST_F(Import, ResultAloneGoesToStandardOutput) {
    const Ran ran = bedlore({"import", book, swimsFile, readingsFile, "--json"});
    EXPECT_EQ(linesOf(ran.out).size(), 1U) << ran.out;
}

TEST_F(Import, FolderOfTablesGivesAnEqualBook) {
    ASSERT_EQ(bedlore({"import", book, swimsFile, readingsFile}).status, 0);
    const std::string tables = folder / "tables";
    const Ran out = bedlore({"export", book, "--csv", tables, "--json"});
    ASSERT_EQ(out.status, 0) << out.err;
    EXPECT_THAT(out.err, HasSubstr("nothing in it is private"));
    const Json result = Json::parse(out.out);
    // By hand: a table for each of twenty types of record, and three more.
    EXPECT_EQ(result["files"].size(), 23U);
    for (const Json& file : result["files"]) {
        EXPECT_TRUE(std::filesystem::exists(file.get<std::string>())) << file;
    }
    EXPECT_TRUE(result["level_m"].is_null());

    const std::string other = folder / "other.gpkg";
    const Ran in = bedlore({"import", other, tables, "--json"});
    ASSERT_EQ(in.status, 0) << in.err;
    EXPECT_EQ(Json::parse(in.out)["readings"], 2);
    const std::string tablesOfOther = folder / "tables2";
    ASSERT_EQ(bedlore({"export", other, "--csv", tablesOfOther}).status, 0);
    for (const auto& entry : std::filesystem::directory_iterator(tables)) {
        const auto twin = std::filesystem::path(tablesOfOther) / entry.path().filename();
        EXPECT_EQ(textOf(entry.path()), textOf(twin)) << entry.path();
    }
}

TEST_F(Import, TablesHoldWhatIsPrivateOnlyWhereItIsAskedFor) {
    const std::string page =
        folder.write("page.txt", "swim the Point\ndate 2026-04-12\nA 27w 9' gr\nPINE = A 26w\n");
    ASSERT_EQ(bedlore({"import", book, page}).status, 0);
    const std::string open = folder / "open";
    ASSERT_EQ(bedlore({"export", book, "--csv", open}).status, 0);
    // The column before the lengths, none here, says so: made private there, as a program of his
    // might.
    std::string spots = textOf(open + "/spots.csv");
    const std::size_t lengths = spots.find(",0,[", spots.find("PINE"));
    ASSERT_NE(lengths, std::string::npos) << spots;
    spots[lengths + 1] = '1';
    folder.write("open/spots.csv", spots);
    const std::string secret = folder / "secret.gpkg";
    ASSERT_EQ(bedlore({"import", secret, open}).status, 0);

    const Ran without = bedlore({"export", secret, "--csv", folder / "without"});
    ASSERT_EQ(without.status, 0);
    EXPECT_THAT(without.err, HasSubstr("1 private spot stays at home"));
    int tables = 0;
    for (const auto& entry : std::filesystem::directory_iterator(folder / "without")) {
        ++tables;
        EXPECT_THAT(textOf(entry.path()), Not(HasSubstr("PINE"))) << entry.path();
    }
    EXPECT_EQ(tables, 23);
    const Ran with = bedlore({"export", secret, "--csv", folder / "with", "--private"});
    ASSERT_EQ(with.status, 0);
    EXPECT_EQ(textOf(folder / "with/spots.csv"), spots);
    EXPECT_THAT(textOf(folder / "with/page_lines.csv"), HasSubstr("PINE = A 26w"));
}

TEST_F(Import, TablesAreNeverWrittenOverOrMixedWithAWater) {
    ASSERT_EQ(bedlore({"import", book, swimsFile}).status, 0);
    const std::string tables = folder / "tables";
    ASSERT_EQ(bedlore({"export", book, "--csv", tables}).status, 0);
    EXPECT_EQ(bedlore({"export", book, "--csv", tables}).status, 1);
    EXPECT_EQ(bedlore({"export", book, "--csv", swimsFile}).status, 1);
    EXPECT_EQ(bedlore({"export", book, "--csv", folder / "t2", "--water", "W"}).status, 2);
    EXPECT_EQ(bedlore({"import", folder / "n.gpkg", tables, "--water", "W"}).status, 2);
    EXPECT_FALSE(std::filesystem::exists(folder / "n.gpkg"));

    const std::string before = textOf(book);
    const std::string word = tables + "/waters.csv";
    folder.write("tables/waters.csv", textOf(word) + "1,twice,,,,,,,,,up_with_water,[],\n");
    const Ran bad = bedlore({"import", folder / "n.gpkg", tables});
    EXPECT_EQ(bad.status, 1);
    EXPECT_THAT(bad.err, HasSubstr("waters.csv"));
    EXPECT_FALSE(std::filesystem::exists(folder / "n.gpkg"));
    EXPECT_EQ(textOf(book), before);
}

TEST_F(Import, InterruptedLeavesNothingHalfWritten) {
    std::string fixes = "lat,lon,depth_m\n";
    for (int i = 0; i < 1'000'000; ++i) {
        fixes += "56.000" + std::to_string(1000 + i % 9000) + ",3.000" +
                 std::to_string(1000 + i % 7919) + ",3.25\n";
    }
    const std::string file = folder.write("fixes.csv", fixes);
    // While the rows are read, and while the new book is written.
    for (const std::string& opened : {file, book}) {
        SCOPED_TRACE(opened);
        Running running(BEDLORE_PROGRAM, {"import", book, file});
        ASSERT_TRUE(running.hasOpened(opened)) << running.finish().err;
        running.signal(SIGINT);
        const Ran ran = running.finish();
        EXPECT_EQ(ran.signal, 0) << "it was ended by the signal instead of ending by itself";
        EXPECT_EQ(ran.status, 130) << ran.err;
        EXPECT_FALSE(std::filesystem::exists(book));
        std::size_t left = 0;
        for ([[maybe_unused]] const auto& entry :
             std::filesystem::directory_iterator(folder.path())) {
            ++left;
        }
        EXPECT_EQ(left, 3U) << "something was left beside the three input files";
    }
}

} // namespace
} // namespace bedlore::testing
