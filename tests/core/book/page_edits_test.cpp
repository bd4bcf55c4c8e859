// SPDX-License-Identifier: MIT
#include "core/book/history.hpp"
#include "core/book/page_edits.hpp"
#include "tests/support/told_book.hpp"

#include <gtest/gtest.h>

#include <random>
#include <sstream>

namespace bedlore {
namespace {

using testing::told;

Book bookWithWater() {
    Book book;
    book.all<Water>().put({.id = {1}, .name = "Harl Pit"});
    book.all<Reel>().put(
        {.id = {2},
         .name = "big",
         .calibration = {{.turns = 50.0, .distance = {49.0, Unit::Metre, "49 m"}}}});
    return book;
}

std::vector<std::string> textsOf(const std::vector<TypedLine>& lines) {
    std::vector<std::string> texts;
    for (const TypedLine& line : lines) {
        texts.push_back(line.text);
    }
    return texts;
}

struct Desk {
    Book book = bookWithWater();
    IdSource ids{3};
    Page page{.id = {}, .water = {1}, .author = {}, .file = {}};
    History history;
    PageAsRead last;

    Desk() { page.id = ids.take<Page>(); }

    /// The page's lines as they stand, with their identity.
    std::vector<TypedLine> lines() const {
        std::vector<TypedLine> result;
        for (const PageLine* line : linesOf(book, page.id)) {
            result.push_back({.id = line->id, .text = line->text});
        }
        return result;
    }
    PageUpdate type(const std::vector<TypedLine>& typed) {
        IdSource sameIds = ids;
        const auto unremembered = updatePage(book, page, typed, sameIds);
        const PageAsRead now = readAs(textsOf(typed), pageContext(book, page.water));
        auto update =
            updatePage(book, page, typed, ids, {.context = nullptr, .last = &last, .now = &now});
        EXPECT_TRUE(update.has_value());
        auto applied = applyEdits(book, update->edits);
        EXPECT_TRUE(applied.has_value()) << applied.error().message << applied.error().context;
        // What the page said and says is remembered or read once more, which must not matter.
        EXPECT_EQ(
            told(applyEdits(book, unremembered->edits)->book, page.water),
            told(applied->book, page.water));
        history.applied("typed", applied->inverse);
        book = applied->book;
        last = update->read;
        return *update;
    }
    void type(const std::string& text) {
        auto all = lines();
        std::istringstream in(text);
        for (std::string line; std::getline(in, line);) {
            all.push_back({.id = {}, .text = line});
            type(all);
            all = lines();
        }
    }
    void undo() {
        auto back = applyEdits(book, history.nextUndo().edits);
        history.undone(back->inverse);
        book = back->book;
    }
};

const char* const start = "swim P14\ndate 2025-04-12\nsticks 12 ft\ndistances wraps\ndepths ft\n"
                          "float pulls 12 in + 12 in\nreel big\n";

TEST(UpdatePage, MakesSwimVisitAimCastAndReadingsAsTyped) {
    Desk desk;
    desk.type(std::string(start) + "A 28½ 9 gr\n27 9p D\nB 30 8\n");
    ASSERT_EQ(desk.book.all<Swim>().size(), 1U);
    ASSERT_EQ(desk.book.all<Visit>().size(), 1U);
    EXPECT_EQ(desk.book.all<Aim>().size(), 2U);
    EXPECT_EQ(desk.book.all<Cast>().size(), 2U);
    EXPECT_EQ(desk.book.all<Reading>().size(), 3U);
    EXPECT_EQ(
        pageText(desk.book, desk.page.id), std::string(start) + "A 28½ 9 gr\n27 9p D\nB 30 8\n");
}

TEST(UpdatePage, TypingTheSameAgainMakesNoEdits) {
    Desk desk;
    desk.type(
        std::string(start) + "A 28½ 9 gr\naim A = dead pine\nPINE = A 26¾ / rods 26¾ spod 26\n");
    EXPECT_TRUE(updatePage(desk.book, desk.page, desk.lines(), desk.ids)->edits.empty());
}

TEST(UpdatePage, RemembersWhatThePageSaidOnlyWhileThatIsHowItStands) {
    Desk desk;
    desk.type(std::string(start) + "level 0.3 m\nA 28½ 9 gr\n");
    desk.undo();
    desk.undo(); // also the level is gone: what `last` says of the page is not so any more
    auto lines = desk.lines();
    lines.push_back({.id = {}, .text = "A 27 8"});
    desk.type(lines);
    desk.type("level 0.4 m");
    ASSERT_TRUE(desk.book.all<Visit>().begin()->level.has_value());
    EXPECT_DOUBLE_EQ(desk.book.all<Visit>().begin()->level->number, 0.4);
}

TEST(UpdatePage, PageThatNamesItsOwnSwimsTypedAgainMakesNoEdits) {
    const std::string day = "date 2025-04-12";
    for (const std::vector<std::string>& page : std::vector<std::vector<std::string>>{
             {day, "swim foo", "swim foo"},
             {day, "swim A", "swim foo", "swim A"},
             {"swim A", day, "swim foo", "A 20 9", "A 21 9", "A 22 9", "swim foo", day, "A 20 9"},
             {"swim A", day, "reel old", "A 20 9", "reel old", "A 21 9"}}) {
        Desk desk;
        std::vector<TypedLine> typed;
        for (const std::string& line : page) {
            typed.push_back({.id = {}, .text = line});
        }
        desk.type(typed);
        const PageUpdate again = desk.type(desk.lines());
        EXPECT_EQ(again.edits.size(), 0U) << pageText(desk.book, desk.page.id);
    }
}

TEST(UpdatePage, TwoLinesOfOneSpotTypedAgainMakeNoEdits) {
    Desk desk;
    desk.type(std::string(start) + "PINE = A 26¾\nPINE = B 26 / rods 26\n");
    EXPECT_TRUE(updatePage(desk.book, desk.page, desk.lines(), desk.ids)->edits.empty());
}

TEST(UpdatePage, OneMoreLineTouchesNothingElse) {
    Desk desk;
    desk.type(std::string(start) + "A 28½ 9 gr\n");
    auto lines = desk.lines();
    lines.push_back({.id = {}, .text = "27 9"});
    EXPECT_EQ(updatePage(desk.book, desk.page, lines, desk.ids)->edits.size(), 2U)
        << "the reading and its line";
}

TEST(UpdatePage, AChangedLineKeepsItsReadingAndCast) {
    Desk desk;
    desk.type(std::string(start) + "A 28½ 9 gr\n27 9\n");
    const Id<Reading> before = *linesOf(desk.book, desk.page.id).back()->reading;
    auto lines = desk.lines();
    lines.back().text = "27 10";
    desk.type(lines);
    const PageLine* line = linesOf(desk.book, desk.page.id).back();
    EXPECT_EQ(*line->reading, before);
    EXPECT_EQ(desk.book.get(before).depth->value.number, 10.0);
}

TEST(UpdatePage, OtherSticksChangeTheVisitAndNoReading) {
    Desk desk;
    desk.type(std::string(start) + "A 26¾ 9\n");
    auto lines = desk.lines();
    lines[2].text = "sticks 13 ft";
    const PageUpdate update = desk.type(lines);
    EXPECT_EQ(update.edits.size(), 2U) << "the visit and the line";
    const Reading& reading = *desk.book.all<Reading>().begin();
    EXPECT_EQ(reading.from, (Entered{26.75, Unit::Wrap, "26¾"}));
    EXPECT_EQ(desk.book.all<Visit>().begin()->sticks->number, 13.0);
    desk.undo();
    EXPECT_EQ(desk.book.all<Visit>().begin()->sticks->number, 12.0);
}

TEST(UpdatePage, WithoutASwimOrADateReadingsWaitAndNothingIsLost) {
    Desk desk;
    desk.type("distances wraps\ndepths ft\nA 28 9\n");
    EXPECT_TRUE(desk.book.all<Reading>().empty());
    EXPECT_EQ(linesOf(desk.book, desk.page.id).size(), 3U);
    desk.type("swim P14\ndate 2025-04-12\n");
    EXPECT_EQ(desk.book.all<Reading>().size(), 1U);
}

TEST(UpdatePage, ARetypedSwimNameLeavesNoStrayBehind) {
    Desk desk;
    desk.type("swim P1\ndate 2025-04-12\ndistances wraps\ndepths ft\nA 28 9\n");
    auto lines = desk.lines();
    lines[0].text = "swim P14";
    desk.type(lines);
    ASSERT_EQ(desk.book.all<Swim>().size(), 1U);
    EXPECT_EQ(desk.book.all<Swim>().begin()->name, "P14");
    EXPECT_EQ(desk.book.all<Visit>().size(), 1U);
    EXPECT_EQ(desk.book.all<Reading>().size(), 1U);
}

TEST(UpdatePage, NeverRemovesWhatAnotherPageOrImportMade) {
    Desk desk;
    desk.type(std::string(start) + "A 28 9\n");
    const Id<Visit> visit = desk.book.all<Visit>().begin()->id;
    const Cast other{
        .id = desk.ids.take<Cast>(),
        .visit = visit,
        .order = 1,
        .name = "7",
        .aim = {},
        .bearing = {},
        .reel = {}};
    Reading reading;
    reading.id = desk.ids.take<Reading>();
    reading.cast = other.id;
    reading.from = {20.0, Unit::Wrap, "20"};
    desk.book = applyEdits(desk.book, {Put<Cast>{other}, Put<Reading>{reading}})->book;
    desk.type(std::vector<TypedLine>{});
    EXPECT_NE(desk.book.find(reading.id), nullptr);
    EXPECT_NE(desk.book.find(other.id), nullptr);
    EXPECT_NE(desk.book.find(visit), nullptr);
    EXPECT_EQ(desk.book.all<Reading>().size(), 1U);
    EXPECT_NE(desk.book.get(visit).sticks, std::nullopt) << "others rely on it";
}

TEST(UpdatePage, ASpotKeepsTheLengthsOfOtherVisits) {
    Desk desk;
    desk.type(std::string(start) + "A 28 9\nPINE = A 26¾ / rods 26¾ spod 26\n");
    const Spot& spot = *desk.book.all<Spot>().begin();
    EXPECT_EQ(spot.lengths.size(), 2U);
    desk.type("date 2025-05-03\nA 28 9\nPINE = A 26½ / rods 26½\n");
    ASSERT_EQ(desk.book.all<Spot>().size(), 1U);
    EXPECT_EQ(desk.book.all<Spot>().begin()->lengths.size(), 3U);
}

/// Invariant: whatever the order of the changes, the book says what the final page says, as if it
/// had been typed at once.
TEST(UpdatePage, AnyOrderOfChangesEndsAsTheFinalPageTypedAtOnce) {
    const std::vector<std::string> stock{
        "A 30 6 gr",
        "28 7",
        "27-25 si glide",
        "B 26 9p D",
        "+ 24 8",
        "-1 soft",
        "",
        "95t 11",
        "aim A = dead pine",
        "aim B = A + 10 deg right",
        "aim C = left of B",
        "C 22 5",
        "a note",
        "PINE = A 26¾ / rods 26¾ spod 26",
        "reel other",
        "swim P3",
        "date 2025-05-03",
        "level 0.2 m",
        "sticks 13 ft",
        "A 28% 9",
        "110 9",
        "OAK = B 20"};
    for (unsigned seed = 1; seed <= 40; ++seed) {
        SCOPED_TRACE(seed);
        std::mt19937 random(seed);
        Desk desk;
        desk.type(start);
        std::vector<Book> states{desk.book};
        for (int step = 0; step < 40; ++step) {
            auto lines = desk.lines();
            const auto any = [&] { return random() % (lines.size() + 1); };
            const std::size_t at = std::min<std::size_t>(5 + any(), lines.size());
            const auto what = random() % 5;
            if (what < 3 || at >= lines.size()) {
                lines.insert(
                    lines.begin() + static_cast<std::ptrdiff_t>(at),
                    TypedLine{.id = {}, .text = stock[random() % stock.size()]});
            } else if (what == 3) {
                lines[at].text = stock[random() % stock.size()];
            } else {
                const TypedLine moved = lines[at];
                lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(at));
                if (random() % 2 == 0) {
                    lines.push_back(moved);
                }
            }
            desk.type(lines);
            states.push_back(desk.book);
        }
        Desk fresh;
        std::vector<TypedLine> all;
        for (const TypedLine& line : desk.lines()) {
            all.push_back({.id = {}, .text = line.text});
        }
        fresh.type(all);
        EXPECT_EQ(told(desk.book, {1}), told(fresh.book, {1})) << pageText(desk.book, desk.page.id);
        while (desk.history.canUndo() && states.size() > 1) {
            states.pop_back();
            desk.undo();
            ASSERT_EQ(desk.book, states.back());
        }
    }
}

} // namespace
} // namespace bedlore
