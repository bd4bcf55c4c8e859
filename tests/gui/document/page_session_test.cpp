// SPDX-License-Identifier: MIT
#include "gui/document/page_session.hpp"
#include "gui/document/whereabouts.hpp"
#include "tests/gui/support.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

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
