// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

// The expected meanings below are what the words say, by the trade's own use of them.

namespace bedlore {
namespace {

const std::vector<std::string> heads{
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "float pulls 12 in + 12 in",
    "reel big",
};

PageContext withReel() {
    PageContext context;
    context.reels = {"big"};
    return context;
}

struct Page_ {
    std::vector<std::string> lines = heads;
    PageContext context = withReel();
    PageMeaning meaning;

    explicit Page_(const std::vector<std::string>& body) {
        lines.insert(lines.end(), body.begin(), body.end());
        meaning = readPage(lines, context);
    }
    const LineMeaning& line(std::size_t i) const { return meaning.lines.at(heads.size() + i); }
    const Reading& reading(std::size_t i) const {
        EXPECT_EQ(line(i).kind, LineKind::Reading)
            << lines[heads.size() + i] << ": " << line(i).unclear;
        return meaning.readings.at(line(i).draft.value()).reading;
    }
    std::size_t cast(std::size_t i) const {
        return meaning.readings.at(line(i).draft.value()).castIndex;
    }
    const std::string& aim(std::size_t i) const { return meaning.casts.at(cast(i)).aim; }
};

TEST(ReadPage, UnderstandsAPageLineByLine) {
    const Page_ page({
        "A 32 6'",
        "30 7½ wd",
        "28½ 9' gr tap",
        "27 9p D",
        "27-25 si glide",
        "28 1/2 gr",
        "27,5 9,5 cl",
        "95t 11'6 gr?",
        "-6t soft",
        "B 110 12",
        "24 -- lost lead",
        "26 nf",
        "2 o'c 100ish 4 shows 05.10",
        "20 x M ~5kg, +6",
    });
    EXPECT_EQ(page.reading(0).from, (Entered{32.0, Unit::Wrap, "32"}));
    EXPECT_EQ(page.reading(0).depth->value, (Entered{6.0, Unit::Foot, "6'"}));
    EXPECT_FALSE(page.reading(0).substrate.has_value());
    EXPECT_EQ(page.aim(0), "A");

    EXPECT_EQ(page.cast(1), page.cast(0));
    EXPECT_EQ(page.reading(1).depth->value.number, 7.5);
    EXPECT_EQ(page.reading(1).cover, Cover::Weed);

    EXPECT_EQ(page.reading(2).from.number, 28.5);
    EXPECT_EQ(page.reading(2).substrate, Substrate::Gravel);
    EXPECT_EQ(page.reading(2).pull, Pull::Tap);

    EXPECT_EQ(page.reading(3).depth->value, (Entered{9.0, Unit::Pull, "9p"}));
    EXPECT_EQ(page.reading(3).depth->method, DepthMethod::FloatPulls);
    EXPECT_EQ(page.reading(3).drop, Drop::Hard);

    EXPECT_EQ(page.reading(4).from.number, 27.0);
    EXPECT_EQ(page.reading(4).to->number, 25.0);
    EXPECT_EQ(page.reading(4).substrate, Substrate::Silt);
    EXPECT_EQ(page.reading(4).pull, Pull::Glide);
    EXPECT_FALSE(page.reading(4).depth.has_value());
    EXPECT_EQ(page.cast(4), page.cast(0)) << "a stretch begins where the last reading was";

    EXPECT_EQ(page.reading(5).from, (Entered{28.5, Unit::Wrap, "28 1/2"}));
    EXPECT_FALSE(page.reading(5).depth.has_value());
    EXPECT_NE(page.cast(5), page.cast(4)) << "farther than the line above";

    EXPECT_EQ(page.reading(6).from.number, 27.5);
    EXPECT_EQ(page.reading(6).depth->value.number, 9.5);
    EXPECT_EQ(page.reading(6).substrate, Substrate::Clay);

    EXPECT_EQ(page.reading(7).from, (Entered{95.0, Unit::Turn, "95t"}));
    EXPECT_EQ(page.reading(7).depth->value, (Entered{11.5, Unit::Foot, "11'6"}));
    EXPECT_EQ(page.reading(7).sureness, 1);

    EXPECT_EQ(page.reading(8).mode, DistanceMode::NearerThanLast);
    EXPECT_EQ(page.reading(8).from.number, 6.0);
    EXPECT_EQ(page.reading(8).substrate, Substrate::Soft);
    EXPECT_EQ(page.cast(8), page.cast(7));

    EXPECT_EQ(page.line(9).kind, LineKind::Unclear);
    ASSERT_FALSE(page.line(9).offers.empty());
    EXPECT_EQ(page.line(9).offers[0].words, "yards?");
    EXPECT_EQ(page.line(9).offers[0].replacement, "B 110y 12");

    EXPECT_EQ(page.reading(10).outcome, Outcome::LeadLost);
    EXPECT_FALSE(page.reading(10).depth.has_value());
    EXPECT_EQ(page.aim(10), "B") << "the unclear line had turned to aim B";
    EXPECT_EQ(page.reading(11).outcome, Outcome::FloatNeverShowed);
    EXPECT_EQ(page.line(12).kind, LineKind::Note);
    EXPECT_EQ(page.line(13).kind, LineKind::Note);
    for (const LineMeaning& line : page.meaning.lines) {
        EXPECT_EQ(line.unclear.empty(), line.kind != LineKind::Unclear);
    }
}

TEST(ReadPage, OfferedLineIsUnderstood) {
    const Page_ page({"B 110y 12"});
    EXPECT_EQ(page.reading(0).from, (Entered{110.0, Unit::Yard, "110y"}));
}

TEST(ReadPage, UnderstandsTheOtherForms) {
    const Page_ page({
        "62y 3.4m sa !",
        "A 28½ 9 gr x3",
        "27 8-10",
        "~25 ~9",
        "PINE = A 26¾ / rods 26¾ spod 26",
        "A 27 9½ GR/SI",
        "A 26 hard drop leaf litter",
        "20 d",
    });
    EXPECT_EQ(page.reading(0).from, (Entered{62.0, Unit::Yard, "62y"}));
    EXPECT_EQ(page.reading(0).depth->value, (Entered{3.4, Unit::Metre, "3.4m"}));
    EXPECT_EQ(page.reading(0).sureness, 3);
    EXPECT_EQ(page.reading(1).agreeing, 3);
    EXPECT_EQ(page.reading(2).depth->value.number, 8.0);
    EXPECT_EQ(page.reading(2).depth->to->number, 10.0);
    EXPECT_TRUE(page.reading(3).about);
    EXPECT_TRUE(page.reading(3).depth->about);
    EXPECT_EQ(page.reading(3).from.text, "~25");
    ASSERT_EQ(page.line(4).kind, LineKind::Spot);
    const SpotDraft& spot = page.meaning.spots.at(0);
    EXPECT_EQ(spot.name, "PINE");
    EXPECT_EQ(spot.lineOut.number, 26.75);
    ASSERT_EQ(spot.lengths.size(), 2U);
    EXPECT_EQ(spot.lengths[1].rod, "spod");
    EXPECT_EQ(spot.lengths[1].length.number, 26.0);
    EXPECT_EQ(page.reading(5).otherSubstrate, Substrate::Silt);
    EXPECT_EQ(page.reading(6).drop, Drop::Hard);
    EXPECT_EQ(page.reading(6).cover, Cover::Leaves);
    EXPECT_EQ(page.reading(7).drop, Drop::Soft);
}

TEST(ReadPage, BeginsACastByItsFourSigns) {
    const Page_ page({"A 30 6", "28 6", "", "26 6", "24 6", "+ 22 6", "B 20 6", "20 6", "18 6"});
    EXPECT_EQ(page.cast(0), page.cast(1));
    EXPECT_NE(page.cast(1), page.cast(3)) << "a blank line";
    EXPECT_EQ(page.cast(3), page.cast(4));
    EXPECT_NE(page.cast(4), page.cast(5)) << "a plus";
    EXPECT_NE(page.cast(5), page.cast(6)) << "another aim";
    EXPECT_NE(page.cast(6), page.cast(7)) << "not nearer";
    EXPECT_EQ(page.cast(7), page.cast(8));
    EXPECT_EQ(page.aim(8), "B");
    EXPECT_EQ(page.aim(3), "A");
}

TEST(ReadPage, TakesNotesAsNotes) {
    const Page_ page({
        "R1 19.10 good",
        "04.15 R2 27.12 mir",
        "A lovely morning",
        "wind SW3, 11c rising",
        "level dropped overnight",
        "7 carp on the bank",
        "12/4 windy",
    });
    for (std::size_t i = 0; i < 7; ++i) {
        EXPECT_EQ(page.line(i).kind, LineKind::Note) << page.lines[heads.size() + i];
    }
}

TEST(ReadPage, MarksWhatItCannotUnderstandAndSaysWhatToDo) {
    const Page_ page(
        {"A 28% 9", "A 26 9 zz", "C -6t soft", "A 27 25-28 gr", "A 25-27 gr", "A 26 700"});
    EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(1).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(2).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(4).kind, LineKind::Unclear);
    EXPECT_EQ(page.line(5).kind, LineKind::Unclear);
}

TEST(ReadPage, TurnsNeedAMeasuredReel) {
    std::vector<std::string> lines{"depths ft", "95t 11"};
    EXPECT_EQ(readPage(lines, withReel()).lines[1].kind, LineKind::Unclear);
    lines.insert(lines.begin(), "reel big");
    EXPECT_EQ(readPage(lines, withReel()).lines[2].kind, LineKind::Reading);
    EXPECT_EQ(readPage(lines, PageContext{}).lines[2].kind, LineKind::Unclear);
}

TEST(ReadPage, AsksWhatABareNumberMeansOnceAndRemembers) {
    const std::vector<std::string> lines{"A 28 9"};
    PageContext context;
    for (int asked = 0; asked < 2; ++asked) {
        const PageMeaning meaning = readPage(lines, context);
        ASSERT_EQ(meaning.lines[0].kind, LineKind::Unclear);
        ASSERT_FALSE(meaning.lines[0].offers.empty());
        context.answers.push_back(meaning.lines[0].offers[0].answer.value());
    }
    const PageMeaning meaning = readPage(lines, context);
    ASSERT_EQ(meaning.lines[0].kind, LineKind::Reading);
    EXPECT_EQ(meaning.readings[0].reading.from.unit, Unit::Wrap);
    EXPECT_EQ(meaning.readings[0].reading.depth->value.unit, Unit::Foot);
}

TEST(ReadPage, AsksOnceAboutAPointInFeet) {
    // Common practice: to many, 11.6 ft is eleven foot six; 9.11 certainly is inches; 9.5 is a
    // half.
    Page_ page({"A 26 11.6 gr", "A 26 9.11", "A 26 9.5"});
    ASSERT_EQ(page.line(0).kind, LineKind::Unclear);
    EXPECT_DOUBLE_EQ(page.reading(1).depth->value.number, 9.0 + 11.0 / 12.0);
    EXPECT_DOUBLE_EQ(page.reading(2).depth->value.number, 9.5);
    page.context.answers.push_back(page.line(0).offers.at(0).answer.value());
    page.meaning = readPage(page.lines, page.context);
    EXPECT_DOUBLE_EQ(page.reading(0).depth->value.number, 11.5);
    page.context.answers.back() = Page_({"A 26 11.6"}).line(0).offers.at(1).answer.value();
    page.meaning = readPage(page.lines, page.context);
    EXPECT_DOUBLE_EQ(page.reading(0).depth->value.number, 11.6);
}

TEST(ReadPage, KnowsHisOwnShorthandOnceTaught) {
    Page_ page({"A 26 9 gv"});
    EXPECT_EQ(page.line(0).kind, LineKind::Unclear);
    page.context.words.push_back({.id = {}, .text = "gv", .meaning = "gr tap"});
    page.meaning = readPage(page.lines, page.context);
    EXPECT_EQ(page.reading(0).substrate, Substrate::Gravel);
    EXPECT_EQ(page.reading(0).pull, Pull::Tap);
}

TEST(ReadPage, ReadsEveryHeader) {
    const std::vector<std::string> lines{
        "swim P14",
        "date 2025-04-12",
        "level 2 steps",
        "sticks 13 ft there and back",
        "distances yd",
        "depths m",
        "float pulls 0.5 m + 30 cm",
        "reel old one",
        "tip 5 ft",
        "bearings phone",
        "note first frost",
        "aim A = 231.5 magnetic",
        "aim B = A + 10 deg right",
        "aim C = A + 1 fist left",
        "aim E = dead pine + 2 fingers right",
        "aim F = 1 o'clock",
        "aim G = left of A",
        "aim H",
    };
    const PageMeaning meaning = readPage(lines, PageContext{});
    for (std::size_t i = 0; i < lines.size(); ++i) {
        EXPECT_EQ(meaning.lines[i].kind, LineKind::Header) << lines[i] << meaning.lines[i].unclear;
        EXPECT_FALSE(meaning.lines[i].words.empty()) << lines[i];
    }
    ASSERT_EQ(meaning.sections.size(), 1U);
    const PageSection& section = meaning.sections[0];
    EXPECT_EQ(section.swim, "P14");
    using namespace std::chrono;
    EXPECT_EQ(section.date, (Date{year{2025}, month{4}, day{12}}));
    EXPECT_EQ(section.visit.level, (Entered{2.0, Unit::Step, "2 steps"}));
    EXPECT_EQ(section.visit.sticks->number, 13.0);
    EXPECT_EQ(section.visit.wrapCounts, WrapCounts::ThereAndBack);
    EXPECT_EQ(section.visit.bareDistance, Unit::Yard);
    EXPECT_EQ(section.visit.bareDepth, Unit::Metre);
    EXPECT_EQ(section.visit.floatRig->offset, (Entered{30.0, Unit::Centimetre, "30 cm"}));
    EXPECT_EQ(section.reel, "old one");
    EXPECT_EQ(section.visit.tipHeight->number, 5.0);
    EXPECT_EQ(section.visit.bearingSource, BearingSource::Phone);
    EXPECT_EQ(section.visit.note, "first frost");
    ASSERT_EQ(section.aims.size(), 7U);
    EXPECT_EQ(std::get<AimDraft::AtBearing>(section.aims[0].basis).bearing.north, North::Magnetic);
    EXPECT_EQ(std::get<AimDraft::FromAim>(section.aims[1].basis).offset.number, 10.0);
    EXPECT_EQ(std::get<AimDraft::FromAim>(section.aims[2].basis).offset.number, -1.0);
    EXPECT_EQ(std::get<AimDraft::AtMark>(section.aims[3].basis).mark, "dead pine");
    EXPECT_EQ(std::get<AimDraft::AtMark>(section.aims[3].basis).offset->number, 2.0);
    EXPECT_EQ(std::get<AimDraft::AtClock>(section.aims[4].basis).hour.number, 1.0);
    EXPECT_EQ(std::get<AimDraft::LeftOf>(section.aims[5].basis).other, "A");
    EXPECT_TRUE(std::holds_alternative<AimDraft::WithoutAngle>(section.aims[6].basis));
}

// A new page begins with "swim " and "date ": whoever types the whole line behind them says it
// twice.
TEST(ReadPage, TakesADoubledHeaderWordAsTheOneHeader) {
    const Page_ page(
        {"swim swim Test",
         "date Date: 2026-01-02",
         "level level 2 steps",
         "aim aim A = B + 10 deg right",
         "date date soon",
         "note note to myself"});
    const PageSection& section = page.meaning.sections.at(0);
    EXPECT_EQ(page.line(0).words, "swim Test");
    EXPECT_EQ(section.date, std::optional(Date{std::chrono::year{2026} / 1 / 2}));
    EXPECT_EQ(page.line(2).words, "water level 2 steps");
    ASSERT_EQ(section.aims.size(), 1U);
    EXPECT_EQ(section.aims[0].label, "A");
    EXPECT_EQ(page.line(4).kind, LineKind::Unclear) << "which day?";
    EXPECT_EQ(page.line(5).kind, LineKind::Header);
    EXPECT_EQ(Page_({"swim swimming hole"}).line(0).words, "swim swimming hole");
}

TEST(PageMeaning, AimGoesRoundTheCompassOnceMoreEitherWayAtMost) {
    // The bounds of a bearing in a table of readings: -360 to 720.
    for (const char* const line : {"aim A = -360 magnetic", "aim A = 720 true"}) {
        EXPECT_EQ(readPage(std::vector<std::string>{line}, {}).lines[0].kind, LineKind::Header)
            << line;
    }
    for (const char* const line :
         {"aim A = 999 magnetic", "aim A = 721 true", "aim A = -361 grid"}) {
        const PageMeaning meaning = readPage(std::vector<std::string>{line}, {});
        EXPECT_EQ(meaning.lines[0].kind, LineKind::Unclear) << line;
        EXPECT_NE(meaning.lines[0].unclear, "") << line;
    }
}

TEST(ReadPage, ABearingMustSayItsNorth) {
    const std::vector<std::string> lines{"aim A = 231.5"};
    const PageMeaning meaning = readPage(lines, PageContext{});
    EXPECT_EQ(meaning.lines[0].kind, LineKind::Unclear);
    EXPECT_EQ(meaning.lines[0].offers.at(0).replacement, "aim A = 231.5 magnetic");
}

TEST(ReadPage, ASecondSwimOrALaterDateIsAnotherVisit) {
    const std::vector<std::string> lines{
        "swim P14",
        "date 2025-04-12",
        "level 2 steps",
        "distances wraps",
        "depths ft",
        "A 30 6",
        "date 2025-05-03",
        "A 30 7",
        "swim P3",
        "A 20 5"};
    const PageMeaning meaning = readPage(lines, PageContext{});
    ASSERT_EQ(meaning.sections.size(), 3U);
    EXPECT_EQ(meaning.sections[1].swim, "P14");
    EXPECT_FALSE(meaning.sections[1].visit.level.has_value()) << "a level is of its day";
    EXPECT_EQ(meaning.sections[2].swim, "P3");
    EXPECT_EQ(meaning.casts.at(2).section, 2U);
    EXPECT_EQ(meaning.readings.at(2).reading.from.unit, Unit::Wrap);
}

TEST(ReadPage, NothingAndOddBytesAreNoTrouble) {
    EXPECT_TRUE(readPage({}, PageContext{}).lines.empty());
    std::vector<std::string> lines{
        "",
        "\xff\xfe",
        std::string(100000, '9'),
        std::string(5000, '-'),
        "A \xc2",
        "+",
        "++",
        "= ",
        "aim",
        "aim =",
        "x3",
        "A",
        "A ",
        "½",
        "A ½ ½"};
    EXPECT_EQ(readPage(lines, PageContext{}).lines.size(), lines.size());
}

} // namespace
} // namespace bedlore
