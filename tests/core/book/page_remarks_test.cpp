// SPDX-License-Identifier: MIT
#include "core/book/page_header.hpp"
#include "core/book/page_meaning.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <string>
#include <vector>

// What is asked about lines that may be a slip. The expected meanings are what the words say.

namespace bedlore {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::vector<std::string> heads{
    "swim P14", "date 2025-04-12", "sticks 12 ft", "distances wraps", "depths ft"};

/// A page with those heads above `body`.
struct Typed {
    std::vector<std::string> lines = heads;
    PageContext context;
    PageMeaning meaning;

    explicit Typed(const std::vector<std::string>& body, PageContext known = {})
        : context(std::move(known)) {
        lines.insert(lines.end(), body.begin(), body.end());
        read();
    }
    void read() { meaning = readPage(lines, context); }
    const LineMeaning& line(std::size_t i) const { return meaning.lines.at(heads.size() + i); }
    const ReadingDraft& reading(std::size_t i) const {
        return meaning.readings.at(line(i).draft.value());
    }
    /// What the line becomes when its first offer is taken.
    const LineMeaning& mended(std::size_t i) {
        lines[heads.size() + i] = line(i).offers.at(0).replacement;
        read();
        return line(i);
    }
};

TEST(PageRemarks, ABearingBeyondTheCompassIsTakenOnceRoundAndSaid) {
    // By hand: 400 - 360 = 40; -10 + 360 = 350; 720 - 2 * 360 = 0.
    Typed page({"aim A = 400 magnetic", "aim B = -10 true", "aim C = 720 grid"});
    EXPECT_EQ(page.line(0).kind, LineKind::Header);
    EXPECT_EQ(page.line(0).words, "aim A on 40 magnetic");
    EXPECT_THAT(page.line(0).remark, HasSubstr("400 is taken as 40."));
    EXPECT_THAT(page.line(1).remark, HasSubstr("-10 is taken as 350."));
    EXPECT_THAT(page.line(2).remark, HasSubstr("720 is taken as 0."));
    ASSERT_FALSE(page.line(0).offers.empty());
    EXPECT_EQ(page.line(0).offers[0].replacement, "aim A = 40 magnetic");
    EXPECT_EQ(page.mended(0).remark, "");
    EXPECT_EQ(page.mended(1).words, "aim B on 350 true");
    EXPECT_EQ(page.line(1).remark, "");
}

TEST(PageRemarks, ABearingOfTheCompassIsNotRemarkedOn) {
    const Typed page({"aim A = 0 true", "aim B = 360 magnetic", "aim C = 231.5° magnetic"});
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(page.line(i).remark, "") << i;
        EXPECT_THAT(page.line(i).offers, IsEmpty()) << i;
    }
}

TEST(PageRemarks, ALetterAmongSaidAimsThatIsNoneOfThemIsAskedAboutOnce) {
    Typed page(
        {"aim A = dead pine", "aim B = A + 10 deg right", "A 28 9", "Q 28 9", "27 8", "Q 26 8"});
    EXPECT_EQ(page.line(3).kind, LineKind::Reading) << "it counts all the same";
    EXPECT_EQ(
        page.line(3).remark,
        "Q is not among the aims said so far (A, B): another name for one of them, or a new one?");
    ASSERT_EQ(page.line(3).offers.size(), 3U);
    EXPECT_EQ(page.line(3).offers[1].replacement, "B 28 9");
    EXPECT_EQ(page.line(3).offers[2].words, "a new aim");
    EXPECT_EQ(page.line(3).offers[2].above, "aim Q");
    EXPECT_EQ(page.line(2).remark, "");
    EXPECT_EQ(page.line(4).remark, "");
    EXPECT_EQ(page.line(5).remark, "") << "asked once";
    EXPECT_EQ(page.mended(3).words, "28 wraps (112 yd), 9 ft");
    EXPECT_EQ(page.line(3).remark, "");
    EXPECT_NE(page.line(5).remark, "") << "now it is the first";
}

TEST(PageRemarks, ANewAimIsSaidByALineAboveItsFirstReading) {
    Typed page({"aim A = dead pine", "A 28 9", "Q 28 9", "27 8"});
    const LineOffer offer = page.line(2).offers.back();
    page.lines.insert(
        page.lines.begin() + static_cast<std::ptrdiff_t>(heads.size()) + 2, offer.above);
    page.read();
    EXPECT_EQ(page.line(2).kind, LineKind::Header);
    for (std::size_t i = 2; i < 5; ++i) {
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
    EXPECT_EQ(page.meaning.casts.at(page.reading(3).castIndex).aim, "Q");
    EXPECT_EQ(page.reading(4).castIndex, page.reading(3).castIndex);
}

TEST(PageRemarks, ADepthOfNothingIsAskedAbout) {
    Typed page(
        {"A 24 0 gr", "23 0' si", "22 0.5 gr", "21 0p gr", "20 0-2 gr", "19 0 gr !", "18 gr"});
    for (const std::size_t i : {0U, 1U}) {
        EXPECT_EQ(page.line(i).kind, LineKind::Reading) << "it counts all the same";
        EXPECT_THAT(page.line(i).remark, HasSubstr("a depth of 0")) << i;
        ASSERT_EQ(page.line(i).offers.size(), 2U) << i;
    }
    EXPECT_EQ(page.line(0).offers[0].replacement, "A 24 0 gr !");
    EXPECT_EQ(page.line(0).offers[1].replacement, "A 24 gr");
    EXPECT_EQ(page.line(1).offers[1].replacement, "23 si");
    for (std::size_t i = 2; i < 7; ++i) {
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
    EXPECT_EQ(page.mended(0).remark, "") << "he is sure";
    ASSERT_TRUE(page.reading(0).reading.depth.has_value());
    EXPECT_EQ(page.reading(0).reading.depth->value.number, 0.0);
}

TEST(PageRemarks, ADepthThatNoReservoirHasIsAskedAbout) {
    // The page's bare depths are feet. Deep reservoirs have 30 to 60 ft (common practice).
    Typed page(
        {"A 24 99 si", "23 120 gr", "22 60 si", "21 20 m", "20 70 !", "19 61.5", "18 150p gr"});
    for (const std::size_t i : {0U, 1U, 3U, 5U}) {
        EXPECT_EQ(page.line(i).kind, LineKind::Reading) << "it counts all the same";
        EXPECT_THAT(page.line(i).remark, HasSubstr("more than deep reservoirs have")) << i;
    }
    EXPECT_THAT(page.line(0).remark, HasSubstr("a depth of 99 ft is more"));
    for (const std::size_t i : {2U, 4U, 6U}) {
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
    ASSERT_EQ(page.line(0).offers.size(), 2U);
    EXPECT_EQ(page.line(0).offers[0].replacement, "A 24 99 si !");
    EXPECT_EQ(page.line(0).offers[1].replacement, "A 24 9.9 si");
    ASSERT_EQ(page.line(1).offers.size(), 2U);
    EXPECT_EQ(page.line(1).offers[1].replacement, "23 12.0 gr");
    EXPECT_EQ(page.line(5).offers.size(), 1U) << "it has a point already";
    EXPECT_EQ(Typed({"A 99y 99 si"}).line(0).offers[1].replacement, "A 99y 9.9 si");
    EXPECT_EQ(
        Typed({"distances yards", "A 99 99 si"}).line(1).offers[1].replacement, "A 99 9.9 si");
    EXPECT_EQ(page.mended(0).remark, "") << "he is sure";
}

TEST(PageRemarks, LettersWithoutAnyAimSaidAreTheFirstDay) {
    const Typed page({"A 28 9", "B 28 9", "Q 28 9"});
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
}

TEST(PageRemarks, AnAimIsSaidByItsLineAloneAndByAnotherThatHangsOnIt) {
    const Typed page(
        {"aim B = A + 10 deg right", "A 28 9", "B 28 9", "Q 28 9", "aim Q", "aim D = left of Q"});
    for (std::size_t i = 1; i < 4; ++i) {
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
}

TEST(PageRemarks, AimsOfAnotherVisitToTheSwimAreSaidToo) {
    PageContext context;
    context.aims = {{.swim = "p14", .label = "A"}, {.swim = "the Gap", .label = "Q"}};
    const Typed page({"A 28 9", "+Q 28 9"}, context);
    EXPECT_EQ(page.line(0).remark, "");
    EXPECT_THAT(page.line(1).remark, HasSubstr("(A)"));
    ASSERT_EQ(page.line(1).offers.size(), 2U);
    EXPECT_EQ(page.line(1).offers[0].replacement, "+A 28 9");
    context.aims = {{.swim = "the Gap", .label = "A"}};
    EXPECT_EQ(Typed({"Q 28 9"}, context).line(0).remark, "") << "another swim's aims";
}

TEST(PageRemarks, ALetterStuckToItsDistanceIsReadAsIfABlankWereThere) {
    Typed page({"A30 9 gr", "29 8", "B28½ 9'", "c26 10 si"});
    EXPECT_EQ(page.line(0).kind, LineKind::Reading);
    EXPECT_EQ(page.line(0).words, "30 wraps (120 yd), 9 ft, gravel");
    EXPECT_EQ(page.line(0).remark, "taken as aim A and 30: put a blank between them.");
    EXPECT_EQ(page.meaning.casts.at(page.reading(0).castIndex).aim, "A");
    EXPECT_EQ(page.reading(1).castIndex, page.reading(0).castIndex) << "the same cast goes on";
    EXPECT_EQ(page.meaning.casts.at(page.reading(2).castIndex).aim, "B");
    EXPECT_DOUBLE_EQ(page.reading(2).reading.from.number, 28.5);
    EXPECT_EQ(page.meaning.casts.at(page.reading(3).castIndex).aim, "C");
    EXPECT_EQ(page.line(0).offers.at(0).replacement, "A 30 9 gr");
    EXPECT_EQ(page.mended(0).remark, "");
    EXPECT_EQ(page.line(0).words, "30 wraps (120 yd), 9 ft, gravel");
}

TEST(PageRemarks, ALetterAndANumberInProseStayANote) {
    const Typed page(
        {"P14 9 gr", "M25 noisy all night", "B52 flew over", "P30", "R26 10", "x12 9", "A30 wind"});
    for (std::size_t i = 0; i < 7; ++i) {
        EXPECT_EQ(page.line(i).kind, LineKind::Note) << page.lines[heads.size() + i];
        EXPECT_EQ(page.line(i).remark, "") << i;
    }
}

TEST(PageRemarks, AHeaderWithOneSlipInItsWordIsAskedAbout) {
    const std::vector<std::pair<std::string, std::string>> slips{
        {"distnces wraps", "distances wraps"},
        {"distance yd", "distances yd"},
        {"dpeths ft", "depths ft"},
        {"leve 2 steps", "level 2 steps"},
        {"levle: 0.35 m", "level: 0.35 m"},
        {"stick 12 ft", "sticks 12 ft"},
        {"flaot pulls 12 in + 12 in", "float pulls 12 in + 12 in"},
        {"daet 2025-04-12", "date 2025-04-12"},
        {"bearing phone", "bearings phone"},
        {"amm A = dead pine", "aim A = dead pine"}};
    for (const auto& [typed, meant] : slips) {
        SCOPED_TRACE(typed);
        Typed page({typed});
        EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
        EXPECT_THAT(page.line(0).unclear, HasSubstr("did you mean"));
        ASSERT_EQ(page.line(0).offers.size(), 2U);
        EXPECT_EQ(page.line(0).offers[0].replacement, meant);
        EXPECT_EQ(page.line(0).offers[1].replacement, "note " + typed);
        EXPECT_EQ(page.mended(0).kind, LineKind::Header);
    }
}

TEST(PageRemarks, AnAimWithoutItsSignIsAskedAbout) {
    Typed page({"aim A 210 magnetic"});
    EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
    EXPECT_THAT(page.line(0).unclear, HasSubstr("\"=\""));
    ASSERT_EQ(page.line(0).offers.size(), 2U);
    EXPECT_EQ(page.line(0).offers[0].replacement, "aim A = 210 magnetic");
    EXPECT_EQ(page.line(0).offers[1].replacement, "note aim A 210 magnetic");
    EXPECT_EQ(page.mended(0).kind, LineKind::Header);
}

TEST(PageRemarks, ADepthBelowZeroIsAskedAbout) {
    Typed page({"23 -3 gr", "A 23½ -20 si glide"});
    ASSERT_EQ(page.line(0).kind, LineKind::Unclear);
    ASSERT_EQ(page.line(0).offers.size(), 3U);
    EXPECT_EQ(page.line(0).offers[0].replacement, "23 3 gr");
    EXPECT_EQ(page.line(0).offers[1].replacement, "23-3 gr");
    EXPECT_EQ(page.line(0).offers[2].replacement, "note 23 -3 gr");
    EXPECT_EQ(page.mended(0).kind, LineKind::Reading);
    ASSERT_EQ(page.line(1).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(1).offers[1].replacement, "A 23½-20 si glide");
}

TEST(PageRemarks, AWordThatIsNoneOfTheBedsIsAskedAbout) {
    // Typed, and what its first offer makes of it.
    const std::vector<std::pair<std::string, std::string>> slips{
        {"27 krud 4", "27 4 thud"},
        {"27 gravle 4", "27 4 gravel"},
        {"27 sitl 9 tap", "27 9 silt tap"},
        {"27 weeed 4 !", "27 4 weed !"},
        {"27 grvl 9'", "27 9' gravel"},
        {"27-25 silty 9", "27-25 9 silt"},
        {"28½ sandd 11'6", "28½ 11'6 sand"},
        {"27 gravle", "27 gravel"},
        {"27 gv 9", "27 9 gravel"},
        {"A 27 cley 4", "A 27 4 clay"},
        {"27 fluff 4", "27 4, fluff"},
        {"27 gravle thud", "27 gravel thud"},
        {"95t krud 8-10", "95t 8-10 thud"}};
    for (const auto& [typed, meant] : slips) {
        SCOPED_TRACE(typed);
        Typed page({typed});
        EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
        EXPECT_THAT(page.line(0).unclear, HasSubstr("is not a word of the book"));
        ASSERT_GE(page.line(0).offers.size(), 2U);
        EXPECT_EQ(page.line(0).offers.front().replacement, meant);
        EXPECT_EQ(page.line(0).offers.back().replacement, "note " + typed);
        if (typed != "95t krud 8-10") { // turns need a reel
            EXPECT_EQ(page.mended(0).kind, LineKind::Reading) << page.line(0).unclear;
        }
    }
    Typed page({"27 krud 4"});
    // By hand: two letters make thud of krud (t for k, h for r), two make mud (no k, m for r).
    ASSERT_EQ(page.line(0).offers.size(), 4U);
    EXPECT_EQ(page.line(0).offers[1].replacement, "27 4 mud");
    EXPECT_EQ(page.line(0).offers[2].replacement, "27 4, krud");
    page.lines.back() = "27 4, krud";
    page.read();
    EXPECT_EQ(page.reading(0).reading.depth->value.number, 4.0);
    EXPECT_EQ(page.reading(0).reading.note, "krud");
}

TEST(PageRemarks, ASlipBehindAnAimThatIsKnownIsAskedAboutToo) {
    const Typed page({"A 28 9 gr", "A 27 krud 4", "A 26 krud by the reeds"});
    EXPECT_EQ(page.line(1).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(1).offers.front().replacement, "A 27 4 thud");
    EXPECT_EQ(page.line(2).kind, LineKind::Reading);
}

TEST(PageRemarks, NumbersAndWordsOfEverydayNotesStayNotes) {
    for (const char* line :
         {"saw 2 carp roll at 27",
          "27 fish by June",
          "2 carp 27",
          "12 bream 4",
          "1 mirror 22",
          "9 till 5",
          "21.30 take 22",
          "10 c 1015",
          "27 the 4",
          "12 hours clear",
          "30 casts 4 fish",
          "27 reeds",
          "27 shelf",
          "27 ledge",
          "27 plateau",
          "27 gully",
          "27 hump",
          "5 boats out all day",
          "27 shows of 4 or more",
          "11 st 4"}) {
        const Typed page({line});
        EXPECT_EQ(page.line(0).kind, LineKind::Note) << line << ": " << page.line(0).unclear;
        EXPECT_THAT(page.line(0).offers, IsEmpty()) << line;
    }
}

TEST(PageRemarks, ADateWithoutItsWordIsAskedAbout) {
    const std::vector<std::pair<std::string, std::string>> slips{
        {"2026-10-10", "date 2026-10-10"},
        {"10 October 2026", "date 10 October 2026"},
        {"Sat 10 Oct 2026", "date Sat 10 Oct 2026"},
        {"10/10/2026", "date 10 October 2026"},
        {"13.10.26", "date 13 October 2026"}};
    for (const auto& [typed, meant] : slips) {
        SCOPED_TRACE(typed);
        Typed page({typed});
        EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
        EXPECT_THAT(page.line(0).unclear, HasSubstr("the day of the page"));
        ASSERT_EQ(page.line(0).offers.size(), 2U);
        EXPECT_EQ(page.line(0).offers[0].replacement, meant);
        EXPECT_EQ(page.line(0).offers[1].replacement, "note " + typed);
        EXPECT_EQ(page.mended(0).kind, LineKind::Header);
    }
}

TEST(PageRemarks, ADateHeaderWithoutADateIsAskedAbout) {
    for (const char* line :
         {"date the Gap", "date: the Gap", "date unknown", "date June", "Date Oct 10"}) {
        const Typed page({line});
        EXPECT_EQ(page.line(0).kind, LineKind::Unclear) << line;
        EXPECT_THAT(page.line(0).unclear, HasSubstr("which day?")) << line;
        ASSERT_EQ(page.line(0).offers.size(), 1U) << line;
        EXPECT_EQ(page.line(0).offers[0].replacement, std::string("note ") + line);
    }
    Typed monthFirst({"date October 10 2026"});
    EXPECT_EQ(monthFirst.line(0).offers.at(0).replacement, "date 10 October 2026");
    EXPECT_EQ(monthFirst.mended(0).kind, LineKind::Header);
    const std::vector<std::string> lines{"date the Gap", "2026-10-10"};
    const PageMeaning bare = readPage(lines, {});
    ASSERT_EQ(bare.lines.at(0).offers.size(), 2U);
    EXPECT_EQ(bare.lines.at(0).offers[0].replacement, "swim the Gap") << "the page names no swim";
}

TEST(PageRemarks, ProseAboutDaysStaysANote) {
    for (const char* line :
         {"dates from the old map",
          "Saturday",
          "Saturday was better",
          "since 2026-10-10 nothing",
          "2026-10-10 was better",
          "12 April 2025, cold",
          "12 April",
          "April 2025",
          "10/10",
          "date with the bailiff about the keys",
          "date of the match changed",
          "date for the keys",
          "31.2.2026"}) {
        const Typed page({line});
        EXPECT_EQ(page.line(0).kind, LineKind::Note) << line << ": " << page.line(0).unclear;
    }
}

TEST(PageRemarks, WhatOnlyLooksLikeSuchASlipStaysANote) {
    const Typed page(
        {"aim A went well",
         "aim A 3 casts into the weed",
         "R1 19.10 -- good fish",
         "air -3 at dawn",
         "10 c -2 overnight, ice at the edge"});
    for (std::size_t i = 0; i < 5; ++i) {
        EXPECT_EQ(page.line(i).kind, LineKind::Note) << page.lines[heads.size() + i];
    }
}

TEST(PageRemarks, ALineWithoutAFirstWordIsNoHeader) {
    for (const char* line : {"", "  ", ":", ": 6 ft", ":)"}) {
        EXPECT_EQ(misspeltHeader(line), std::nullopt) << line;
    }
}

TEST(PageRemarks, ProseThatBeginsNearlyLikeAHeaderStaysANote) {
    const Typed page(
        {"swan moved in",
         "swam across 2 steps",
         "lever stuck",
         "depth varies",
         "feel big",
         "top 6 ft weedy",
         "top 6 ft",
         "lever 2 hands",
         "stick in the margin",
         "late 12 April 2025",
         "arm aches"});
    for (std::size_t i = 0; i < 11; ++i) {
        EXPECT_EQ(page.line(i).kind, LineKind::Note) << page.lines[heads.size() + i];
        EXPECT_EQ(page.line(i).unclear, "") << i;
    }
}

} // namespace
} // namespace bedlore
