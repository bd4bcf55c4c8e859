// SPDX-License-Identifier: MIT
#include "core/book/page_edits.hpp"
#include "core/book/taught.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace bedlore {
namespace {

using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

const std::vector<std::string> head{
    "date 2025-04-12", "sticks 12 ft", "distances wraps", "depths ft"};

/// A book with pages, each typed as it stands.
struct TaughtBook {
    Book book;
    IdSource ids{2};

    TaughtBook() { book.all<Water>().put({.id = {1}, .name = "Harl Pit"}); }

    Id<Page> type(const std::string& swim, const std::vector<std::string>& lines) {
        const Page page{.id = ids.take<Page>(), .water = {1}, .author = {}, .file = {}};
        std::vector<TypedLine> typed{{.id = {}, .text = "swim " + swim}};
        for (const std::string& line : head) {
            typed.push_back({.id = {}, .text = line});
        }
        for (const std::string& line : lines) {
            typed.push_back({.id = {}, .text = line});
        }
        const auto update = updatePage(book, page, typed, ids);
        EXPECT_TRUE(update.has_value());
        apply(update->edits);
        return page.id;
    }
    void apply(const Edits& edits) {
        const auto applied = applyEdits(book, edits);
        ASSERT_TRUE(applied.has_value()) << applied.error().message;
        book = applied->book;
    }
    void applyWithPages(const Result<Edits>& taught) {
        ASSERT_TRUE(taught.has_value()) << taught.error().message;
        const auto edits = withPagesReread(book, *taught, ids);
        ASSERT_TRUE(edits.has_value()) << edits.error().message;
        apply(*edits);
    }
    void answer(const std::string& question, const std::string& value) {
        applyWithPages(
            Edits{Put<Answer>{{.id = ids.take<Answer>(), .question = question, .answer = value}}});
    }
    [[nodiscard]] const Reading& only() const {
        EXPECT_EQ(book.all<Reading>().size(), 1U);
        return *book.all<Reading>().begin();
    }
};

TEST(Taught, AWordCountsOnEveryPageAtOnce) {
    TaughtBook typed;
    typed.type("P1", {"A 28 9 gv"});
    typed.type("P2", {"A 27 8 gv tap"});
    EXPECT_THAT(typed.book.all<Reading>(), IsEmpty()) << "both lines ask what gv is";
    typed.applyWithPages(teach(typed.book, "gv", "gravel", typed.ids));
    ASSERT_EQ(typed.book.all<Reading>().size(), 2U);
    for (const Reading& reading : typed.book.all<Reading>()) {
        EXPECT_EQ(reading.substrate, Substrate::Gravel);
    }
}

TEST(Taught, ForgettingAsksAgainAndTakesTheReadingBack) {
    TaughtBook typed;
    typed.type("P1", {"A 28 9 gv", "27 8"});
    const Book untaught = typed.book;
    typed.applyWithPages(teach(typed.book, "gv", "gravel", typed.ids));
    const std::vector<Taught> taught = taughtIn(typed.book);
    ASSERT_EQ(taught.size(), 1U);
    typed.applyWithPages(forget(typed.book, taught[0].record));
    EXPECT_THAT(taughtIn(typed.book), IsEmpty());
    const auto line = [&](const Book& book) {
        return std::find_if(
                   book.all<PageLine>().begin(),
                   book.all<PageLine>().end(),
                   [](const PageLine& l) { return l.text == "A 28 9 gv"; })
            ->kind;
    };
    EXPECT_EQ(line(typed.book), LineKind::Unclear);
    EXPECT_EQ(line(untaught), LineKind::Unclear);
    EXPECT_EQ(typed.only().from.number, 27.0);
}

TEST(Taught, APointInFeetIsChangedForTheWholeBook) {
    TaughtBook typed;
    typed.type("P1", {"A 28 11.6"});
    typed.answer("point in feet", "inches");
    // Source: by hand. 11 ft 6 in is 11.5 ft.
    EXPECT_DOUBLE_EQ(typed.only().depth->value.number, 11.5);
    const Id<Reading> reading = typed.only().id;
    const std::vector<Taught> taught = taughtIn(typed.book);
    ASSERT_EQ(taught.size(), 1U);
    EXPECT_EQ(taught[0].asked, "11.6 in feet");
    EXPECT_EQ(taught[0].meaning, "11 ft 6 in");
    EXPECT_THAT(
        taught[0].choices,
        ElementsAre(
            Taught::Choice{"11 ft 6 in", "inches"}, Taught::Choice{"tenths of a foot", "tenths"}));
    typed.applyWithPages(answerAnew(typed.book, taught[0], "tenths"));
    EXPECT_DOUBLE_EQ(typed.only().depth->value.number, 11.6);
    EXPECT_EQ(typed.only().id, reading) << "the same reading, read otherwise";
}

TEST(Taught, BareNumbersOfAVisitSayWhichVisit) {
    TaughtBook typed;
    typed.answer("bare depth, P1, 12 April 2025", "pull");
    typed.answer("bare distance, P1, 12 April 2025", "yd");
    const std::vector<Taught> taught = taughtIn(typed.book);
    ASSERT_EQ(taught.size(), 2U);
    EXPECT_EQ(taught[0].asked, "bare depths, P1, 12 April 2025");
    EXPECT_EQ(taught[0].meaning, "pulls");
    EXPECT_EQ(taught[1].asked, "bare distances, P1, 12 April 2025");
    EXPECT_EQ(taught[1].meaning, "yards");
    EXPECT_EQ(taught[0].choices.size(), 3U) << "feet, pulls, metres";
    EXPECT_EQ(taught[1].choices.size(), 4U) << "wraps, yards, metres, turns";
}

TEST(Taught, ANewMeaningTakesThePlaceOfTheOld) {
    TaughtBook typed;
    typed.answer("word gv", "gravel"); // answered on a page
    typed.applyWithPages(teach(typed.book, "GV", "hard clay", typed.ids));
    const std::vector<Taught> taught = taughtIn(typed.book);
    ASSERT_EQ(taught.size(), 1U);
    EXPECT_EQ(taught[0].meaning, "hard clay");
    EXPECT_TRUE(taught[0].isWord);
}

TEST(Taught, SaysWhatCannotBeTaught) {
    TaughtBook typed;
    const auto why = [&](const char* word, const char* meaning) {
        const auto taught = teach(typed.book, word, meaning, typed.ids);
        return taught ? std::string() : taught.error().message;
    };
    EXPECT_THAT(why("", "gravel"), HasSubstr("one word"));
    EXPECT_THAT(why("two words", "gravel"), HasSubstr("one word"));
    EXPECT_THAT(why("9p", "gravel"), HasSubstr("one word"));
    EXPECT_THAT(why("gv", ""), HasSubstr("what gv means"));
    EXPECT_THAT(why("gv", "gravel quux"), HasSubstr("\"quux\" is not a word"));
    EXPECT_EQ(why("clonk", "hard drop tap"), "");
    EXPECT_EQ(why("hm", "note"), "");
}

TEST(Taught, VocabularyHoldsEveryWordOnce) {
    std::vector<std::string_view> words = vocabulary();
    EXPECT_THAT(words, Contains("gravel"));
    EXPECT_THAT(words, Contains("hard drop"));
    EXPECT_EQ(words.front(), "rock");
    std::sort(words.begin(), words.end());
    EXPECT_EQ(std::adjacent_find(words.begin(), words.end()), words.end());
}

} // namespace
} // namespace bedlore
