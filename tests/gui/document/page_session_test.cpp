// SPDX-License-Identifier: MIT
#include "gui/document/page_session.hpp"
#include "gui/document/whereabouts.hpp"
#include "tests/gui/support.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <utility>

namespace bedlore {
namespace {

using ::testing::ElementsAre;
using testing::newBook;
using testing::TempFolder;

const std::vector<std::string> header{
    "swim the Point",
    "date 2025-04-12",
    "sticks 12 ft",
    "distances wraps",
    "depths ft",
    "aim A = 231.5"};

std::vector<std::string> with(std::vector<std::string> lines, const std::string& line) {
    lines.push_back(line);
    return lines;
}

struct Typing {
    TempFolder folder;
    std::unique_ptr<Document> document = newBook(folder / "Harl Pit.gpkg");
    PageSession session{*document};

    Typing() { session.begin(std::nullopt); }
    const Book& book() const { return *document->book(); }
};

TEST(PageSession, ANewPageEntersTheBookWithItsFirstLine) {
    Typing typing;
    EXPECT_FALSE(typing.session.page().has_value());
    ASSERT_TRUE(typing.session.keep({"swim the Point"}).has_value());
    ASSERT_TRUE(typing.session.page().has_value());
    ASSERT_EQ(typing.book().all<Water>().size(), 1U);
    // A new book is named after its water.
    EXPECT_EQ(typing.book().all<Water>().begin()->name, "Harl Pit");
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("typed line 1"));
}

TEST(PageSession, AReadingLineBecomesAReading) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(with(header, "A 28½ 9 gr")).has_value());
    ASSERT_EQ(typing.book().all<Reading>().size(), 1U);
    const Reading& reading = *typing.book().all<Reading>().begin();
    EXPECT_EQ(reading.from.number, 28.5);
    EXPECT_EQ(reading.from.unit, Unit::Wrap);
    EXPECT_EQ(reading.substrate, Substrate::Gravel);
    EXPECT_THAT(
        typing.session.keptLines(),
        ElementsAre(
            "swim the Point",
            "date 2025-04-12",
            "sticks 12 ft",
            "distances wraps",
            "depths ft",
            "aim A = 231.5",
            "A 28½ 9 gr"));
}

TEST(PageSession, UndoOfTheFirstLineLeavesNoPage) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep({"swim the Point"}).has_value());
    ASSERT_TRUE(typing.document->undo().has_value());
    EXPECT_FALSE(typing.session.page().has_value());
    EXPECT_TRUE(typing.book().all<Water>().empty());
    // Typing on makes a page with ids of its own.
    ASSERT_TRUE(typing.session.keep({"swim the Reeds"}).has_value());
    EXPECT_THAT(typing.session.keptLines(), ElementsAre("swim the Reeds"));
}

TEST(PageSession, KeepingTheSameLinesIsNoAct) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(header).has_value());
    const auto before = typing.document->book();
    ASSERT_TRUE(typing.session.keep(header).has_value());
    EXPECT_EQ(typing.document->book(), before);
}

TEST(PageSession, AnUntouchedLineKeepsItsReading) {
    Typing typing;
    std::vector<std::string> lines = with(with(header, "A 28½ 9 gr"), "27 9 gr");
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    const Id<Reading> second = *typing.session.keptRecords()[7]->reading;
    lines[6] = "A 29 8 gr";
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    EXPECT_EQ(typing.session.keptRecords()[7]->reading, second);
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("changed line 7"));
}

TEST(PageSession, ALineKeptInPausesIsOneAct) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(header).has_value());
    const Book before = typing.book();
    for (const char* half : {"A 2", "A 28", "A 28½ 9"}) {
        const auto kept = typing.session.keep(with(header, half), PageSession::Typing::Pausing);
        ASSERT_TRUE(kept.has_value());
        EXPECT_TRUE(typing.session.hasOpenLine());
        EXPECT_EQ(typing.session.keptLines().back(), half);
    }
    ASSERT_TRUE(typing.session.keep(with(header, "A 28½ 9 gr")).has_value());
    EXPECT_FALSE(typing.session.hasOpenLine());
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("typed line 7"));
    ASSERT_TRUE(typing.document->undo().has_value());
    EXPECT_EQ(typing.book(), before);
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("typed 6 lines"));
    ASSERT_TRUE(typing.document->redo().has_value());
    EXPECT_EQ(typing.session.keptLines().back(), "A 28½ 9 gr");
}

TEST(PageSession, WhatIsTypedAfterALineIsDoneIsAnotherAct) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(header).has_value());
    const auto first = with(header, "A 28½ 9");
    ASSERT_TRUE(typing.session.keep(first, PageSession::Typing::Pausing).has_value());
    ASSERT_TRUE(typing.session.keep(first).has_value()) << "Return after the pause";
    ASSERT_TRUE(typing.session.keep(with(header, "A 28½ 9 gr")).has_value());
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("changed line 7"));
    // Nor does a line go on after something else happened to the book.
    const auto third = with(header, "A 28½ 8 gr");
    ASSERT_TRUE(typing.session.keep(third, PageSession::Typing::Pausing).has_value());
    ASSERT_TRUE(typing.document->undo().has_value());
    EXPECT_FALSE(typing.session.hasOpenLine());
}

/// Everything that the book holds but ids and order of entry, which pauses may change.
std::vector<std::string> contents(const Book& book) {
    std::vector<std::string> all;
    for (const Swim& swim : book.all<Swim>()) {
        all.push_back("swim " + swim.name);
    }
    for (const Visit& visit : book.all<Visit>()) {
        all.push_back("visit " + visitWords(visit));
    }
    for (const Mark& mark : book.all<Mark>()) {
        all.push_back("mark " + mark.name);
    }
    for (const Aim& aim : book.all<Aim>()) {
        all.push_back("aim " + aim.label);
    }
    for (const Reading& reading : book.all<Reading>()) {
        all.push_back("reading " + reading.from.text);
    }
    for (const Spot& spot : book.all<Spot>()) {
        all.push_back("spot " + spot.name);
    }
    all.push_back("casts " + std::to_string(book.all<Cast>().size()));
    return all;
}

TEST(PageSession, APauseAfterEveryLetterLeavesNothingBehind) {
    const std::vector<std::string> page{
        "swim the Point",
        "date 2025-04-12",
        "level 0.35 m",
        "sticks 12 ft",
        "distances wraps",
        "depths ft",
        "aim A = dead pine",
        "aim B = A + 10 deg right",
        "A 28½ 9 gr",
        "27-25 si glide",
        "B 110 12",
        "PINE = A 26¾ / rods 26¾"};
    Typing steady;
    ASSERT_TRUE(steady.session.keep(page).has_value());
    Typing slow;
    std::vector<std::string> lines;
    for (const std::string& line : page) {
        lines.emplace_back();
        const QString whole = QString::fromStdString(line);
        for (qsizetype letters = 1; letters <= whole.size(); ++letters) {
            lines.back() = whole.left(letters).toStdString();
            ASSERT_TRUE(slow.session.keep(lines, PageSession::Typing::Pausing).has_value());
        }
        ASSERT_TRUE(slow.session.keep(lines).has_value());
    }
    EXPECT_EQ(contents(slow.book()), contents(steady.book()));
    int acts = 0;
    while (slow.document->canUndo()) {
        ASSERT_TRUE(slow.document->undo().has_value());
        ++acts;
    }
    EXPECT_EQ(acts, static_cast<int>(page.size())) << "one for each line";
    EXPECT_EQ(slow.book(), Book{});
}

TEST(PageSession, OneKeyMendsAnUnclearLine) {
    Typing typing;
    // The page of the trade: 110 wraps is beyond any cast, so yards are offered.
    std::vector<std::string> lines = with(header, "A 110 12");
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    EXPECT_TRUE(typing.book().all<Reading>().empty());
    const PageMeaning meaning = typing.session.meaningOf(lines);
    ASSERT_EQ(meaning.lines[6].kind, LineKind::Unclear);
    ASSERT_FALSE(meaning.lines[6].offers.empty());
    const auto mended = typing.session.take(meaning.lines[6].offers.front(), 6, lines);
    ASSERT_TRUE(mended.has_value()) << mended.error().message;
    ASSERT_EQ(typing.book().all<Reading>().size(), 1U);
    const Reading& reading = *typing.book().all<Reading>().begin();
    EXPECT_EQ(reading.from.number, 110.0);
    EXPECT_EQ(reading.from.unit, Unit::Yard);
    EXPECT_EQ(typing.session.keptLines(), *mended);
    EXPECT_EQ(typing.document->undoWords(), QStringLiteral("answered line 7"));
}

/// A page that does not say what its numbers mean, with the first answer taken to each question.
std::vector<std::string> answered(Typing& typing) {
    std::vector<std::string> lines{
        "swim the Point", "date 2025-10-03", "sticks 12 ft", "A 28 9", "27 8"};
    EXPECT_TRUE(typing.session.keep(lines).has_value());
    for (int question = 0; question < 2; ++question) {
        const LineMeaning asked = typing.session.meaningOf(lines).lines[3];
        EXPECT_EQ(asked.kind, LineKind::Unclear);
        EXPECT_FALSE(asked.offers.empty());
        const auto taken = typing.session.take(asked.offers.front(), 3, lines);
        EXPECT_TRUE(taken.has_value());
        lines = *taken;
    }
    EXPECT_EQ(typing.book().all<Reading>().size(), 2U);
    return lines;
}

TEST(PageSession, ACorrectedDateOrSwimKeepsWhatHeAnswered) {
    Typing typing;
    std::vector<std::string> lines = answered(typing);
    const std::vector<std::pair<std::size_t, std::string>> corrections{
        {1, "date 2026-10-03"}, {1, "date"}, {1, "date 2026-10-04"}, {0, "swim the Gap"}};
    for (const auto& [line, text] : corrections) {
        lines[line] = text;
        ASSERT_TRUE(typing.session.keep(lines).has_value());
        const PageMeaning meaning = typing.session.meaningOf(lines);
        EXPECT_EQ(meaning.lines[3].kind, LineKind::Reading) << text;
        EXPECT_EQ(meaning.lines[4].kind, LineKind::Reading) << text;
        EXPECT_EQ(typing.book().all<Answer>().size(), 2U) << "moved, not doubled";
    }
    EXPECT_EQ(typing.book().all<Reading>().size(), 2U);
    EXPECT_EQ(typing.book().all<Reading>().begin()->from.unit, Unit::Wrap);
    ASSERT_TRUE(typing.document->undo().has_value());
    lines[0] = "swim the Point";
    EXPECT_EQ(typing.session.keptLines(), lines);
    EXPECT_EQ(typing.session.meaningOf(lines).lines[3].kind, LineKind::Reading);
}

TEST(PageSession, AnotherPageOfTheSwimIsAskedForItself) {
    Typing typing;
    std::vector<std::string> lines = answered(typing);
    lines[1] = "date"; // being corrected
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    lines[1] = "date 2026-10-03";
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    typing.session.begin(typing.session.water());
    for (const char* date : {"date", "date 2025-10-03", "date 2026-10-05"}) {
        const std::vector<std::string> next{"swim the Point", date, "A 28 9"};
        ASSERT_TRUE(typing.session.keep(next).has_value());
        EXPECT_EQ(typing.session.meaningOf(next).lines[2].kind, LineKind::Unclear) << date;
    }
    EXPECT_EQ(typing.book().all<Reading>().size(), 2U);
}

TEST(PageSession, OneKeySaysANewAimAboveItsFirstReading) {
    Typing typing;
    std::vector<std::string> lines = header;
    lines.insert(lines.end(), {"A 28 9", "Q 27 8", "26 7"});
    ASSERT_TRUE(typing.session.keep(lines).has_value());
    const std::size_t asked = header.size() + 1;
    const PageMeaning meaning = typing.session.meaningOf(lines);
    ASSERT_EQ(meaning.lines.size(), lines.size());
    ASSERT_FALSE(meaning.lines[asked].offers.empty());
    const LineOffer offer = meaning.lines[asked].offers.back();
    ASSERT_EQ(offer.words, "a new aim");
    const auto taken = typing.session.take(offer, asked, lines);
    ASSERT_TRUE(taken.has_value()) << taken.error().message;
    std::vector<std::string> wanted = lines;
    wanted.insert(wanted.begin() + static_cast<std::ptrdiff_t>(asked), "aim Q");
    EXPECT_EQ(*taken, wanted);
    EXPECT_EQ(typing.session.keptLines(), wanted);
    for (const LineMeaning& line : typing.session.meaningOf(wanted).lines) {
        EXPECT_EQ(line.remark, "");
    }
}

TEST(PageSession, TwoPagesDoNotDisturbEachOther) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(with(header, "A 28½ 9 gr")).has_value());
    const Id<Page> first = *typing.session.page();
    typing.session.begin(typing.session.water());
    ASSERT_TRUE(
        typing.session.keep({"swim the Reeds", "date 2025-05-01", "distances yd", "B 80 2m si"})
            .has_value());
    EXPECT_NE(*typing.session.page(), first);
    EXPECT_EQ(typing.book().all<Water>().size(), 1U);
    EXPECT_EQ(typing.book().all<Visit>().size(), 2U);
    typing.session.open(first);
    EXPECT_EQ(typing.session.keptLines(), with(header, "A 28½ 9 gr"));
}

TEST(Whereabouts, AreTheLatestVisitWhereNothingIsSaid) {
    Typing typing;
    ASSERT_TRUE(typing.session.keep(with(header, "A 28½ 9 gr")).has_value());
    const Id<Page> first = *typing.session.page();
    typing.session.begin(typing.session.water());
    ASSERT_TRUE(typing.session.keep({"swim the Reeds", "date 2025-05-01"}).has_value());
    const Whereabouts where = settled(typing.book(), {});
    ASSERT_TRUE(where.visit.has_value());
    EXPECT_EQ(typing.book().get(*where.swim).name, "the Reeds");
    EXPECT_EQ(visitWords(typing.book().get(*where.visit)), "1 May 2025");
    EXPECT_EQ(pageOf(typing.book(), *where.visit), typing.session.page());
    const Visit& april = *typing.book().all<Visit>().begin();
    EXPECT_EQ(pageOf(typing.book(), april.id), first);
}

TEST(Whereabouts, OfAnEmptyBookAreNowhere) {
    EXPECT_EQ(settled(Book{}, {.water = Id<Water>{7}}), Whereabouts{});
}

} // namespace
} // namespace bedlore
