// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

// One line at a time under the usual headers. The expected meanings are what the words say, by the
// trade's own use of them.

namespace bedlore {
namespace {

PageMeaning page(std::vector<std::string> body, PageContext context = {}) {
    context.reels.emplace_back("big");
    std::vector<std::string> lines{
        "swim P14",
        "date 2025-04-12",
        "sticks 12",
        "distances wraps",
        "depths ft",
        "float pulls 12 in + 12 in",
        "reel big"};
    lines.insert(lines.end(), body.begin(), body.end());
    PageMeaning meaning = readPage(lines, context);
    meaning.lines.erase(meaning.lines.begin(), meaning.lines.begin() + 7);
    return meaning;
}

LineMeaning meaningOf(const std::string& line, const PageContext& context = {}) {
    return page({line}, context).lines.at(0);
}

Reading readingOf(const std::string& line, const PageContext& context = {}) {
    const PageMeaning meaning = page({line}, context);
    EXPECT_EQ(meaning.lines.at(0).kind, LineKind::Reading)
        << line << ": " << meaning.lines.at(0).unclear;
    return meaning.readings.empty() ? Reading{} : meaning.readings.front().reading;
}

void expectKind(LineKind kind, const std::vector<std::string>& lines) {
    for (const std::string& line : lines) {
        const LineMeaning meaning = meaningOf(line);
        EXPECT_EQ(meaning.kind, kind) << line << ": " << meaning.words << meaning.unclear;
        EXPECT_EQ(meaning.unclear.empty(), kind != LineKind::Unclear) << line;
    }
}

TEST(PageLine, ProseIsANoteWhateverItsNumbers) {
    expectKind(
        LineKind::Note,
        {"2 o'c 100ish 4 shows 05.10",
         "20 x M ~5kg, +6",
         "R1 19.10 good",
         "R1 26 thud",
         "R3 20.05 2nd go donk",
         "04.15 R2 27.12 mir",
         "04.15 R2 27.12 mir  wafter  re-did 26¾, +6",
         "+6",
         "A 20lb mirror",
         "A 20 lb mirror off the spot",
         "A 3 carp showed",
         "A lovely morning",
         "I 2 pints",
         "6 free baits on the spot",
         "3 clean fish",
         "5 m of weed in front",
         "8 to 12 yd of it",
         "12/4 windy",
         "11c rising",
         "Sat 12/4  P14 (Point)  wl: 2 steps showing",
         "SW3, 11c rising, 1008 falling",
         "level up 2 since dawn",
         "date with a view",
         "float never came up 3 times",
         "depths are all about 9",
         "distances all over the place",
         "tip bounced 3 times",
         "sticks left at home",
         "swim next door had two fish",
         "swim was quiet",
         "reel is making an odd noise",
         "aim was off all day",
         "B"});
}

TEST(PageLine, ReadingsThatCannotBeUnderstoodAreUnclear) {
    expectKind(
        LineKind::Unclear,
        {"A 28% 9",
         "28% 9 gr",
         "B 110 12",
         "A 28 9 zz",
         "A 28 9 zz gr",
         "A 28 9 gr zz",
         "A 28 gr 9",
         "A 28 9 gr 26 10 si",
         "A 28 9 gravle",
         "A 30 600",
         "A 30 9w",
         "A 25-27 gr",
         "0 9 gr",
         "27 - 9 gr",
         "-6t soft",
         "28 9 hit something",
         "PINE = A 126",
         "PINE = A 26 / rods",
         "level 2",
         "date 12/4/2025",
         "float 12 in",
         "aim A = 231.5",
         "aim A = Z + 10 deg right",
         "aim A = A + 10 deg right",
         "aim A = dead pine + two fists right"});
}

TEST(PageLine, FractionsAndStretchesJoinAsTheyAreWritten) {
    EXPECT_EQ(readingOf("28 1/2 gr").from, (Entered{28.5, Unit::Wrap, "28 1/2"}));
    EXPECT_EQ(readingOf("28 ½ 9 ½ gr").depth->value.number, 9.5);
    const Reading toWhole = readingOf("28 1/2-27 si");
    EXPECT_EQ(toWhole.from.number, 28.5);
    EXPECT_EQ(toWhole.to->number, 27.0);
    const Reading toHalf = readingOf("27-25 1/2 si");
    EXPECT_EQ(toHalf.to->number, 25.5);
    EXPECT_FALSE(toHalf.depth.has_value());
    for (const char* line : {"27–25 si", "27- 25 si", "27 to 25 si", "27-25w si", "27w-25 si"}) {
        const Reading stretch = readingOf(line);
        EXPECT_EQ(stretch.from.number, 27.0) << line;
        ASSERT_TRUE(stretch.to.has_value()) << line;
        EXPECT_EQ(stretch.to->number, 25.0) << line;
        EXPECT_EQ(stretch.to->unit, Unit::Wrap) << line;
        EXPECT_EQ(stretch.substrate, Substrate::Silt) << line;
    }
    EXPECT_EQ(readingOf("95-80t si").from.unit, Unit::Turn);
}

TEST(PageLine, ALooseDashAsksWhichOfTwo) {
    const LineMeaning meaning = meaningOf("A 28 - 9 gr");
    ASSERT_EQ(meaning.offers.size(), 2U);
    EXPECT_EQ(meaning.offers[0].replacement, "A 28-9 gr");
    EXPECT_EQ(meaning.offers[1].replacement, "A 28 9 gr");
}

TEST(PageLine, DepthsAreReadInEveryUnit) {
    EXPECT_EQ(readingOf("A 28 11' 6\" gr").depth->value.number, 11.5);
    EXPECT_EQ(readingOf("A 28 11 ft 6 in gr").depth->value.number, 11.5);
    EXPECT_EQ(readingOf("A 28 11′6″ gr").depth->value.number, 11.5);
    EXPECT_EQ(readingOf("A 28 gr 9'").depth->value.number, 9.0);
    EXPECT_EQ(readingOf("A 28 9 in weed").depth->value, (Entered{9.0, Unit::Foot, "9"}));
    EXPECT_EQ(readingOf("A 28 8-10p").depth->value.unit, Unit::Pull);
    EXPECT_EQ(readingOf("A 28 8-10p").depth->method, DepthMethod::FloatPulls);
    const DepthEntry turned = *readingOf("A 28 10-8").depth;
    EXPECT_EQ(turned.value.number, 8.0);
    EXPECT_EQ(turned.to->number, 10.0) << "the deeper end";
    EXPECT_EQ(readingOf("90' 9").from, (Entered{90.0, Unit::Foot, "90'"}));
}

TEST(PageLine, DoubtMayStandBehindAnyWord) {
    EXPECT_EQ(readingOf("A 28? 9 gr").sureness, 1);
    EXPECT_EQ(readingOf("A 28 9? gr").sureness, 1);
    EXPECT_EQ(readingOf("A 28 9 gr !").sureness, 3);
    EXPECT_EQ(readingOf("A 28 9 gr").sureness, 2);
    EXPECT_EQ(readingOf("A 28 9 gr x3").agreeing, 3);
    EXPECT_EQ(readingOf("A 28 9 gr ×3").agreeing, 3);
}

TEST(PageLine, HardAndSoftAreTheBottomAndTheirDropsAreNamed) {
    EXPECT_EQ(readingOf("A 28 soft").substrate, Substrate::Soft);
    EXPECT_FALSE(readingOf("A 28 soft").drop.has_value());
    EXPECT_EQ(readingOf("A 28 hard").substrate, Substrate::Hard);
    EXPECT_EQ(readingOf("A 28 soft drop").drop, Drop::Soft);
    EXPECT_FALSE(readingOf("A 28 soft drop").substrate.has_value());
    EXPECT_EQ(readingOf("A 28 D").drop, Drop::Hard);
    EXPECT_EQ(readingOf("A 28 d").drop, Drop::Soft);
    EXPECT_EQ(readingOf("A 28 D donk").drop, Drop::Donk) << "a donk is a hard drop";
    EXPECT_EQ(readingOf("A 28 donk D").drop, Drop::Donk);
    EXPECT_EQ(readingOf("A 28 none plug").drop, Drop::Nothing);
}

TEST(PageLine, EveryWordOfTheVocabularyIsUnderstood) {
    const auto check = [](const auto& terms, auto field) {
        for (const auto& term : terms) {
            const bool isDrop = term.code.size() == 1;
            if (!term.code.empty()) {
                EXPECT_EQ(field(readingOf("A 28 9 " + std::string(term.code))), term.kind);
            }
            const std::string drop = isDrop ? " drop" : "";
            EXPECT_EQ(field(readingOf("A 28 9 " + std::string(term.word) + drop)), term.kind)
                << term.word;
        }
    };
    check(substrateTerms(), [](const Reading& r) { return r.substrate.value(); });
    check(coverTerms(), [](const Reading& r) { return r.cover.value(); });
    check(dropTerms(), [](const Reading& r) { return r.drop.value(); });
    check(pullTerms(), [](const Reading& r) { return r.pull.value(); });
    check(outcomeTerms(), [](const Reading& r) { return r.outcome.value(); });
    for (const auto& term : onLeadTerms()) {
        const bool alsoBottom = term.word == "clay";
        const Reading reading =
            readingOf("A 28 9 " + std::string(term.word) + (alsoBottom ? " on lead" : ""));
        EXPECT_EQ(reading.onLead, std::vector{term.kind}) << term.word;
    }
    EXPECT_EQ(readingOf("A 28 9 GR").substrate, Substrate::Gravel) << "letter case";
    EXPECT_EQ(readingOf("A 28 9 leaf litter").cover, Cover::Leaves);
}

TEST(PageLine, HardOrSoftBesideABottomIsHowTheLeadDropped) {
    for (const char* line : {"A 28 9 si soft", "A 28 9 soft si", "A 28 9 d soft si"}) {
        const Reading silt = readingOf(line);
        EXPECT_EQ(silt.substrate, Substrate::Silt) << line;
        EXPECT_FALSE(silt.otherSubstrate.has_value()) << line;
        EXPECT_EQ(silt.drop, Drop::Soft) << line;
        EXPECT_EQ(silt.note, "") << line;
    }
    EXPECT_EQ(readingOf("A 28 9 gr hard donk").drop, Drop::Donk);
    const Reading edge = readingOf("A 28 9 hard soft");
    EXPECT_EQ(edge.substrate, Substrate::Hard);
    EXPECT_EQ(edge.otherSubstrate, Substrate::Soft) << "an edge between the two";
    // The drop was hard: what else is soft is kept beside it.
    const Reading both = readingOf("A 28 9 D soft gr");
    EXPECT_EQ(both.drop, Drop::Hard);
    EXPECT_EQ(both.substrate, Substrate::Soft);
    EXPECT_EQ(both.otherSubstrate, Substrate::Gravel);
}

TEST(PageLine, WhatTheReadingHasNoRoomForIsKeptInItsNote) {
    const Reading two = readingOf("A 28 9 gr/si cl tap judder edge of it");
    EXPECT_EQ(two.substrate, Substrate::Gravel);
    EXPECT_EQ(two.otherSubstrate, Substrate::Silt);
    EXPECT_EQ(two.pull, Pull::Tap);
    EXPECT_EQ(two.note, "cl, judder, edge of it");
    EXPECT_EQ(readingOf("A 28 9 soft drop thud").note, "thud");
    EXPECT_EQ(readingOf("A 28 9, hit something").note, "hit something");
    EXPECT_EQ(readingOf("A 28 9 no weed at all").note, "no weed at all");
    EXPECT_FALSE(readingOf("A 28 9 no weed at all").cover.has_value());
    const Reading linked = readingOf("A 28 9 gr and si, with tap; clean");
    EXPECT_EQ(linked.otherSubstrate, Substrate::Silt);
    EXPECT_EQ(linked.pull, Pull::Tap);
    EXPECT_EQ(linked.note, "");
}

TEST(PageLine, OutcomesNeedNoDepth) {
    EXPECT_EQ(readingOf("24 -- lost lead").outcome, Outcome::LeadLost);
    EXPECT_EQ(readingOf("24 — lost lead").outcome, Outcome::LeadLost);
    EXPECT_EQ(readingOf("24 -- bounced off a branch").note, "bounced off a branch");
    EXPECT_EQ(readingOf("26 nf").outcome, Outcome::FloatNeverShowed);
    EXPECT_EQ(readingOf("26 weed too thick").outcome, Outcome::WeedTooThick);
}

TEST(PageLine, LabelsAreCapitalsOrDefinedOrBeyondDoubt) {
    const auto aim = [](const std::string& line) {
        const PageMeaning meaning = page({"aim pine = dead pine", line});
        return meaning.casts.empty() ? std::string("no cast") : meaning.casts[0].aim;
    };
    EXPECT_EQ(aim("A 28 9 gr"), "A");
    EXPECT_EQ(aim("A: 28 9 gr"), "A");
    EXPECT_EQ(aim("a 28 9 gr"), "A") << "typed without the shift key";
    EXPECT_EQ(aim("C2 28 9 gr"), "C2");
    EXPECT_EQ(aim("R2 28 9 gr"), "no cast") << "a rod";
    EXPECT_EQ(aim("pine 28 9 gr"), "pine");
    EXPECT_EQ(aim("oak 28 9 gr"), "no cast");
    EXPECT_EQ(aim("28 9 gr"), "");
}

TEST(PageLine, BeyondAnyCastOffersTheUnitsInWhichItIsNot) {
    const LineMeaning meaning = meaningOf("B 110 12 gr");
    ASSERT_EQ(meaning.offers.size(), 3U);
    EXPECT_EQ(meaning.offers[0].replacement, "B 110y 12 gr");
    EXPECT_EQ(meaning.offers[1].replacement, "B 110m 12 gr");
    EXPECT_EQ(meaning.offers[2].replacement, "B 110 ft 12 gr");
    for (const LineOffer& offer : meaning.offers) {
        EXPECT_EQ(meaningOf(offer.replacement).kind, LineKind::Reading) << offer.replacement;
    }
    EXPECT_TRUE(meaningOf("110  1/2 12").kind == LineKind::Unclear) << "two blanks in the number";
}

TEST(PageLine, EveryOfferLeadsToALineThatIsClear) {
    for (const char* line :
         {"A 28 9 gv",
          "A 28 9 s",
          "A 28 9 gravle",
          "28 9 hit something",
          "A 28 gr 9",
          "27 - 9 gr",
          "A 28 11.6",
          "level 2",
          "date 12/4/2025",
          "aim A = 231.5",
          "sticks 3",
          "B 110 12"}) {
        const LineMeaning meaning = meaningOf(line);
        ASSERT_EQ(meaning.kind, LineKind::Unclear) << line;
        ASSERT_FALSE(meaning.offers.empty()) << line;
        for (const LineOffer& offer : meaning.offers) {
            PageContext context;
            if (offer.answer) {
                context.answers.push_back(*offer.answer);
            }
            const std::string then = offer.replacement.empty() ? line : offer.replacement;
            EXPECT_NE(meaningOf(then, context).kind, LineKind::Unclear)
                << line << " -> " << offer.words << " " << then;
        }
    }
}

TEST(PageLine, ACodeThatMayBeTwoWordsIsAskedAboutOnce) {
    const LineMeaning meaning = meaningOf("A 28 9 s?");
    ASSERT_GE(meaning.offers.size(), 3U);
    EXPECT_EQ(meaning.offers[0].words, "sand?");
    EXPECT_EQ(meaning.offers[1].words, "silt?");
    PageContext context;
    context.answers.push_back(meaning.offers[1].answer.value());
    const Reading reading = readingOf("A 28 9 s?", context);
    EXPECT_EQ(reading.substrate, Substrate::Silt);
    EXPECT_EQ(reading.sureness, 1);
    context.answers.back().answer = "note";
    EXPECT_EQ(readingOf("A 28 9 s", context).note, "s");
}

TEST(PageLine, HisOwnWordsComeBeforeTheBooksOwn) {
    PageContext context;
    context.words.push_back({.id = {}, .text = "si", .meaning = "sand"});
    context.words.push_back({.id = {}, .text = "gv", .meaning = "gr tap"});
    EXPECT_EQ(readingOf("A 28 9 si", context).substrate, Substrate::Sand);
    EXPECT_EQ(readingOf("A 28 9 gv?", context).substrate, Substrate::Gravel);
    EXPECT_EQ(readingOf("A 28 9 GV,", context).pull, Pull::Tap);
}

TEST(PageLine, ABareNumberIsAskedAboutForEachVisitByItself) {
    const std::vector<std::string> april{"swim P14", "date 2025-04-12", "A 28 9'"};
    const PageMeaning asked = readPage(april, {});
    ASSERT_EQ(asked.lines[2].offers.size(), 4U);
    PageContext context;
    context.answers.push_back(asked.lines[2].offers[1].answer.value()); // yards
    EXPECT_EQ(readPage(april, context).readings.at(0).reading.from.unit, Unit::Yard);
    const std::vector<std::string> may{"swim P14", "date 2025-05-03", "A 28 9'"};
    EXPECT_EQ(readPage(may, context).lines[2].kind, LineKind::Unclear);
}

TEST(PageLine, NothingIsCountedFromAPlaceThatIsNotClear) {
    const PageMeaning meaning =
        page({"A 95t 9", "90% 8 gr", "-6t soft", "80t 7", "-6t soft", "-100t soft"});
    EXPECT_EQ(meaning.lines[1].kind, LineKind::Unclear);
    EXPECT_EQ(meaning.lines[2].kind, LineKind::Unclear) << "six turns from where?";
    EXPECT_EQ(meaning.lines[4].kind, LineKind::Reading);
    EXPECT_EQ(meaning.lines[5].kind, LineKind::Unclear) << "more than was out";
}

TEST(PageLine, AnotherReelIsAnotherCast) {
    PageContext context;
    context.reels = {"big", "old"};
    const std::vector<std::string> lines{
        "depths ft", "reel big", "A 95t 9", "90t 8", "reel old", "80t 7"};
    const PageMeaning meaning = readPage(lines, context);
    ASSERT_EQ(meaning.casts.size(), 2U);
    EXPECT_EQ(meaning.casts[0].reel, "big");
    EXPECT_EQ(meaning.casts[1].reel, "old");
}

TEST(PageLine, SaysInWordsWhatItWasTakenToMean) {
    // Source: by hand, 32 wraps of 12 ft are 128 yd; 9 pulls of 12 in and 12 in are 10 ft.
    EXPECT_EQ(meaningOf("A 32 6'").words, "32 wraps (128 yd), 6 ft");
    EXPECT_EQ(
        meaningOf("27 9p D gr?").words,
        "27 wraps (108 yd), 9 pulls = 10 ft, gravel, hard drop, doubtful");
    EXPECT_EQ(
        meaningOf("27-25 si glide none").words,
        "27 to 25 wraps, silt, nothing felt on the drop, glide");
    EXPECT_EQ(meaningOf("+6").words, "note");
}

TEST(PageLine, SpotsMayCarryANoteAndFractions) {
    const PageMeaning meaning =
        page({"spot \"Pine\" = A 26 3/4 hard drop, weed behind / rods 26 3/4, spod 26"});
    ASSERT_EQ(meaning.spots.size(), 1U);
    const SpotDraft& spot = meaning.spots[0];
    EXPECT_EQ(spot.name, "Pine");
    EXPECT_EQ(spot.lineOut.number, 26.75);
    EXPECT_EQ(spot.note, "hard drop, weed behind");
    ASSERT_EQ(spot.lengths.size(), 2U);
    EXPECT_EQ(spot.lengths[0].rod, "rods");
    EXPECT_EQ(spot.lengths[0].length.number, 26.75);
    EXPECT_EQ(spot.lengths[1].length.number, 26.0);
}

TEST(PageLine, AimsMayBeSaidInSeveralWays) {
    const auto basis = [](const std::string& line) {
        return page({"aim A = dead pine", line}).sections.at(0).aims.back().basis;
    };
    const auto fromA = [&](const std::string& line, double number, Unit unit) {
        const auto found = std::get<AimDraft::FromAim>(basis(line));
        EXPECT_EQ(found.other, "A") << line;
        EXPECT_EQ(found.offset.number, number) << line;
        EXPECT_EQ(found.offset.unit, unit) << line;
    };
    fromA("aim B = A + 10 deg right", 10.0, Unit::Degree);
    fromA("aim B = A + 10° left", -10.0, Unit::Degree);
    fromA("aim B = A 1 fist right", 1.0, Unit::Fist);
    fromA("aim B = A, 2 fingers left", -2.0, Unit::Finger);
    fromA("aim B = 2 fingers right of A", 2.0, Unit::Finger);
    const auto mark = std::get<AimDraft::AtMark>(basis("aim B = dead pine, 1 fist left"));
    EXPECT_EQ(mark.mark, "dead pine");
    EXPECT_EQ(mark.offset->number, -1.0);
    const auto grid = std::get<AimDraft::AtBearing>(basis("aim B = 231.5 grid"));
    EXPECT_EQ(grid.bearing.north, North::Grid);
    EXPECT_EQ(std::get<AimDraft::AtClock>(basis("aim B = 1 o’clock")).hour.number, 1.0);
}

TEST(PageLine, AimsThatLeadInARingHaveNoAngle) {
    const PageMeaning meaning = page({"aim A = B + 10 deg right", "aim B = A + 10 deg left"});
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(meaning.lines[i].kind, LineKind::Unclear);
        EXPECT_TRUE(
            std::holds_alternative<AimDraft::WithoutAngle>(meaning.sections.at(0).aims[i].basis));
    }
}

} // namespace
} // namespace bedlore
