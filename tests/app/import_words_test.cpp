// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/app/program.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>

// What `import` says of what it took in, and the tables for other programs that go with it.

namespace bedlore::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using Json = nlohmann::json;

class ImportWords : public ::testing::Test {
protected:
    ScratchFolder folder;
    std::string book = folder / "pit.gpkg";
    std::string swims =
        folder.write("swims.csv", "swim,lat,lon,tip_height_m\nA,56.0,3.0,2.0\nB,56.001,3.0,2.0\n");

    [[nodiscard]] std::string page(const std::string& name, const std::string& lines) const {
        return folder.write(
            name,
            "swim A\ndate 2025-04-12\nlevel 0 m\ndistances ft\ndepths ft\naim A = 0 true\n\n" +
                lines);
    }
};

TEST_F(ImportWords, ManyFixesAreTakenInWithoutFittingABedToThem) {
    // Rows 9 m and columns 6 m apart, so that no two fixes fall on one place.
    std::string rows = "lat,lon,depth_m\n";
    for (int i = 0; i < 100'000; ++i) {
        rows += "56." + std::to_string(100'000 + i / 250 * 80) + ",3." +
                std::to_string(100'000 + i % 250 * 100) + ",3.25\n";
    }
    const Ran ran = bedlore({"import", book, swims, folder.write("fixes.csv", rows), "--json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const Json result = Json::parse(ran.out);
    EXPECT_EQ(result["fixes"], 100'000);
    EXPECT_EQ(result["swims"], 2);
    const Ran info = bedlore({"info", book, "--json"});
    EXPECT_EQ(Json::parse(info.out)["fixes"], 100'000) << info.err;
}

TEST_F(ImportWords, NothingThatATerminalWouldObeyIsPrinted) {
    const std::string odd = folder.write(
        "odd.txt", "swim \x1b[2JPier\ndate 2025-04-12\naim A = 0 true\nA 28\x05y 9 ft\n");
    const Ran ran = bedlore({"import", book, odd});
    EXPECT_THAT(ran.out + ran.err, Not(HasSubstr("\x1b")));
    EXPECT_THAT(ran.err, Not(HasSubstr("\x05")));
    EXPECT_THAT(ran.err, HasSubstr("odd.txt, line 4"));
    const Ran info = bedlore({"info", book});
    EXPECT_THAT(info.out + info.err, Not(HasSubstr("\x1b")));
    const Ran missing = bedlore({"info", folder / "\x1b[31mno.gpkg"});
    EXPECT_EQ(missing.status, 1);
    EXPECT_THAT(missing.err, Not(HasSubstr("\x1b")));
}

TEST_F(ImportWords, ADayWithoutALevelIsNamedWhereOtherDaysHaveOne) {
    const std::string first = page("first.txt", "A 100 9\n");
    const Ran one = bedlore({"import", book, first});
    EXPECT_EQ(one.status, 0) << one.err;
    EXPECT_THAT(one.err, Not(HasSubstr("no level")));
    const Ran two = bedlore(
        {"import",
         book,
         folder.write(
             "later.txt",
             "swim A\ndate 2025-05-03\ndistances ft\ndepths ft\naim A = 0 true\nA 100 9\n")});
    EXPECT_EQ(two.status, 0) << two.err;
    EXPECT_THAT(two.err, HasSubstr("A: 3 May 2025 says no level"));
}

TEST_F(ImportWords, RefusedImportDoesNotSayThatSomethingWasMade) {
    const Ran ran = bedlore({"import", book, folder.write("bin.txt", std::string(64, '\0'))});
    EXPECT_EQ(ran.status, 1);
    EXPECT_FALSE(std::filesystem::exists(book));
    EXPECT_THAT(ran.err, Not(HasSubstr("The water")));
    EXPECT_THAT(ran.err, HasSubstr("bin.txt"));
    const Ran good = bedlore({"import", book, swims});
    EXPECT_EQ(good.status, 0) << good.err;
    EXPECT_THAT(good.err, HasSubstr("what is taken in goes to one named \"The water\""));
}

TEST_F(ImportWords, ARowThatIsWrongInTwoFieldsIsOneRow) {
    const Ran ran = bedlore(
        {"import",
         book,
         folder.write("bad.csv", "swim,lat,lon,tip_height_m\nA,x,y,2\nB,56,z,2\nC,56,3,2\n")});
    EXPECT_EQ(ran.status, 1);
    // By hand: lines 2 and 3.
    EXPECT_THAT(ran.err, HasSubstr("Nothing was taken in: 2 rows cannot be used"));
}

TEST_F(ImportWords, SwimThatIsGivenItsPlaceIsCounted) {
    ASSERT_EQ(bedlore({"import", book, page("page.txt", "A 90 8\n")}).status, 0);
    const Ran ran = bedlore({"import", book, swims});
    EXPECT_EQ(ran.status, 0) << ran.err;
    // By hand: A was there from the page, B is new.
    EXPECT_THAT(ran.out, HasSubstr("Taken in: 1 swim, 1 known swim brought up to date, 0 casts"));
}

TEST_F(ImportWords, LineThatCannotReachTheBedIsSaidOnceWhenItIsTakenIn) {
    // By hand: 12 ft of line, and the bed 30 ft below the water.
    const Ran ran = bedlore({"import", book, swims, page("short.txt", "A 12 30 gr\n\nA 90 8\n")});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("a line of 12 ft cannot reach a bed 30 ft deep"));
    const Ran later = bedlore({"import", book, page("good.txt", "A 80 9\n")});
    EXPECT_EQ(later.status, 0) << later.err;
    EXPECT_THAT(later.err, Not(HasSubstr("cannot reach")));
}

TEST_F(ImportWords, PageWithoutADateSaysWhatItsReadingsWaitFor) {
    const std::string undated = folder.write(
        "undated.txt", "swim A\ndistances ft\ndepths ft\naim A = 0 true\n\nA 90 9\n80 8\n");
    const Ran ran = bedlore({"import", book, swims, undated});
    EXPECT_EQ(ran.status, 0);
    EXPECT_THAT(
        ran.err,
        HasSubstr("undated.txt: The 2 readings from line 6 on wait for a date: put a line like "
                  "\"date 2025-04-12\" above them."));
}

TEST_F(ImportWords, UnclearLineCarriesWhatItMayHaveMeant) {
    const std::string wraps = folder.write(
        "wraps.txt",
        "swim A\ndate 2025-04-12\nsticks 12 ft\ndistances wraps\ndepths ft\naim A = 0 true\n\n"
        "A 110 9\n");
    const Ran ran = bedlore({"import", book, swims, wraps});
    EXPECT_EQ(ran.status, 0);
    EXPECT_THAT(ran.err, HasSubstr("110 wraps is beyond any cast. yards?"));
}

TEST_F(ImportWords, TooLongALineIsABadRowInOneSentence) {
    const std::string rows = folder.write(
        "far.csv",
        "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note\n"
        "A,2025-04-12,1,10,true,401,m,2.5,m,gravel,\n");
    const Ran ran = bedlore({"import", book, swims, rows});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(
        ran.err,
        HasSubstr("far.csv, line 2, distance: found \"401\", expected at most 400 m of line.\n"));
    EXPECT_THAT(ran.err, HasSubstr("--skip-bad"));
}

TEST_F(ImportWords, SkippingIsNotOfferedForAFileThatCannotBeUsedAtAll) {
    const std::string wide = folder.write("wide.csv", std::string("\xFF\xFE") + "s\0w\0");
    for (const std::vector<std::string>& more :
         {std::vector<std::string>{}, std::vector<std::string>{"--skip-bad"}}) {
        std::vector<std::string> arguments{"import", book, swims, wide};
        arguments.insert(arguments.end(), more.begin(), more.end());
        const Ran ran = bedlore(arguments);
        EXPECT_EQ(ran.status, 1);
        EXPECT_THAT(
            ran.err, HasSubstr("found \"UTF-16 text\", expected UTF-8 text: save the file"));
        EXPECT_THAT(ran.err, Not(HasSubstr("--skip-bad")));
    }
}

TEST_F(ImportWords, SameFileTwiceNamesTheOption) {
    ASSERT_EQ(bedlore({"import", book, swims}).status, 0);
    const Ran ran = bedlore({"import", book, swims});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("--again"));
}

TEST_F(ImportWords, TextThatIsEmptyIsNoTable) {
    const Ran ran = bedlore({"import", book, folder.write("empty.txt", "")});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("empty.txt is empty"));
    EXPECT_THAT(ran.err, Not(HasSubstr("column")));
}

TEST_F(ImportWords, HeaderThatLacksAColumnNamesIt) {
    const Ran ran = bedlore({"import", book, folder.write("s.csv", "swim,lat,lon\nA,56.0,3.0\n")});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("a column named tip_height_m"));
    const Ran semicolons =
        bedlore({"import", book, folder.write("r.csv", "reel;distance_m\nbig;49\n")});
    EXPECT_EQ(semicolons.status, 1);
    EXPECT_THAT(semicolons.err, HasSubstr("a column named turns"));
    // Words that any table may have tell nothing of its kind.
    const Ran diary =
        bedlore({"import", book, folder.write("d.csv", "date,note\n2025-04-12,rain\n")});
    EXPECT_EQ(diary.status, 1);
    EXPECT_THAT(diary.err, HasSubstr("d.csv is of no known kind"));
}

TEST_F(ImportWords, PlacesAloneAreAskedWhatTheyAre) {
    for (const char* header :
         {"lat,lon\n56.0,3.0\n",
          "name;lon;lat\nx;3.0;56.0\n",
          "north_m,east_m,date\n1,2,3\n",
          "lat,lon,depth\n56.0,3.0,2\n"}) {
        const Ran ran = bedlore({"import", book, folder.write("places.csv", header)});
        EXPECT_EQ(ran.status, 1);
        EXPECT_THAT(
            ran.err,
            HasSubstr(
                "places.csv, line 1: found \"places, and no column that says what is there\", "
                "expected with them depth_m for depths, swim and tip_height_m for swims, or "
                "part for a shoreline."))
            << header;
    }
}

TEST_F(ImportWords, ReelsAndShorelinesAreCounted) {
    const std::string reels =
        folder.write("reels.csv", "reel,turns,distance_m\nbig,0,0\nbig,50,49\n");
    const std::string shore = folder.write(
        "shore.csv", "part,lat,lon\n1,56.0,3.0\n1,56.001,3.0\n1,56.001,3.002\n1,56.0,3.002\n");
    const Ran ran = bedlore({"import", book, reels, shore});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(
        ran.out,
        "Taken in: 0 swims, 0 casts, 0 readings, 0 fixes, 1 reel, 1 shoreline of 4 points.\n");
}

TEST_F(ImportWords, SwimWithoutAPlaceIsNamedWhenGeoJsonNeedsOne) {
    const std::string loose = folder.write(
        "loose.txt",
        "swim C\ndate 2025-04-12\ndistances ft\ndepths ft\naim A = 0 true\n\nA 90 9\n80 8\n");
    ASSERT_EQ(bedlore({"import", book, swims, loose}).status, 0);
    const Ran ran = bedlore({"export", book, "--swim", "C", "--geojson", folder / "c.json"});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("Swim C has no place on the water yet"));
}

TEST_F(ImportWords, TablesAreFreshAfterAnImport) {
    ASSERT_EQ(
        bedlore({"import", book, swims, page("p.txt", "A 90 9 gr\n80 8\n70 si\n")}).status, 0);
    const auto file = BookFile::open(book, BookAccess::ReadOnly);
    ASSERT_TRUE(file.has_value()) << file.error().message;
    EXPECT_FALSE(file->derivedIsStale());
}

TEST_F(ImportWords, ExportWritesTheTablesAnewOnlyWhereTheyAreStale) {
    ASSERT_EQ(
        bedlore({"import", book, swims, page("p.txt", "A 90 9 gr\n80 8\n70 si\n")}).status, 0);
    const std::string fresh = textOf(book);
    ASSERT_EQ(bedlore({"export", book, "--geojson", folder / "one.json"}).status, 0);
    EXPECT_EQ(textOf(book), fresh) << "the tables were fresh and the book was written to";

    {
        auto file = BookFile::open(book);
        ASSERT_TRUE(file.has_value()) << file.error().message;
        Swim swim = *file->book().all<Swim>().begin();
        swim.tipHeight = Entered{.number = 2.5, .unit = Unit::Metre, .text = "2.5 m"};
        Edits edits;
        edits.emplace_back(Put<Swim>{swim});
        ASSERT_TRUE(file->write(edits, file->nextId()).has_value());
        ASSERT_TRUE(file->derivedIsStale());
        // Held by another: the export goes through and leaves the book alone.
        const std::string held = textOf(book);
        EXPECT_EQ(bedlore({"export", book, "--geojson", folder / "two.json"}).status, 0);
        EXPECT_EQ(textOf(book), held);
    }
    const Ran ran = bedlore({"export", book, "--geojson", folder / "three.json"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    const auto file = BookFile::open(book, BookAccess::ReadOnly);
    ASSERT_TRUE(file.has_value()) << file.error().message;
    EXPECT_FALSE(file->derivedIsStale());
}

} // namespace
} // namespace bedlore::testing
