// SPDX-License-Identifier: MIT
#include "core/book/leaving_book.hpp"
#include "tests/support/sample_records.hpp"

#include <gtest/gtest.h>

namespace bedlore::testing {
namespace {

/// The book with a record of every kind: its only mark and spot are private.
Book fullBook() {
    return applyEdits(Book{}, everyRecord()).value().book;
}

template <class Record>
Record of(const Book& book, std::int64_t id) {
    return book.get(Id<Record>{id});
}

TEST(LeavingBook, LeavesWhatIsPrivateAtHome) {
    const Book book = fullBook();
    EXPECT_EQ(privateThingsIn(book), (PrivateCounts{.spots = 1, .marks = 1, .photos = 1}))
        << "a photo of a private mark counts";
    const Book leaving = withoutPrivateThings(book);
    EXPECT_TRUE(leaving.all<Spot>().empty());
    EXPECT_TRUE(leaving.all<Mark>().empty());
    EXPECT_TRUE(leaving.all<Photo>().empty());
    EXPECT_TRUE(privateThingsIn(leaving).isNone());
}

TEST(LeavingBook, PointsAtNothingThatStayedAtHome) {
    const Book leaving = withoutPrivateThings(fullBook());
    const Aim aim = of<Aim>(leaving, 10);
    EXPECT_TRUE(std::holds_alternative<AimWithoutAngle>(aim.basis));
    EXPECT_EQ(aim.text, "…") << "the aim was called by the mark's name";
    EXPECT_FALSE(std::get<RodOut>(of<LogEntry>(leaving, 16).content).spot);
    EXPECT_FALSE(std::get<BaitPut>(of<LogEntry>(leaving, 17).content).spot);
    EXPECT_FALSE(std::get<Bite>(of<LogEntry>(leaving, 18).content).spot);
    EXPECT_FALSE(of<PageLine>(leaving, 24).spot);
    EXPECT_EQ(of<PageLine>(leaving, 24).reading, Id<Reading>{13});
}

TEST(LeavingBook, LeavesOutTheLineThatMadeASpotAndHidesItsNameElsewhere) {
    Book book = fullBook();
    const auto putLine = [&](std::int64_t id, LineKind kind, const std::string& text) {
        PageLine line{.id = {id}, .page = {23}, .order = 9, .text = text, .kind = kind};
        book.all<PageLine>().put(line);
    };
    putLine(30, LineKind::Spot, "pine = A 26 / rods 26");
    putLine(31, LineKind::Note, "left of Pine, by the PINES; pine's edge");
    putLine(32, LineKind::Header, "aim C = Dead Pine");
    Visit visit = of<Visit>(book, 9);
    visit.note = "PINE again";
    book.all<Visit>().put(visit);
    const Book leaving = withoutPrivateThings(book);
    EXPECT_EQ(leaving.find(Id<PageLine>{30}), nullptr);
    EXPECT_EQ(of<PageLine>(leaving, 31).text, "left of …, by the PINES; …'s edge");
    EXPECT_EQ(of<PageLine>(leaving, 32).text.find("Dead Pine"), std::string::npos);
    EXPECT_EQ(of<Visit>(leaving, 9).note, "… again");
    EXPECT_EQ(of<Swim>(leaving, 3), of<Swim>(book, 3));
}

TEST(LeavingBook, WithoutPrivateThingsIsTheBookItself) {
    Book book = fullBook();
    Spot spot = of<Spot>(book, 15);
    spot.isPrivate = false;
    book.all<Spot>().put(spot);
    Mark mark = of<Mark>(book, 4);
    mark.isPrivate = false;
    book.all<Mark>().put(mark);
    EXPECT_EQ(privateWords(privateThingsIn(book)), "");
    EXPECT_TRUE(withoutPrivateThings(book) == book);
}

TEST(LeavingBook, APublicSpotForgetsThePrivateMarkThatItIsAimedBy) {
    Book book = fullBook();
    Spot spot = of<Spot>(book, 15);
    spot.isPrivate = false;
    book.all<Spot>().put(spot);
    const Spot leaving = of<Spot>(withoutPrivateThings(book), 15);
    EXPECT_FALSE(leaving.dayMark);
    EXPECT_FALSE(leaving.dayOffset);
    EXPECT_FALSE(leaving.nightMark);
    EXPECT_EQ(leaving.name, "PINE");
    EXPECT_EQ(leaving.lengths, spot.lengths);
}

TEST(LeavingBook, CountsInWords) {
    EXPECT_EQ(
        privateWords({.spots = 2, .marks = 1, .photos = 0}), "2 private spots, 1 private mark");
}

} // namespace
} // namespace bedlore::testing
