// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "core/io/import_text.hpp"
#include "tests/core/io/import_bench.hpp"

namespace bedlore::testing {

namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

class PageImport : public ImportBench {
protected:
    [[nodiscard]] std::vector<std::string> linesOfOnlyPage() const {
        std::vector<std::string> texts;
        EXPECT_EQ(all<Page>().size(), 1U);
        for (const PageLine* line : linesOf(book_, all<Page>().front().id)) {
            texts.push_back(line->text);
        }
        return texts;
    }
};

constexpr std::string_view april = "\xEF\xBB\xBF\r\n"
                                   "swim P14\r\n"
                                   "date 2025-04-12\r\n"
                                   "sticks 12\r\n"
                                   "distances wraps\r\n"
                                   "depths ft\r\n"
                                   "aim A = 231.5 true\r\n"
                                   "A 32 6'\r\n"
                                   "  30 7\xC2\xBD wd  \r\n"
                                   "\r\n"
                                   "B 110 12\r\n"
                                   "20 x M ~5kg, +6\r\n";

TEST_F(PageImport, KeepsEveryLineWordForWord) {
    import({write("april.txt", april)});
    EXPECT_THAT(
        linesOfOnlyPage(),
        ElementsAre(
            "",
            "swim P14",
            "date 2025-04-12",
            "sticks 12",
            "distances wraps",
            "depths ft",
            "aim A = 231.5 true",
            "A 32 6'",
            "  30 7½ wd  ",
            "",
            "B 110 12",
            "20 x M ~5kg, +6"));
}

TEST_F(PageImport, BecomesTheNotesOfItsVisit) {
    const ImportPlan plan = import({write("april.txt", april)}, {.water = "Harl Pit"});
    EXPECT_EQ(plan.counts, (ImportCounts{.swims = 1, .casts = 1, .readings = 2, .fixes = 0}));
    EXPECT_EQ(all<Swim>().front().name, "P14");
    ASSERT_TRUE(all<Page>().front().file.has_value());
    EXPECT_EQ(book_.get(*all<Page>().front().file).name, "april.txt");
    const auto readings = all<Reading>();
    EXPECT_EQ(readings[0].from, (Entered{32.0, Unit::Wrap, "32"}));
    EXPECT_EQ(readings[1].cover, Cover::Weed);
    // The file's own lines, the blank first one counted.
    ASSERT_TRUE(readings[0].source && readings[1].source);
    EXPECT_EQ(readings[0].source->line, 8);
    EXPECT_EQ(readings[1].source->line, 9);
    EXPECT_EQ(readings[1].source->file, *all<Page>().front().file);
}

TEST_F(PageImport, SaysWhichDaysHaveNoLevelWhereOthersHave) {
    const auto day = [&](const std::string& name, const std::string& heads) {
        const std::string page = heads + "\ndistances m\ndepths ft\nA 32 6\n";
        return import({write(name, page)}, {.water = "Harl Pit"}).notices;
    };
    const auto said = HasSubstr("no level");
    EXPECT_THAT(day("a.txt", "swim P14\ndate 2025-04-12"), Not(Contains(said))) << "the first day";
    EXPECT_THAT(day("b.txt", "swim P14\ndate 2025-05-03"), Not(Contains(said))) << "none has any";
    EXPECT_THAT(day("c.txt", "swim the Gap\ndate 2025-05-03\nlevel 0.35 m"), Not(Contains(said)))
        << "another swim";
    const std::vector<std::string> first = day("d.txt", "swim P14\ndate 2025-05-04\nlevel 0.35 m");
    EXPECT_THAT(
        first,
        Contains("P14: 12 April 2025 and 3 May 2025 say no level, though other days there do. The "
                 "water is taken to have stood at the level mark then, which may move the map up "
                 "or down: write the level, if you read one."));
    EXPECT_THAT(
        day("e.txt", "swim P14\ndate 2025-05-05"),
        Contains(HasSubstr("P14: 12 April 2025, 3 May 2025 and 5 May 2025 say no level")));
    EXPECT_THAT(
        day("f.txt", "swim P14\ndate 2025-05-06"),
        Contains(HasSubstr("P14: 12 April 2025, 3 May 2025, 5 May 2025 and 6 May 2025 say")));
    EXPECT_THAT(
        day("g.txt", "swim P14\ndate 2025-05-07"),
        Contains(HasSubstr("P14: 12 April 2025, 3 May 2025, 5 May 2025 and 2 more days say")));
    EXPECT_THAT(day("h.txt", "swim the Gap\ndate 2025-05-08\nlevel 0.4 m"), Not(Contains(said)))
        << "nothing new there";
}

TEST_F(PageImport, SaysWhichLinesAreUnclearAndRefusesNothing) {
    const ImportPlan plan = import({write("april.txt", april)});
    EXPECT_THAT(plan.bad, ::testing::IsEmpty());
    EXPECT_THAT(
        plan.notices,
        Contains(::testing::AllOf(HasSubstr("april.txt, line 11"), HasSubstr("B 110 12"))));
}

TEST_F(PageImport, RepeatsNothingThatATerminalObeys) {
    const ImportPlan plan = import({write("april.txt", "swim P14\nA 28\x05 9\nswim \x1b[2J\n")});
    EXPECT_THAT(plan.notices, Contains(HasSubstr("\"28\uFFFD\" is not a distance")));
    for (const std::string& notice : plan.notices) {
        EXPECT_FALSE(hasControlCharacters(notice)) << notice;
    }
}

TEST_F(PageImport, KeepsWhereAReadingStoodWhenThePageIsTypedOn) {
    import({write("april.txt", april)});
    const Page page = all<Page>().front();
    std::vector<TypedLine> lines;
    for (const PageLine* line : linesOf(book_, page.id)) {
        lines.push_back({.id = line->id, .text = line->text});
    }
    lines[8].text = "30 7 wd";
    lines.push_back({.id = std::nullopt, .text = "A 31 6"});
    IdSource ids(nextId_);
    const auto update = updatePage(book_, page, lines, ids);
    ASSERT_TRUE(update.has_value());
    const Book after = applyEdits(book_, update->edits)->book;
    std::vector<int> sources;
    for (const Reading& reading : after.all<Reading>()) {
        sources.push_back(reading.source ? reading.source->line : 0);
    }
    EXPECT_THAT(sources, ElementsAre(8, 9, 0));
}

TEST_F(PageImport, GoesInByDateTogetherWithTables) {
    // The page of the 11th says the spacing of the sticks first although it is named last.
    const auto table = write(
        "r.csv",
        "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,bottom,note,"
        "stick_gap_ft\nP14,2025-04-12,1,49,true,30,wrap,,,,,12\n");
    const auto early = write("b.txt", "swim P14\ndate 2025-04-11\nsticks 13 ft\n28w 9ft gr\n");
    const auto late = write("a.txt", "swim P14\ndate 2025-04-13\n28w 9ft gr\n");
    const auto swims = write("s.csv", "swim,lat,lon,tip_height_m\nP14,52.2,-1.2,1.8\n");
    const ImportPlan plan = import({late, table, early, swims});
    EXPECT_EQ(plan.counts.swims, 1U);
    EXPECT_EQ(plan.counts.readings, 3U);
    const auto visits = all<Visit>();
    ASSERT_THAT(visits, SizeIs(3));
    EXPECT_LT(visits[0].date, visits[1].date);
    EXPECT_LT(visits[1].date, visits[2].date);
}

TEST_F(PageImport, ATableContinuesTheVisitOfAPage) {
    import({write("a.txt", "swim P14\ndate 2025-04-12\nsticks 13 ft\n28w 9ft gr\n")});
    const std::string header =
        "swim,date,cast,bearing,north,distance,distance_unit,depth,depth_unit,"
        "bottom,note,stick_gap_ft\n";
    const ImportPlan plan = import({write("r.csv", header + "P14,2025-04-12,,,,30,wrap,,,,,\n")});
    EXPECT_THAT(plan.assumed, ::testing::IsEmpty());
    EXPECT_THAT(all<Visit>(), SizeIs(1));
    EXPECT_THAT(
        refused({write("t.csv", header + "P14,2025-04-12,,,,30,wrap,,,,,12\n")}),
        ElementsAre(isBadAt(2, "stick_gap_ft")));
}

TEST_F(PageImport, KnowsAPageByItsFirstLineThatIsNotBlank) {
    EXPECT_THAT(failure({write("a.txt", "\n\nA 28 9 gr\nswim P14\n")}), HasSubstr("no known kind"));
    EXPECT_THAT(failure({write("b.txt", "swimming\n")}), HasSubstr("no known kind"));
    import({write("c.txt", "\n \n  Swim\tP14\ndate 2025-04-12\n28w 9ft\n")});
    EXPECT_EQ(all<Page>().size(), 1U);
    // A table that only has the ending of a text is still a table.
    import({write("d.txt", "swim,lat,lon,tip_height_m\nB,52.2,-1.2,1.8\n")});
    EXPECT_EQ(all<Page>().size(), 1U);
    EXPECT_EQ(all<Swim>().size(), 2U);
}

TEST_F(PageImport, TheSamePageTwiceIsRefused) {
    import({write("a.txt", april)});
    EXPECT_THAT(failure({write("b.txt", april)}), HasSubstr("imported before, as a.txt"));
}

} // namespace

} // namespace bedlore::testing
