// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <sstream>
#include <string>
#include <vector>

// Pages that share a visit with one another, with an import and with what was entered elsewhere.

namespace bedlore {
namespace {

/// A book with one water and any number of pages on it.
struct Desk {
    Book book;
    IdSource ids{2};

    Desk() { book.all<Water>().put({.id = {1}, .name = "Harl Pit"}); }

    Id<Page> newPage() { return ids.take<Page>(); }

    PageUpdate put(Id<Page> id, const std::vector<TypedLine>& lines) {
        const Page* there = book.find(id);
        const Page page = there != nullptr ? *there : Page{.id = id, .water = {1}};
        auto update = updatePage(book, page, lines, ids);
        EXPECT_TRUE(update.has_value());
        apply(update->edits);
        return *update;
    }
    void apply(const Edits& edits) {
        const auto applied = applyEdits(book, edits);
        ASSERT_TRUE(applied.has_value()) << applied.error().message << applied.error().context;
        book = applied->book;
    }
    std::vector<TypedLine> lines(Id<Page> page) const {
        std::vector<TypedLine> result;
        for (const PageLine* line : linesOf(book, page)) {
            result.push_back({.id = line->id, .text = line->text});
        }
        return result;
    }
    /// Adds lines to what the page holds.
    PageUpdate type(Id<Page> page, const std::string& text) {
        auto all = lines(page);
        std::istringstream in(text);
        for (std::string line; std::getline(in, line);) {
            all.push_back({.id = {}, .text = line});
        }
        return put(page, all);
    }
    PageUpdate change(Id<Page> page, std::size_t line, const std::string& text) {
        auto all = lines(page);
        all.at(line).text = text;
        return put(page, all);
    }
    const Visit& visit() const {
        EXPECT_EQ(book.all<Visit>().size(), 1U);
        return *book.all<Visit>().begin();
    }
};

const char* const heads = "swim P14\ndate 2025-04-12\ndistances wraps\ndepths ft\n";

TEST(SharedVisit, ASecondPageAddsToItAndTouchesNothingOfTheFirst) {
    Desk desk;
    const auto first = desk.newPage();
    const auto second = desk.newPage();
    desk.type(first, std::string(heads) + "level 2 steps\naim A = dead pine\nA 28 9\n");
    const Book before = desk.book;
    desk.type(second, std::string(heads) + "A 26 8\nB 30 7\n");
    EXPECT_EQ(desk.visit().level, (Entered{2.0, Unit::Step, "2 steps"}));
    for (const Aim& aim : before.all<Aim>()) {
        EXPECT_EQ(desk.book.get(aim.id), aim) << "the aim as the first page defined it";
    }
    for (const Reading& reading : before.all<Reading>()) {
        EXPECT_EQ(desk.book.get(reading.id), reading);
    }
    EXPECT_EQ(desk.book.all<Aim>().size(), 2U);
    EXPECT_TRUE(desk.put(first, desk.lines(first)).edits.empty());
    EXPECT_TRUE(desk.put(second, desk.lines(second)).edits.empty());
}

TEST(SharedVisit, ADifferentHeaderCountsAndIsSaidOnce) {
    Desk desk;
    const auto first = desk.newPage();
    const auto second = desk.newPage();
    desk.type(first, std::string(heads) + "sticks 12 ft\nA 28 9\n");
    const PageUpdate update = desk.type(second, std::string(heads) + "sticks 13 ft\nA 26 8\n");
    ASSERT_EQ(update.notices.size(), 1U);
    EXPECT_NE(update.notices[0].find("12 ft"), std::string::npos);
    EXPECT_EQ(desk.visit().sticks->number, 13.0);
    EXPECT_TRUE(desk.type(first, "27 9\n").notices.empty());
    EXPECT_EQ(desk.visit().sticks->number, 13.0) << "the later word counts";
}

TEST(SharedVisit, WhatWasEnteredElsewhereIsNotTakenBack) {
    Desk desk;
    const auto page = desk.newPage();
    desk.type(page, std::string(heads) + "aim A = dead pine\nA 28 9\n");
    Visit visit = desk.visit();
    visit.level = Entered{0.4, Unit::Metre, "0.4 m"};
    visit.note = "from the other book";
    Aim aim = *desk.book.all<Aim>().begin();
    aim.basis = AimAtClock{{1.0, Unit::ClockHour, "1 o'clock"}};
    desk.apply({Put<Visit>{visit}, Put<Aim>{aim}});
    desk.type(page, "26 8\n");
    EXPECT_EQ(desk.visit(), visit);
    EXPECT_EQ(desk.book.get(aim.id), aim);
    desk.type(page, "level 2 steps\n");
    EXPECT_EQ(desk.visit().level->unit, Unit::Step) << "now the page says so itself";
    auto lines = desk.lines(page);
    lines.pop_back();
    desk.put(page, lines);
    EXPECT_FALSE(desk.visit().level.has_value()) << "and says so no longer";
}

TEST(SharedVisit, AHeaderAloneOnAnotherPageKeepsItsAim) {
    Desk desk;
    const auto first = desk.newPage();
    const auto second = desk.newPage();
    desk.type(first, std::string(heads) + "aim C = left of A\naim A = dead pine\n");
    desk.type(second, std::string(heads) + "A 28 9\n");
    desk.put(second, {});
    EXPECT_EQ(desk.book.all<Aim>().size(), 2U);
    EXPECT_EQ(desk.book.all<Visit>().size(), 1U);
}

TEST(PageIdentity, ASectionPutInBeforeDoesNotTakeTheVisitOver) {
    Desk desk;
    const auto page = desk.newPage();
    desk.type(page, std::string(heads) + "A 28 9\n");
    const Id<Visit> april = desk.visit().id;
    std::vector<TypedLine> lines{
        {.id = {}, .text = "swim P3"},
        {.id = {}, .text = "date 2025-04-11"},
        {.id = {}, .text = "B 20 5"}};
    for (const TypedLine& line : desk.lines(page)) {
        lines.push_back(line);
    }
    desk.put(page, lines);
    EXPECT_EQ(desk.book.get(desk.book.get(april).swim).name, "P14");
    EXPECT_EQ(desk.book.all<Visit>().size(), 2U);
}

TEST(PageIdentity, AnotherDateMovesTheVisitWithAllThatIsKnownOfIt) {
    Desk desk;
    const auto page = desk.newPage();
    desk.type(page, std::string(heads) + "A 28 9\n");
    const Id<Visit> visit = desk.visit().id;
    desk.change(page, 1, "date 2025-04-13");
    EXPECT_EQ(desk.visit().id, visit);
    EXPECT_EQ(desk.visit().date.day(), std::chrono::day{13});
}

TEST(PageIdentity, AnImportedReadingKeepsItsSource) {
    Desk desk;
    const auto page = desk.newPage();
    desk.apply({Put<ImportedFile>{{.id = {900}, .name = "april.txt", .sha256 = ""}}});
    desk.type(page, std::string(heads) + "A 28 9\n");
    Reading reading = *desk.book.all<Reading>().begin();
    reading.source = SourceLine{.file = {900}, .line = 5};
    desk.apply({Put<Reading>{reading}});
    desk.change(page, 4, "A 28 10");
    EXPECT_EQ(desk.book.get(reading.id).source, reading.source);
    EXPECT_EQ(desk.book.get(reading.id).depth->value.number, 10.0);
}

TEST(PageIdentity, ALineGivenTwiceIsTwoLines) {
    Desk desk;
    const auto page = desk.newPage();
    desk.type(page, std::string(heads) + "A 28 9\n");
    auto lines = desk.lines(page);
    lines.push_back(lines.back());
    desk.put(page, lines);
    EXPECT_EQ(desk.book.all<Reading>().size(), 2U);
    EXPECT_EQ(linesOf(desk.book, page).size(), 6U);
}

TEST(PageIdentity, NewSwimsAndReelsAreSaidOnce) {
    Desk desk;
    const auto page = desk.newPage();
    const PageUpdate made = desk.type(page, std::string(heads) + "reel big\nA 95t 9\n");
    EXPECT_EQ(made.notices.size(), 2U);
    EXPECT_EQ(made.read.meaning.lines.back().kind, LineKind::Unclear) << "never measured";
    EXPECT_TRUE(desk.type(page, "A 28 9\n").notices.empty());
    Reel reel = *desk.book.all<Reel>().begin();
    reel.calibration = {{.turns = 50.0, .distance = {49.0, Unit::Metre, "49 m"}}};
    desk.apply({Put<Reel>{reel}});
    desk.type(page, "note measured it\n");
    EXPECT_EQ(desk.book.all<Reading>().size(), 2U) << "the turns waited for their reel";
}

/// Puts a line of `stock` somewhere, or takes one out.
void changeAnyLine(
    std::vector<TypedLine>& lines, const std::vector<std::string>& stock, std::mt19937& random) {
    const std::size_t at = random() % (lines.size() + 1);
    const auto place = lines.begin() + static_cast<std::ptrdiff_t>(at);
    if (random() % 3 != 0 || place == lines.end()) {
        lines.insert(place, TypedLine{.id = {}, .text = stock[random() % stock.size()]});
    } else {
        lines.erase(place);
    }
}

/// Whether every reading and cast of `before` is in `after` as it was.
bool holdsAll(const Book& after, const Book& before) {
    const auto isThere = [&](const auto& record) {
        const auto* now = after.find(record.id);
        return now != nullptr && *now == record;
    };
    const auto& readings = before.all<Reading>();
    const auto& casts = before.all<Cast>();
    return std::all_of(readings.begin(), readings.end(), isThere) &&
           std::all_of(casts.begin(), casts.end(), isThere);
}

/// Invariant: whatever is done to one page, the readings, casts and lines of another on the same
/// visit stay as they are, and both pages then say again what they said without a further edit.
TEST(SharedVisit, AnyChangesOfOnePageLeaveTheOtherAlone) {
    const std::vector<std::string> stock{
        "A 30 6 gr",
        "28 7",
        "27-25 si glide",
        "B 26 9 D",
        "+ 24 8",
        "",
        "aim A = dead pine",
        "aim B = A + 10 deg right",
        "a note",
        "PINE = A 26¾ / rods 26¾",
        "swim P3",
        "date 2025-05-03",
        "level 0.2 m",
        "110 9"};
    for (unsigned seed = 1; seed <= 30; ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937 random(seed);
        Desk desk;
        const auto still = desk.newPage();
        const auto busy = desk.newPage();
        desk.type(still, std::string(heads) + "aim A = barn\nA 31 6\n29 7\nD 28 5\n");
        desk.type(busy, heads);
        const Book before = desk.book;
        for (int step = 0; step < 30; ++step) {
            auto lines = desk.lines(busy);
            changeAnyLine(lines, stock, random);
            desk.put(busy, lines);
        }
        desk.put(busy, {});
        EXPECT_TRUE(holdsAll(desk.book, before));
        EXPECT_EQ(linesOf(desk.book, still).size(), linesOf(before, still).size());
        EXPECT_EQ(desk.book.all<Reading>().size(), before.all<Reading>().size());
        EXPECT_EQ(desk.book.all<Visit>().size(), 1U);
        EXPECT_TRUE(desk.put(still, desk.lines(still)).edits.empty());
        EXPECT_TRUE(desk.put(busy, desk.lines(busy)).edits.empty());
    }
}

} // namespace
} // namespace bedlore
