// SPDX-License-Identifier: MIT
#include "core/book/edit.hpp"
#include "tests/support/sample_records.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

Book fullBook() {
    return applyEdits(Book{}, testing::everyRecord()).value().book;
}

template <class... Records>
bool holdsEveryType(RecordTypes<Records...>, const Book& book) {
    return (!book.all<Records>().empty() && ...);
}

TEST(Edit, SampleBookHoldsARecordOfEveryType) {
    EXPECT_TRUE(holdsEveryType(AllRecords{}, fullBook()));
}

/// Invariant: an edit followed by its inverse restores the book exactly, and the inverse's inverse
/// leads there again.
void expectThereAndBack(const Book& book, const Edits& edits) {
    const auto there = applyEdits(book, edits);
    ASSERT_TRUE(there.has_value()) << there.error().message;
    EXPECT_NE(there->book, book);
    const auto back = applyEdits(there->book, there->inverse);
    ASSERT_TRUE(back.has_value()) << back.error().message;
    EXPECT_EQ(back->book, book);
    const auto again = applyEdits(back->book, back->inverse);
    ASSERT_TRUE(again.has_value()) << again.error().message;
    EXPECT_EQ(again->book, there->book);
}

TEST(Edit, PuttingEveryTypeOfRecordAndBackIsExact) {
    const Edits edits = testing::everyRecord();
    Book book;
    for (const Edit& edit : edits) {
        expectThereAndBack(book, {edit});
        book = applyEdits(book, {edit}).value().book;
    }
    expectThereAndBack(Book{}, edits);
}

TEST(Edit, RemovingEveryTypeOfRecordAndBackIsExact) {
    const auto built = applyEdits(Book{}, testing::everyRecord());
    Book book = built->book;
    for (const Edit& removal : built->inverse) {
        expectThereAndBack(book, {removal});
        book = applyEdits(book, {removal}).value().book;
    }
    EXPECT_EQ(book, Book{});
}

TEST(Edit, ChangingARecordKeepsItsPlaceAndBackIsExact) {
    const Book book = fullBook();
    Reading reading = book.get(Id<Reading>{13});
    reading.note = "changed";
    expectThereAndBack(book, {Put<Reading>{reading}});
    EXPECT_EQ(applyEdits(book, {Put<Reading>{reading}})->book.get(Id<Reading>{13}).note, "changed");
    EXPECT_NE(book.get(Id<Reading>{13}).note, "changed") << "a snapshot must not move";
}

TEST(Edit, PuttingARecordThatPointsNowhereIsRefusedAndChangesNothing) {
    const Book book = fullBook();
    Reading reading = book.get(Id<Reading>{13});
    reading.id = {99};
    reading.cast = {98};
    const auto refused = applyEdits(book, {Put<Reading>{reading}});
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().fault, Fault::Input);
}

TEST(Edit, RemovingWhatIsStillUsedIsRefused) {
    EXPECT_FALSE(applyEdits(fullBook(), {Remove<Mark>{{4}}}).has_value());
    EXPECT_FALSE(applyEdits(fullBook(), {Remove<Visit>{{9}}}).has_value());
}

TEST(Edit, AFailureHalfWayGivesNoBookAtAll) {
    const Book book = fullBook();
    const auto result =
        applyEdits(book, {Put<Word>{{.id = {40}, .text = "x", .meaning = "y"}}, Remove<Mark>{{4}}});
    EXPECT_FALSE(result.has_value());
    EXPECT_EQ(book, fullBook());
}

TEST(Edit, RemovalWithDependentsTakesTheWholeTreeAndBackIsExact) {
    const Book book = fullBook();
    const Edits edits = removalWithDependents(book, Id<Visit>{9});
    expectThereAndBack(book, edits);
    const Book after = applyEdits(book, edits)->book;
    EXPECT_TRUE(after.all<Reading>().empty());
    EXPECT_TRUE(after.all<Cast>().empty());
    EXPECT_FALSE(after.all<Water>().empty());
}

TEST(Edit, LargestIdCoversPutsAndRemovals) {
    EXPECT_EQ(largestId(testing::everyRecord()), 26);
    EXPECT_EQ(largestId({Remove<Reading>{{77}}}), 77);
    EXPECT_EQ(largestId({}), 0);
}

TEST(Edit, ChangeNamesWhatWasTouched) {
    const auto applied = applyEdits(fullBook(), {Remove<Word>{{25}}});
    EXPECT_TRUE(applied->change.touches<Word>());
    EXPECT_FALSE(applied->change.touches<Reading>());
}

/// A visit with so many casts of one reading each, as an import puts them in.
Edits manyCasts(std::int64_t count) {
    Edits edits{
        Put<Water>{{.id = {1}}},
        Put<Swim>{{.id = {2}, .water = {1}}},
        Put<Visit>{{.id = {3}, .swim = {2}}}};
    for (std::int64_t i = 0; i < count; ++i) {
        edits.emplace_back(Put<Cast>{{.id = {4 + 2 * i}, .visit = {3}}});
        edits.emplace_back(Put<Reading>{{.id = {5 + 2 * i}, .cast = {4 + 2 * i}}});
    }
    return edits;
}

TEST(ApplyEdits, TakingBackAnImportGoesThroughTheBookOnce) {
    const Edits import = manyCasts(2000);
    const Applied done = applyEdits(Book{}, import).value();
    const Applied undone = applyEdits(done.book, done.inverse).value();
    EXPECT_TRUE(undone.book == Book{});
    EXPECT_LE(undone.lookedThrough, import.size());
    EXPECT_TRUE(applyEdits(undone.book, undone.inverse).value().book == done.book);
}

TEST(ApplyEdits, OfManyRemovalsOneOfSomethingUsedIsStillRefused) {
    const Applied done = applyEdits(Book{}, manyCasts(20)).value();
    Edits edits = done.inverse;
    std::swap(edits[10], edits[11]); // a cast before its reading
    EXPECT_FALSE(applyEdits(done.book, edits));
    // Moved to another cast in the same act, a reading does not hold its former one.
    Edits moved{Put<Reading>{{.id = {5}, .cast = {6}}}, Remove<Cast>{{4}}};
    for (std::int64_t id = 9; id < 27; id += 2) {
        moved.emplace_back(Remove<Reading>{{id}});
    }
    EXPECT_TRUE(applyEdits(done.book, moved));
    moved.emplace_back(Remove<Cast>{{6}});
    EXPECT_FALSE(applyEdits(done.book, moved)) << "two readings are on it now";
}

} // namespace
} // namespace bedlore
