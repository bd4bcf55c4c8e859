// SPDX-License-Identifier: MIT
#include "tests/core/io/import_bench.hpp"

#include <algorithm>
#include <map>

namespace bedlore::testing {

namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;

constexpr std::string_view swimA = "swim,lat,lon,tip_height_m\nA,52.2,-1.2,1.8\n";
constexpr std::string_view allColumns =
    "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note,distance_to,"
    "reel,aim,stick_gap_ft,level_m,drop,pull,on_lead,sure,outcome\n";

class ReadingsImport : public ImportBench {
protected:
    /// Swim A with latitude and longitude is in the book.
    ReadingsImport() { import({write("swims.csv", swimA)}); }

    std::filesystem::path readings(
        std::initializer_list<std::string_view> rows, std::string_view header = readingsHeader) {
        return write("readings" + std::to_string(++count_) + ".csv", table(header, rows));
    }
    [[nodiscard]] Reading onlyReading() const {
        const auto found = all<Reading>();
        EXPECT_EQ(found.size(), 1U);
        return found.empty() ? Reading() : found.front();
    }

private:
    int count_ = 0;
};

TEST_F(ReadingsImport, KeepsWhatARowSays) {
    const ImportPlan plan = import({readings(
        {"A,2025-04-12,7,231.5,magnetic,28.50,wrap,9.0,ft,gravel,\"the one, = \"\"good\"\"\",27,,"
         "dead pine,13,-0.35,D,tap,\"grit, mud\",3,weed too thick"},
        allColumns)});

    EXPECT_EQ(plan.counts, (ImportCounts{.swims = 0, .casts = 1, .readings = 1, .fixes = 0}));
    EXPECT_THAT(plan.assumed, IsEmpty());
    const Reading reading = onlyReading();
    EXPECT_EQ(reading.from, (Entered{28.5, Unit::Wrap, "28.50"}));
    EXPECT_EQ(reading.to, (Entered{27.0, Unit::Wrap, "27"}));
    ASSERT_TRUE(reading.depth.has_value());
    EXPECT_EQ(reading.depth->value, (Entered{9.0, Unit::Foot, "9.0"}));
    EXPECT_EQ(reading.depth->method, DepthMethod::Measured);
    EXPECT_EQ(reading.substrate, Substrate::Gravel);
    EXPECT_EQ(reading.cover, std::nullopt);
    EXPECT_EQ(reading.drop, Drop::Hard);
    EXPECT_EQ(reading.pull, Pull::Tap);
    EXPECT_THAT(reading.onLead, ElementsAre(OnLead::Grit, OnLead::Mud));
    EXPECT_EQ(reading.sureness, 3);
    EXPECT_EQ(reading.outcome, Outcome::WeedTooThick);
    EXPECT_EQ(reading.note, "the one, = \"good\"");
    ASSERT_TRUE(reading.source.has_value());
    EXPECT_EQ(reading.source->line, 2);
    EXPECT_EQ(book_.get(reading.source->file).name, "readings1.csv");

    const Cast& cast = book_.get(reading.cast);
    EXPECT_EQ(cast.name, "7");
    EXPECT_EQ(cast.bearing, (BearingEntry{{231.5, Unit::Degree, "231.5"}, North::Magnetic}));
    ASSERT_TRUE(cast.aim.has_value());
    EXPECT_EQ(book_.get(*cast.aim).label, "dead pine");
    const Visit& visit = book_.get(cast.visit);
    EXPECT_EQ(visit.sticks, (Entered{13.0, Unit::Foot, "13"}));
    EXPECT_EQ(visit.level, (Entered{-0.35, Unit::Metre, "-0.35"}));
    EXPECT_EQ(
        visit.date, (Date{std::chrono::year{2025}, std::chrono::month{4}, std::chrono::day{12}}));
}

TEST_F(ReadingsImport, LeavesEmptyWhatARowDoesNotSay) {
    import({readings({"A,2025-04-12,,,,62,yd,,,,"})});
    const Reading reading = onlyReading();
    EXPECT_EQ(reading.depth, std::nullopt);
    EXPECT_EQ(reading.substrate, std::nullopt);
    EXPECT_EQ(reading.cover, std::nullopt);
    EXPECT_EQ(reading.to, std::nullopt);
    EXPECT_EQ(reading.outcome, std::nullopt);
    EXPECT_EQ(reading.sureness, 2);
    const Cast& cast = book_.get(reading.cast);
    EXPECT_EQ(cast.bearing, std::nullopt);
    EXPECT_EQ(cast.aim, std::nullopt);
    EXPECT_EQ(cast.reel, std::nullopt);
    EXPECT_EQ(cast.name, "");
}

TEST_F(ReadingsImport, UnderstandsEveryWordAndCodeOfTheBottom) {
    std::string text(readingsHeader);
    std::vector<std::string> words;
    for (const auto& term : substrateTerms()) {
        words.emplace_back(term.word);
        words.emplace_back(term.code);
    }
    for (const auto& term : coverTerms()) {
        words.emplace_back(term.word);
        words.emplace_back(term.code);
    }
    // Source: the trade's list, 13 substrates and 9 covers, each with a code of two letters.
    ASSERT_EQ(words.size(), 44U);
    words.insert(words.end(), {"Leaf Litter", "GRAVEL", " weed "});
    for (const std::string& word : words) {
        text += "A,2025-04-12,,,,62,yd,,," + word + ",\n";
    }
    import({write("words.csv", text)});
    const auto found = all<Reading>();
    ASSERT_EQ(found.size(), words.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_NE(found[i].substrate.has_value(), found[i].cover.has_value()) << words[i];
    }
    EXPECT_EQ(found[44].cover, Cover::Leaves);
    EXPECT_EQ(found[45].substrate, Substrate::Gravel);
    EXPECT_EQ(found[46].cover, Cover::Weed);
}

TEST_F(ReadingsImport, MakesOneCastOfRowsWithOneNameAndOwnCastsOfRowsWithout) {
    import({readings({
        "A,2025-04-12,1,49,true,30,wrap,,,,first",
        "A,2025-04-12,,49,true,29,wrap,,,,alone",
        "A,2025-04-12,1,49.0,true,28,wrap,,,,second",
        "A,2025-04-12,,49,true,27,wrap,,,,alone too",
        "A,2025-04-12,1,409,true,26,wrap,,,,third",
        "A,2025-04-13,1,50,true,26,wrap,,,,another day",
    })});
    EXPECT_EQ(all<Visit>().size(), 2U);
    EXPECT_EQ(all<Cast>().size(), 4U);
    std::map<std::string, std::vector<std::string>> notes;
    for (const Cast& cast : book_.all<Cast>()) {
        for (const Reading* reading : readingsOf(book_, cast.id)) {
            notes[std::to_string(cast.id.value)].push_back(reading->note);
        }
    }
    std::vector<std::vector<std::string>> casts;
    for (const auto& [id, said] : notes) {
        casts.push_back(said);
    }
    EXPECT_THAT(
        casts,
        UnorderedElementsAre(
            ElementsAre("first", "second", "third"),
            ElementsAre("alone"),
            ElementsAre("alone too"),
            ElementsAre("another day")));
}

TEST_F(ReadingsImport, NotesRowsOfOneCastThatDisagree) {
    import({write("reels.csv", "reel,turns,distance_m\nR1,50,45\nR2,50,40\n")});
    const auto bad = refused({readings(
        {"A,2025-04-12,1,49,true,30,wrap,,,,,,R1,A,,,,,,,",
         "A,2025-04-12,1,50,true,29,wrap,,,,,,R1,A,,,,,,,",
         "A,2025-04-12,1,49,grid,28,wrap,,,,,,R1,A,,,,,,,",
         "A,2025-04-12,1,49,true,27,wrap,,,,,,R2,A,,,,,,,",
         "A,2025-04-12,1,49,true,27,wrap,,,,,,,A,,,,,,,",
         "A,2025-04-12,1,49,true,26,wrap,,,,,,R1,B,,,,,,,",
         "A,2025-04-12,1,,,25,wrap,,,,,,R1,A,,,,,,,",
         "A,2025-04-12,1,49,true,24,wrap,,,,,,r1,,,,,,,,"},
        allColumns)});
    EXPECT_THAT(
        bad,
        ElementsAre(
            isBadAt(3, "bearing"),
            isBadAt(4, "north"),
            isBadAt(5, "reel"),
            isBadAt(6, "reel"),
            isBadAt(7, "aim"),
            isBadAt(8, "bearing")));
    EXPECT_EQ(bad[0].file, "readings1.csv");
    EXPECT_EQ(bad[0].found, "50");
    EXPECT_EQ(bad[0].expected, "49, as on line 2");
}

TEST_F(ReadingsImport, ContinuesACastOfAnEarlierFileThatAgrees) {
    import(
        {readings({"A,2025-04-12,1,49,true,30,wrap,,,,", "A,2025-04-12,1,49,true,29,wrap,,,,"})});
    const ImportPlan plan = import({readings({"A,2025-04-12,1,49,true,28,wrap,,,,"})});
    EXPECT_EQ(plan.counts, (ImportCounts{.swims = 0, .casts = 0, .readings = 1, .fixes = 0}));
    ASSERT_EQ(all<Cast>().size(), 1U);
    std::vector<std::string> lengths;
    for (const Reading* reading : readingsOf(book_, all<Cast>().front().id)) {
        lengths.push_back(reading->from.text);
    }
    EXPECT_THAT(lengths, ElementsAre("30", "29", "28"));

    EXPECT_THAT(
        refused({readings({"A,2025-04-12,1,50,true,27,wrap,,,,"})}),
        ElementsAre(isBadAt(2, "bearing")));
}

TEST_F(ReadingsImport, AssumesTwelveFeetForAWrapAndSaysSoOnceForEachVisit) {
    const ImportPlan plan = import({readings({
        "A,2025-04-12,1,49,true,30,wrap,,,,",
        "A,2025-04-12,1,49,true,29,wrap,,,,",
        "A,2025-04-13,1,49,true,30,wrap,,,,",
        "A,2025-04-14,1,49,true,30,m,,,,",
    })});
    ASSERT_EQ(plan.assumed.size(), 2U);
    EXPECT_THAT(plan.assumed[0], HasSubstr("12 ft"));
    EXPECT_THAT(plan.assumed[0], HasSubstr("2025-04-12"));
    // What was only assumed is not kept as if he had said it.
    for (const Visit& visit : book_.all<Visit>()) {
        EXPECT_EQ(visit.sticks, std::nullopt);
    }
}

TEST_F(ReadingsImport, GivesTheVisitItsSticksFromWhicheverRowSaysThemFirst) {
    const ImportPlan plan = import({readings(
        {"A,2025-04-12,1,49,true,30,wrap,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,29,wrap,,,,,,,,13,0.2,,,,,",
         "A,2025-04-12,1,49,true,28,wrap,,,,,,,,13.0,0.20,,,,,"},
        allColumns)});
    EXPECT_THAT(plan.assumed, IsEmpty());
    ASSERT_EQ(all<Visit>().size(), 1U);
    EXPECT_EQ(all<Visit>().front().sticks, (Entered{13.0, Unit::Foot, "13"}));
    EXPECT_EQ(all<Visit>().front().level, (Entered{0.2, Unit::Metre, "0.2"}));
}

TEST_F(ReadingsImport, KeepsTheFirstSticksAndLevelOverLaterFiles) {
    import({readings({"A,2025-04-12,1,49,true,30,wrap,,,,,,,,13,0.2,,,,,"}, allColumns)});
    import({readings({"A,2025-04-12,2,59,true,30,wrap,,,,,,,,,,,,,,"}, allColumns)});
    EXPECT_THAT(
        refused({readings(
            {"A,2025-04-12,3,69,true,30,wrap,,,,,,,,12,0.2,,,,,",
             "A,2025-04-12,3,69,true,29,wrap,,,,,,,,13,0.3,,,,,",
             "A,2025-04-12,3,69,true,28,wrap,,,,,,,,13,0.2,,,,,"},
            allColumns)}),
        ElementsAre(isBadAt(2, "stick_gap_ft"), isBadAt(3, "level_m")));
}

TEST_F(ReadingsImport, AGapFromALaterFileCountsWhereTheFirstSaidNone) {
    import({readings({"A,2025-04-12,1,49,true,30,wrap,,,,"})});
    import({readings({"A,2025-04-12,1,49,true,29,wrap,,,,,,,,10,,,,,,"}, allColumns)});
    EXPECT_EQ(all<Visit>().front().sticks, (Entered{10.0, Unit::Foot, "10"}));
}

TEST_F(ReadingsImport, RefusesTurnsWithoutAMeasuredReel) {
    const auto rows = readings(
        {"A,2025-04-12,1,49,true,95,turn,,,,,,,,,,,,,,",
         "A,2025-04-12,2,49,true,95,turn,,,,,,R1,,,,,,,,"},
        allColumns);
    EXPECT_THAT(refused({rows}), ElementsAre(isBadAt(2, "reel"), isBadAt(3, "reel")));
}

TEST_F(ReadingsImport, TakesTurnsOfAReelMeasuredInTheSameImport) {
    const auto rows = readings({"A,2025-04-12,2,49,true,95,turn,,,,,,R1,,,,,,,,"}, allColumns);
    const auto reels = write("reels.csv", "reel,turns,distance_m\nR1,50,45\nR1,100,88\n");
    import({rows, reels});
    ASSERT_EQ(all<Cast>().size(), 1U);
    ASSERT_TRUE(all<Cast>().front().reel.has_value());
    EXPECT_EQ(book_.get(*all<Cast>().front().reel).name, "R1");
    EXPECT_EQ(onlyReading().from, (Entered{95.0, Unit::Turn, "95"}));
}

TEST_F(ReadingsImport, KeepsAReelThatWasNeverMeasured) {
    import({readings({"A,2025-04-12,2,49,true,95,m,,,,,,old one,,,,,,,,"}, allColumns)});
    ASSERT_EQ(all<Reel>().size(), 1U);
    EXPECT_EQ(all<Reel>().front().name, "old one");
    EXPECT_THAT(all<Reel>().front().calibration, IsEmpty());
}

// Source: by hand. 400 m is 437.45 yd, 1312.3 ft and 109.36 wraps of 12 ft.
TEST_F(ReadingsImport, RefusesALineOfMoreThanFourHundredMetres) {
    EXPECT_THAT(
        refused({readings({
            "A,2025-04-12,1,49,true,400.1,m,,,,",
            "A,2025-04-12,1,49,true,437.5,yd,,,,",
            "A,2025-04-12,1,49,true,1313,ft,,,,",
            "A,2025-04-12,1,49,true,109.5,wrap,,,,",
            "A,2025-04-12,1,49,true,1000,m,,,,",
            "A,2025-04-12,1,49,true,400,m,,,,",
            "A,2025-04-12,1,49,true,437.4,yd,,,,",
            "A,2025-04-12,1,49,true,1312,ft,,,,",
            "A,2025-04-12,1,49,true,109.25,wrap,,,,",
        })}),
        ElementsAre(
            isBadAt(2, "distance"),
            isBadAt(3, "distance"),
            isBadAt(4, "distance"),
            isBadAt(5, "distance"),
            isBadAt(6, "distance")));
}

TEST_F(ReadingsImport, MeasuresAWrapByTheVisitsOwnSticks) {
    // Source: by hand. 120 wraps are 438.9 m at 12 ft and 365.8 m at 10 ft.
    EXPECT_THAT(
        refused({readings({"A,2025-04-12,1,49,true,120,wrap,,,,"})}),
        ElementsAre(isBadAt(2, "distance")));
    import({readings({"A,2025-04-12,1,49,true,120,wrap,,,,,,,,10,,,,,,"}, allColumns)});
}

TEST_F(ReadingsImport, RefusesNumbersThatAreNone) {
    for (const std::string number :
         {"nan", "NaN", "inf", "-inf", "1e999", "0x10", "12 ft", "1,5", "28½", "--1", "", "1_0"}) {
        std::string quoted = number;
        quoted.insert(0, "\"").append("\"");
        const auto bad = refused({readings({"A,2025-04-12,1,49,true," + quoted + ",m,,,,"})});
        EXPECT_THAT(bad, ElementsAre(isBadAt(2, "distance"))) << number;
    }
}

TEST_F(ReadingsImport, RefusesEachCellThatCannotBeUsed) {
    const auto bad = refused({readings(
        {",2025-04-12,1,49,true,30,m,,,,,,,,,,,,,,",
         "A,2025-02-30,1,49,true,30,m,,,,,,,,,,,,,,",
         "A,12/4/2025,1,49,true,30,m,,,,,,,,,,,,,,",
         "A,,1,49,true,30,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,721,true,30,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,-361,true,30,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,,30,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,north,30,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,0,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,-3,m,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,rods,,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,-0.1,m,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,3,,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,3,yd,,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,custard,,,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,30,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,31,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,-1,,,,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,0,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,x,,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,high,,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,bang,,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,,yank,,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,,,grit jam,,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,,,,4,",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,,,,,tea",
         "A,2025-04-12,1,49,true,30,m,,,,,,,,,,,,,,"},
        allColumns)});
    EXPECT_THAT(
        bad,
        ElementsAre(
            isBadAt(2, "swim"),
            isBadAt(3, "date"),
            isBadAt(4, "date"),
            isBadAt(5, "date"),
            isBadAt(6, "bearing"),
            isBadAt(7, "bearing"),
            isBadAt(8, "north"),
            isBadAt(9, "north"),
            isBadAt(10, "distance"),
            isBadAt(11, "distance"),
            isBadAt(12, "distance_unit"),
            isBadAt(13, "distance_unit"),
            isBadAt(14, "depth"),
            isBadAt(15, "depth_unit"),
            isBadAt(16, "depth_unit"),
            isBadAt(17, "bottom"),
            isBadAt(18, "distance_to"),
            isBadAt(19, "distance_to"),
            isBadAt(20, "distance_to"),
            isBadAt(21, "stick_gap_ft"),
            isBadAt(22, "stick_gap_ft"),
            isBadAt(23, "level_m"),
            isBadAt(24, "drop"),
            isBadAt(25, "pull"),
            isBadAt(26, "on_lead"),
            isBadAt(27, "sure"),
            isBadAt(28, "outcome")));
    EXPECT_EQ(bad[1].found, "2025-02-30");
    EXPECT_EQ(bad[1].expected, "a day of the calendar as YYYY-MM-DD");
}

TEST_F(ReadingsImport, ListsEveryFaultOfARow) {
    EXPECT_THAT(
        refused({readings({"A,2025-04-12,1,x,true,y,m,z,m,,"})}),
        ElementsAre(isBadAt(2, "bearing"), isBadAt(2, "distance"), isBadAt(2, "depth")));
}

TEST_F(ReadingsImport, TakesTheEdgesOfWhatIsAllowed) {
    import({readings(
        {"A,2024-02-29,1,-360,true,30,m,0,m,,,0,,,50,,,,,1,nf",
         "A,2024-02-29,2,720,grid,30,m,,ft,,,29.99,,,,,none,free,,2,lead lost"},
        allColumns)});
    const auto found = all<Reading>();
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0].depth->value, (Entered{0.0, Unit::Metre, "0"}));
    EXPECT_EQ(found[0].outcome, Outcome::FloatNeverShowed);
    EXPECT_EQ(found[1].depth, std::nullopt);
    EXPECT_EQ(found[1].outcome, Outcome::LeadLost);
    EXPECT_EQ(found[1].drop, Drop::Nothing);
    EXPECT_EQ(book_.get(found[0].cast).bearing->degrees.text, "-360");
}

TEST_F(ReadingsImport, SkipsBadRowsOnlyWhenAsked) {
    const auto rows = readings({
        "A,2025-04-12,1,49,true,30,m,,,,",
        "A,2025-04-12,1,49,true,x,m,,,,",
        "A,2025-04-12,1,50,true,29,m,,,,",
        "A,2025-04-13,1,50,true,500,m,,,,",
        "A,2025-04-12,1,49,true,28,m,,,,",
    });
    EXPECT_THAT(refused({rows}), ::testing::SizeIs(3));
    const ImportPlan plan = import({rows}, {.badRows = BadRows::Skip});
    EXPECT_EQ(plan.counts, (ImportCounts{.swims = 0, .casts = 1, .readings = 2, .fixes = 0}));
    EXPECT_THAT(
        plan.bad,
        ElementsAre(isBadAt(3, "distance"), isBadAt(4, "bearing"), isBadAt(5, "distance")));
    // A visit of which no row is good is none.
    EXPECT_EQ(all<Visit>().size(), 1U);
    EXPECT_EQ(all<Reading>()[1].source->line, 6);
}

TEST_F(ReadingsImport, ABadRowDoesNotSayWhatItsCastIs) {
    const ImportPlan plan = import(
        {readings({"A,2025-04-12,1,50,true,x,m,,,,", "A,2025-04-12,1,49,true,29,m,,,,"})},
        {.badRows = BadRows::Skip});
    EXPECT_THAT(plan.bad, ElementsAre(isBadAt(2, "distance")));
    EXPECT_EQ(plan.counts.readings, 1U);
}

TEST_F(ReadingsImport, GivesTheSameNotesInAnyOrderOfCasts) {
    // A row for each reading of three casts, rows of a cast kept in their order.
    const std::vector<std::vector<std::string>> casts{
        {"A,2025-04-12,1,49,true,30,wrap,5,ft,weed,", "A,2025-04-12,1,49,true,29,wrap,,,,"},
        {"A,2025-04-12,2,59,true,31,wrap,6,ft,sand,", "A,2025-04-12,2,59,true,20,wrap,4,ft,,"},
        {"A,2025-04-11,1,69,true,25,wrap,6,ft,sand,"}};
    const auto notesIn = [&](const std::vector<std::size_t>& order) {
        std::string text(readingsHeader);
        for (const std::size_t i : order) {
            for (const std::string& row : casts[i]) {
                text += row + "\n";
            }
        }
        const auto planned = plan({write("order.csv", text)});
        EXPECT_TRUE(planned.has_value());
        const Book book = applyEdits(book_, planned->edits)->book;
        std::vector<std::string> notes;
        for (const Cast& cast : book.all<Cast>()) {
            const Visit& visit = book.get(cast.visit);
            std::string line =
                std::to_string(std::chrono::sys_days(visit.date).time_since_epoch().count()) + "/" +
                cast.name + "/" + cast.bearing->degrees.text;
            for (const Reading* reading : readingsOf(book, cast.id)) {
                line += "/" + reading->from.text;
            }
            notes.push_back(line);
        }
        std::sort(notes.begin(), notes.end());
        return notes;
    };
    const auto first = notesIn({0, 1, 2});
    EXPECT_EQ(first.size(), 3U);
    EXPECT_EQ(notesIn({2, 1, 0}), first);
    EXPECT_EQ(notesIn({1, 2, 0}), first);
}

TEST_F(ReadingsImport, TakesColumnsInAnyOrderAndSaysWhichItDoesNotKnow) {
    const ImportPlan plan = import({write(
        "readings.csv",
        "note;Wind;bottom;depth_unit;depth;distance_unit;distance;north;bearing;cast;DATE; swim \n"
        "ok;SW3;gravel;ft;9,5;wrap;27,5;true;49;1;2025-04-12;A\n")});
    ASSERT_EQ(plan.notices.size(), 1U);
    EXPECT_THAT(plan.notices.front(), HasSubstr("\"wind\""));
    EXPECT_EQ(onlyReading().from, (Entered{27.5, Unit::Wrap, "27,5"}));
    EXPECT_EQ(onlyReading().depth->value, (Entered{9.5, Unit::Foot, "9,5"}));
    EXPECT_EQ(onlyReading().note, "ok");
}

TEST_F(ReadingsImport, SaysWhichColumnIsMissingOrTwice) {
    EXPECT_THAT(
        refused({write(
            "r.csv",
            "swim,date,cast,bearing,distance,distance_unit,depth,depth_unit,bottom,note\n")}),
        ElementsAre(isBadAt(1, "north")));
    EXPECT_THAT(
        refused({write(
            "r.csv",
            "swim,date,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,"
            "note\n")}),
        ElementsAre(isBadAt(1, "date")));
    // No row can be skipped where a column is missing: nothing of the file goes in.
    EXPECT_THAT(
        refused({write("r.csv", "swim,distance\nA,30\n")}, {.badRows = BadRows::Skip}),
        ::testing::SizeIs(9));
}

TEST_F(ReadingsImport, NotesRowsWithTooFewOrTooManyCells) {
    const auto bad = refused({readings({
        "A,2025-04-12,1,49,true,30,m,,,",
        "A,2025-04-12,1,49,true,30,m,,,,a note, with a comma",
        "A,2025-04-12,1,49,true,30,m,,,,",
        ",,,,,,,,,,",
        "",
    })});
    EXPECT_THAT(bad, ElementsAre(isBadAt(2, ""), isBadAt(3, "")));
    EXPECT_EQ(bad[0].found, "10 columns");
    EXPECT_EQ(bad[0].expected, "11 columns, as in the first line");
}

TEST_F(ReadingsImport, CountsLinesInsideQuotesToo) {
    EXPECT_THAT(
        refused({readings({
            "A,2025-04-12,1,49,true,30,m,,,,\"two",
            "lines\"",
            "A,2025-04-12,1,49,true,x,m,,,,",
        })}),
        ElementsAre(isBadAt(4, "distance")));
}

TEST_F(ReadingsImport, MakesASwimThatIsNotThereAndSaysSo) {
    const ImportPlan plan = import({readings({
        "B,2025-04-12,1,49,true,30,m,,,,",
        "b,2025-04-12,2,59,true,30,m,,,,",
    })});
    EXPECT_EQ(plan.counts.swims, 1U);
    EXPECT_THAT(plan.notices, ElementsAre(HasSubstr("Swim B was not in the book")));
    const Swim* made = findSwim(book_, all<Water>().front().id, "B");
    ASSERT_NE(made, nullptr);
    EXPECT_EQ(made->place, Place{});
    EXPECT_EQ(all<Visit>().size(), 1U);
}

TEST_F(ReadingsImport, ContinuesTheAimsOfAVisit) {
    import({readings(
        {"A,2025-04-12,1,49,true,30,m,,,,,,,A,,,,,,,",
         "A,2025-04-12,2,,,30,m,,,,,,,B,,,,,,,",
         "A,2025-04-12,3,50,true,30,m,,,,,,,A,,,,,,,"},
        allColumns)});
    import({readings(
        {"A,2025-04-12,4,,,30,m,,,,,,,B,,,,,,,", "A,2025-04-12,4,,,29,m,,,,,,,,,,,,,,"},
        allColumns)});
    const auto aims = all<Aim>();
    ASSERT_EQ(aims.size(), 2U);
    EXPECT_EQ(aims[0].label, "A");
    EXPECT_TRUE(std::holds_alternative<AimAtBearing>(aims[0].basis));
    EXPECT_TRUE(std::holds_alternative<AimWithoutAngle>(aims[1].basis));
    EXPECT_EQ(all<Cast>()[3].aim, aims[1].id);
    EXPECT_EQ(all<Cast>()[2].bearing->degrees.number, 50.0);
}

TEST_F(ReadingsImport, TellsTheSameFileTwice) {
    const auto path = readings({"A,2025-04-12,,49,true,30,m,,,,"});
    import({path});
    EXPECT_THAT(failure({path}), HasSubstr("imported before"));
    EXPECT_THAT(
        failure({write("copy.csv", table(readingsHeader, {"A,2025-04-12,,49,true,30,m,,,,"}))}),
        HasSubstr("copy.csv was imported before, as readings1.csv"));
    import({path}, {.again = SameFileAgain::Allow});
    EXPECT_EQ(all<Reading>().size(), 2U);
}

TEST_F(ReadingsImport, TellsTheSameFileNamedTwice) {
    const auto path = readings({"A,2025-04-12,,49,true,30,m,,,,"});
    EXPECT_THAT(failure({path, path}), HasSubstr("are the same file"));
}

// ---- where the water lies

class ReadingsOfAWaterWithoutPosition : public ImportBench {
protected:
    ReadingsOfAWaterWithoutPosition() {
        import({write("swims.csv", "swim,east_m,north_m,tip_height_m\nA,0,0,1.8\n")});
    }
};

TEST_F(ReadingsOfAWaterWithoutPosition, RefuseACompassBearing) {
    EXPECT_THAT(
        refused({write(
            "r.csv",
            table(
                readingsHeader,
                {"A,2025-04-12,1,49,magnetic,30,m,,,,", "A,2025-04-12,2,,magnetic,30,m,,,,"}))}),
        ElementsAre(isBadAt(2, "north")));
}

TEST_F(ReadingsOfAWaterWithoutPosition, ReadTrueAsTheNorthOfThePlanAndSaySo) {
    const ImportPlan plan = import({write(
        "r.csv",
        table(
            readingsHeader,
            {"A,2025-04-12,1,49,true,30,m,,,,", "A,2025-04-12,2,59,true,30,m,,,,"}))});
    EXPECT_THAT(plan.notices, ElementsAre(HasSubstr("true north")));
    EXPECT_EQ(all<Cast>().front().bearing->north, North::True);
}

TEST_F(ReadingsOfAWaterWithoutPosition, TakeGridWithoutAWord) {
    const ImportPlan plan =
        import({write("r.csv", table(readingsHeader, {"A,2025-04-12,1,49,grid,30,m,,,,"}))});
    EXPECT_THAT(plan.notices, IsEmpty());
}

} // namespace

} // namespace bedlore::testing
