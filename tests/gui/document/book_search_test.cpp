// SPDX-License-Identifier: MIT
#include "core/book/edit.hpp"
#include "gui/document/book_search.hpp"
#include "tests/gui/document/typed_book.hpp"

#include <gmock/gmock.h>

// Words of his in the whole book.

namespace bedlore::testing {
namespace {

using ::testing::SizeIs;

TEST(FoldedForSearch, LeavesCaseAndAccentsAside) {
    EXPECT_EQ(foldedForSearch(QStringLiteral("Élodée ÅSEN")), QStringLiteral("elodee asen"));
    EXPECT_EQ(foldedForSearch(QStringLiteral("Bøllemosen")), QStringLiteral("bollemosen"));
    EXPECT_EQ(foldedForSearch(QStringLiteral("28½")), QStringLiteral("281/2"));
}

class Search : public ::testing::Test {
protected:
    TypedBook typed_{
        {"aim A = dead pine",
         "A 28½ 9 gr",
         "27 8 gr Élodée on the lead",
         "50% (a+b)* is no pattern",
         "wind SW3, gravel washed clean"}};
    BookSearch search_{typed_.document->book()};

    std::vector<FoundLine> found(const char* words) {
        return search_.find(QString::fromUtf8(words), 100).lines;
    }
};

TEST_F(Search, FindsALineOfAPageAndSaysWhereItStands) {
    const auto lines = found("elodee");
    ASSERT_THAT(lines, SizeIs(1));
    EXPECT_EQ(lines[0].text, QStringLiteral("27 8 gr Élodée on the lead"));
    EXPECT_EQ(lines[0].where, QStringLiteral("Harl Pit › the Point › 12 April 2025 › line 9"));
    const auto& place = std::get<FoundOnPage>(lines[0].place);
    EXPECT_EQ(place.line, 8);
    EXPECT_EQ(place.page, typed_.document->book()->all<Page>().begin()->id);
}

TEST_F(Search, WantsEveryWordInAnyOrder) {
    EXPECT_THAT(found("washed GRAVEL"), SizeIs(1));
    EXPECT_THAT(found("washed rock"), SizeIs(0));
}

TEST_F(Search, TakesEveryLetterForItself) {
    EXPECT_THAT(found("(a+b)*"), SizeIs(1));
    EXPECT_THAT(found("50%"), SizeIs(1));
    EXPECT_THAT(found(".*"), SizeIs(0));
    EXPECT_THAT(found("28½"), SizeIs(1));
}

TEST_F(Search, FindsWhatACodeStandsFor) {
    EXPECT_THAT(found("gravel"), SizeIs(3)) << "two readings of \"gr\", and the note";
    EXPECT_THAT(found("gravel 28½"), SizeIs(1));
    EXPECT_EQ(found("gravel 28½").front().text, QStringLiteral("A 28½ 9 gr")) << "as he wrote it";
    EXPECT_THAT(found("silt"), SizeIs(0));
}

TEST_F(Search, FindsNothingForNothing) {
    EXPECT_THAT(found(""), SizeIs(0));
    EXPECT_THAT(found("   "), SizeIs(0));
}

TEST_F(Search, FindsSwimsMarksAndVisits) {
    std::vector<std::size_t> kinds;
    for (const FoundLine& line : found("point")) {
        kinds.push_back(line.place.index());
    }
    // Source: FoundPlace's own order: 0 a line, 3 a swim.
    EXPECT_THAT(kinds, ::testing::ElementsAre(3, 0));
    ASSERT_THAT(found("dead pine"), SizeIs(2));
    EXPECT_TRUE(std::holds_alternative<Id<Mark>>(found("dead pine")[0].place));
    ASSERT_THAT(found("april"), SizeIs(1));
    EXPECT_TRUE(std::holds_alternative<Id<Visit>>(found("april")[0].place));
}

TEST_F(Search, CountsMoreThanItShows) {
    const Found few = search_.find(QStringLiteral("gr"), 1);
    EXPECT_THAT(few.lines, SizeIs(1));
    EXPECT_EQ(few.count, 3U) << "two readings and the gravel of the note";
}

TEST_F(Search, KnowsWhatHasGone) {
    const auto line = found("elodee").at(0).place;
    EXPECT_TRUE(whereFound(*typed_.document->book(), line).has_value());
    EXPECT_FALSE(whereFound(Book(), line).has_value());
}

} // namespace
} // namespace bedlore::testing
