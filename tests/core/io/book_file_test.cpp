// SPDX-License-Identifier: MIT
#include "core/base/overloaded.hpp"
#include "core/book/fields.hpp"
#include "core/io/book_file.hpp"
#include "tests/core/io/store_support.hpp"

#include <chrono>
#include <cstddef>
#include <limits>
#include <memory>
#include <set>
#include <stop_token>
#include <string>
#include <variant>
#include <vector>

namespace bedlore {
namespace {

using testing::bookOf;
using testing::bytesOf;
using ::testing::ElementsAre;
using testing::everyRecord;
using ::testing::HasSubstr;
using testing::isASentence;
using ::testing::IsEmpty;
using testing::makeFullBook;
using testing::sayings;
using testing::TempFolder;

/// Compares table by table, so that a difference names its table.
template <class... Records>
void expectSame(RecordTypes<Records...>, const Book& a, const Book& b) {
    ([&] { EXPECT_TRUE(a.all<Records>() == b.all<Records>()) << tableName<Records>; }(), ...);
}
void expectSame(const Book& a, const Book& b) {
    expectSame(AllRecords{}, a, b);
}

TEST(BookFile, NewBookIsEmptyAndStartsItsCounters) {
    const TempFolder folder;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_TRUE(file->book() == Book{});
    EXPECT_EQ(file->nextId(), 1);
    EXPECT_EQ(file->editNumber(), 0);
    EXPECT_TRUE(file->isWritable());
    EXPECT_THAT(file->notices(), IsEmpty());
    EXPECT_EQ(file->integrity(), "ok");
}

TEST(BookFile, IsNeverMadeInPlaceOfSomethingElse) {
    const TempFolder folder;
    testing::putBytes(folder / "a.gpkg", "his notes");
    const Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_FALSE(file);
    EXPECT_THAT(file.error().message, isASentence());
    EXPECT_EQ(file.error().fault, Fault::Input);
    EXPECT_EQ(bytesOf(folder / "a.gpkg"), "his notes");
}

TEST(BookFile, IsNotMadeInAFolderThatIsNotThere) {
    const TempFolder folder;
    const Result<BookFile> file = BookFile::create(folder / "no" / "a.gpkg");
    ASSERT_FALSE(file);
    EXPECT_THAT(file.error().message, isASentence());
}

TEST(BookFile, LeavesNothingBesideItselfWhenItIsClosed) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path())) {
        names.push_back(entry.path().filename());
    }
    EXPECT_THAT(names, ElementsAre("a.gpkg"));
}

TEST(BookFile, GivesBackEveryRecordAfterReopening) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    expectSame(again->book(), bookOf(everyRecord()));
    EXPECT_EQ(again->nextId(), 27);
    EXPECT_EQ(again->editNumber(), 1);
    EXPECT_EQ(again->integrity(), "ok");
    EXPECT_THAT(again->notices(), IsEmpty());
}

/// Another value for what the sample leaves at one choice only: every form of a place, an aim and a
/// spot, and every optional field empty.
Edits otherForms() {
    using namespace std::chrono;
    Edits edits;
    const auto put = [&](auto record) {
        edits.emplace_back(Put<decltype(record)>{std::move(record)});
    };
    put(Water{.id = {30}, .name = "", .shore = {{.vertices = {}}}});
    put(Swim{
        .id = {31}, .water = {30}, .name = "O'Neill; \"Ω\" ½ \\", .place = Point{-0.1, 1e300}});
    put(Swim{.id = {32}, .water = {30}, .name = "nowhere yet"});
    put(Mark{.id = {33}, .water = {30}, .name = "mast"});
    put(Photo{.id = {34}, .mark = {33}});
    put(Photo{.id = {35}, .mark = {33}, .bytes = std::make_shared<const std::vector<std::byte>>()});
    put(Rod{.id = {36}});
    put(Reel{.id = {37}});
    put(Kit{.id = {38}});
    put(Visit{.id = {39}, .swim = {31}, .date = Date{year{1999}, month{12}, day{31}}});
    put(Aim{.id = {40}, .visit = {39}});
    put(
        Aim{.id = {41},
            .visit = {39},
            .basis = AimAtBearing{{{-359.5, Unit::Degree, "-359.5"}, North::Magnetic}}});
    put(Aim{.id = {42}, .visit = {39}, .basis = AimAtClock{{1.0, Unit::ClockHour, "1 o'clock"}}});
    put(Aim{.id = {43}, .visit = {39}, .basis = AimLeftOf{{41}}});
    put(Aim{.id = {44}, .visit = {39}, .basis = AimAtMark{.mark = {33}, .offset = {}}});
    put(Cast{.id = {45}, .visit = {39}});
    put(Reading{.id = {46}, .cast = {45}, .from = {0.1 + 0.2, Unit::Metre, "⅓\n\t"}});
    put(FixSet{.id = {47}, .water = {30}});
    FixColumns bare;
    bare.x = {1.0};
    bare.y = {2.0};
    bare.depth = {-3.0};
    put(FixSet{
        .id = {48},
        .water = {30},
        .frame = FixFrame::Plane,
        .columns = std::make_shared<const FixColumns>(bare)});
    put(Spot{.id = {49}, .water = {30}, .place = Place{Point{3.0, 4.0}}});
    put(Spot{.id = {50}, .water = {30}, .place = Place{GeographicPoint{1.0, 2.0}}});
    put(Spot{.id = {51}, .water = {30}});
    put(LogEntry{.id = {52}, .visit = {39}, .content = RodOut{}});
    put(LogEntry{.id = {53}, .visit = {39}, .content = BaitPut{}});
    put(LogEntry{.id = {54}, .visit = {39}, .content = Bite{}});
    put(Hazard{.id = {55}, .water = {30}});
    put(Page{.id = {56}, .water = {30}});
    put(PageLine{.id = {57}, .page = {56}, .text = std::string("a\0b", 3)});
    return edits;
}

TEST(BookFile, GivesBackEveryFormOfAFieldAndEveryEmptyOne) {
    const TempFolder folder;
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        const Result<void> written = file->write(otherForms(), 58);
        ASSERT_TRUE(written) << sayings(written);
    }
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    expectSame(again->book(), bookOf(otherForms()));
}

TEST(BookFile, EmptyCellsOfFixesStayEmpty) {
    const TempFolder folder;
    FixColumns columns;
    columns.x = {1.0, 2.0};
    columns.y = {1.0, 2.0};
    columns.depth = {1.0, 2.0};
    columns.sigma = {std::numeric_limits<float>::quiet_NaN(), 0.5F};
    columns.level = {0.25F, std::numeric_limits<float>::quiet_NaN()};
    columns.day = {std::numeric_limits<std::int32_t>::min(), 1};
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        const FixSet fixes{
            .id = {2}, .water = {1}, .columns = std::make_shared<const FixColumns>(columns)};
        const Result<void> written = file->write({Put<Water>{{.id = {1}}}, Put<FixSet>{fixes}}, 3);
        ASSERT_TRUE(written) << sayings(written);
    }
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    const FixColumns& read = *again->book().get(Id<FixSet>{2}).columns;
    EXPECT_TRUE(std::isnan(read.sigma[0]));
    EXPECT_EQ(read.sigma[1], 0.5F);
    EXPECT_EQ(read.level[0], 0.25F);
    EXPECT_TRUE(std::isnan(read.level[1]));
    EXPECT_EQ(read.day, columns.day);
}

TEST(BookFile, MillionFixesAreGivenBackExactly) {
    constexpr std::size_t rows = 1'000'000;
    const TempFolder folder;
    FixColumns columns;
    for (std::size_t i = 0; i < rows; ++i) {
        const auto v = static_cast<double>(i);
        columns.x.push_back(v * 0.1);
        columns.y.push_back(-v / 3.0);
        columns.depth.push_back(v * 1e-5);
        columns.sigma.push_back(static_cast<float>(v));
        columns.substrate.push_back(static_cast<std::uint8_t>(i % 13));
    }
    std::vector<std::uint8_t> excluded(rows, 0);
    excluded[77] = 1;
    const Edits edits{
        Put<Water>{{.id = {1}}},
        Put<FixSet>{
            {.id = {2},
             .water = {1},
             .columns = std::make_shared<const FixColumns>(std::move(columns)),
             .excluded = std::make_shared<const std::vector<std::uint8_t>>(std::move(excluded))}}};
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        const Result<void> written = file->write(edits, 3);
        ASSERT_TRUE(written) << sayings(written);
    }
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_TRUE(again->book() == bookOf(edits));
}

TEST(BookFile, EveryEditIsWrittenAndReadBack) {
    // Puts one record after another, then puts each again, then takes all out: every alternative of
    // `Edit` is one write, and after each the file holds what `applyEdits` says.
    const TempFolder folder;
    Edits steps = everyRecord();
    for (const Edit& edit : everyRecord()) {
        steps.push_back(edit);
    }
    const Edits puts = everyRecord();
    for (auto at = puts.rbegin(); at != puts.rend(); ++at) {
        steps.push_back(std::visit(
            Overloaded{
                []<class Record>(const Put<Record>& put) -> Edit {
                    return Remove<Record>{put.record.id};
                },
                []<class Record>(const Remove<Record>& removal) -> Edit { return removal; }},
            *at));
    }
    std::set<std::size_t> alternatives;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    Book expected;
    for (const Edit& step : steps) {
        alternatives.insert(step.index());
        Result<Applied> applied = applyEdits(expected, {step});
        ASSERT_TRUE(applied) << sayings(applied);
        const Result<void> written = file->write({step}, 27);
        ASSERT_TRUE(written) << sayings(written);
        expected = applied->book;
        const Result<BookFile> reader = BookFile::open(folder / "a.gpkg", BookAccess::ReadOnly);
        ASSERT_TRUE(reader) << sayings(reader);
        ASSERT_TRUE(reader->book() == expected) << "alternative " << step.index();
    }
    EXPECT_EQ(alternatives.size(), std::variant_size_v<Edit::Kinds>);
    EXPECT_TRUE(expected == Book{});
}

TEST(BookFile, IsAsBeforeAfterUndoneEdits) {
    const TempFolder folder;
    const Book before = bookOf(everyRecord());
    const Result<Applied> removed = applyEdits(before, removalWithDependents(before, Id<Visit>{9}));
    ASSERT_TRUE(removed) << sayings(removed);
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write(everyRecord(), 27));
        ASSERT_TRUE(file->write(removalWithDependents(before, Id<Visit>{9}), 27));
        const Result<BookFile> middle = BookFile::open(folder / "a.gpkg", BookAccess::ReadOnly);
        ASSERT_TRUE(middle) << sayings(middle);
        expectSame(middle->book(), removed->book);
        const Result<void> undone = file->write(removed->inverse, 27);
        ASSERT_TRUE(undone) << sayings(undone);
    }
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    expectSame(again->book(), before);
    EXPECT_EQ(again->editNumber(), 3);
}

TEST(BookFile, NeverGivesAnIdTwiceNotEvenAfterUndo) {
    const TempFolder folder;
    const Edit put = Put<Word>{{.id = {5}, .text = "gv", .meaning = "gr"}};
    {
        Result<BookFile> file = BookFile::create(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write({put}, 6));
        ASSERT_TRUE(file->write({Remove<Word>{{5}}}, 6));
        EXPECT_EQ(file->nextId(), 6);
    }
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_EQ(again->nextId(), 6);
}

TEST(BookFile, CounterNeverGoesBack) {
    const TempFolder folder;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    ASSERT_TRUE(file->write({}, 10));
    ASSERT_TRUE(file->write({}, 3));
    EXPECT_EQ(file->nextId(), 10);
    ASSERT_TRUE(file->write({Put<Word>{{.id = {20}}}}, 3));
    EXPECT_EQ(file->nextId(), 21);
}

TEST(BookFile, WriteThatDoesNotFitChangesNothing) {
    const TempFolder folder;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    ASSERT_TRUE(file->write(everyRecord(), 27));
    const std::string before = bytesOf(folder / "a.gpkg");
    const Word word{.id = {30}, .text = "w", .meaning = "wd"};
    const std::vector<Edits> refused{
        {Put<Word>{word}, Put<Cast>{{.id = {31}, .visit = {99}}}}, // points at nothing
        {Put<Word>{word}, Remove<Swim>{{3}}},                      // still pointed at
        {Put<Word>{word}, Remove<Word>{{98}}},                     // not there
        {Put<Word>{word},
         Put<Reading>{
             {.id = {32},
              .cast = {12},
              .from = {std::numeric_limits<double>::quiet_NaN(), Unit::Metre, "?"}}}},
        {Put<Word>{word},
         Put<Reading>{
             {.id = {32},
              .cast = {12},
              .from = {std::numeric_limits<double>::infinity(), Unit::Metre, "?"}}}},
        {Put<Word>{word},
         Put<Aim>{
             {.id = {33},
              .visit = {9},
              .basis = AimAtClock{{std::numeric_limits<double>::infinity()}}}}},
        {Put<Word>{word}, Put<Visit>{{.id = {34}, .swim = {3}, .date = Date{}}}},
        {Put<Word>{word},
         Put<FixSet>{
             {.id = {35},
              .water = {2},
              .columns = std::make_shared<const FixColumns>(FixColumns{.x = {1.0}})}}}};
    for (const Edits& edits : refused) {
        const Result<void> written = file->write(edits, 40);
        ASSERT_FALSE(written);
        EXPECT_EQ(written.error().fault, Fault::Input) << sayings(written);
        EXPECT_THAT(written.error().message, isASentence());
        EXPECT_EQ(file->editNumber(), 1);
        EXPECT_EQ(file->nextId(), 27);
        EXPECT_TRUE(bytesOf(folder / "a.gpkg") == before) << sayings(written);
    }
    EXPECT_TRUE(file->write({Put<Word>{word}}, 40)) << "a refused write left something behind";
}

TEST(BookFile, StoppedWriteChangesNothingAndTheNextOneGoesThrough) {
    const TempFolder folder;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    Edits edits;
    for (int i = 1; i <= 5000; ++i) {
        Water water;
        water.id = {i};
        water.name = "Water " + std::to_string(i);
        edits.emplace_back(Put<Water>{water});
    }
    std::stop_source stop;
    stop.request_stop();
    const Result<void> stopped = file->write(edits, 5001, Progress(stop.get_token()));
    ASSERT_FALSE(stopped);
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
    EXPECT_EQ(file->editNumber(), 0);
    ASSERT_TRUE(file->write(edits, 5001));
    EXPECT_EQ(file->integrity(), "ok");
    file = BookFile::open(folder / "a.gpkg", BookAccess::ReadOnly);
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(file->book().all<Water>().size(), 5000U);
    EXPECT_EQ(file->editNumber(), 1);
}

TEST(BookFile, OneWriteMayTakeOutParentsBeforeChildren) {
    // References are looked at when the whole write is there, not line by line.
    const TempFolder folder;
    Result<BookFile> file = BookFile::create(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    const Result<void> written =
        file->write({Put<Swim>{{.id = {2}, .water = {1}}}, Put<Water>{{.id = {1}}}}, 3);
    EXPECT_TRUE(written) << sayings(written);
    const Result<void> removed = file->write({Remove<Water>{{1}}, Remove<Swim>{{2}}}, 3);
    EXPECT_TRUE(removed) << sayings(removed);
}

TEST(BookFile, CopyHoldsTheSameAndIsNeverPutOverSomething) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    for (const BookAccess access : {BookAccess::ReadWrite, BookAccess::ReadOnly}) {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg", access);
        ASSERT_TRUE(file) << sayings(file);
        std::filesystem::remove(folder / "b.gpkg");
        const Result<void> copied = file->copyTo(folder / "b.gpkg");
        ASSERT_TRUE(copied) << sayings(copied);
        Result<BookFile> copy = BookFile::open(folder / "b.gpkg");
        ASSERT_TRUE(copy) << sayings(copy);
        expectSame(copy->book(), file->book());
        EXPECT_EQ(copy->nextId(), file->nextId());
        EXPECT_EQ(copy->integrity(), "ok");
        const Result<void> over = file->copyTo(folder / "a.gpkg");
        ASSERT_FALSE(over);
        EXPECT_THAT(over.error().message, isASentence());
        EXPECT_FALSE(file->copyTo(folder / "no" / "c.gpkg"));
        EXPECT_EQ(file->isWritable(), access == BookAccess::ReadWrite);
        EXPECT_EQ(file->write({}, 30).has_value(), access == BookAccess::ReadWrite);
    }
}

TEST(BookFile, SecondOpenerReadsOnlyAndIsTold) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    std::filesystem::create_symlink(folder / "a.gpkg", folder / "link.gpkg");
    {
        const Result<BookFile> first = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(first) << sayings(first);
        for (const char* name : {"a.gpkg", "link.gpkg"}) {
            Result<BookFile> second = BookFile::open(folder / name);
            ASSERT_TRUE(second) << sayings(second);
            EXPECT_FALSE(second->isWritable());
            EXPECT_THAT(second->notices(), ElementsAre(isASentence()));
            expectSame(second->book(), first->book());
            const Result<void> written = second->write({}, 99);
            ASSERT_FALSE(written);
            EXPECT_EQ(written.error().fault, Fault::Machine);
            EXPECT_THAT(written.error().message, isASentence());
            EXPECT_FALSE(second->writeDerived({}));
        }
    }
    const Result<BookFile> later = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(later) << sayings(later);
    EXPECT_TRUE(later->isWritable());
    EXPECT_THAT(later->notices(), IsEmpty());
}

TEST(BookFile, NoticesThatAnotherProgramWrote) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_FALSE(file->catchUp().value());
    ASSERT_TRUE(file->write({}, 27));
    EXPECT_FALSE(file->catchUp().value()) << "its own write is not another's";
    ASSERT_EQ(testing::sqlite(folder / "a.gpkg", "UPDATE words SET text = 'gg'").status, 0);
    EXPECT_TRUE(file->catchUp().value());
    EXPECT_FALSE(file->catchUp().value()) << "said once";
}

TEST(BookFile, RowsThatAnotherProgramAddedTakeTheirIdsOutOfTheCounter) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ASSERT_EQ(
        testing::sqlite(folder / "a.gpkg", "INSERT INTO words VALUES (40, 'a', 'b')").status, 0);
    const Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(file->nextId(), 41);
}

TEST(BookFile, RefusesToWriteOverWhatAnotherProgramCounted) {
    // Two programs that both think they hold the book, as on a disk without locks.
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    ASSERT_EQ(
        testing::sqlite(folder / "a.gpkg", "UPDATE meta SET edit_number = edit_number + 1").status,
        0);
    const Result<void> written = file->write({Put<Word>{{.id = {30}}}}, 31);
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().fault, Fault::Machine);
    EXPECT_THAT(written.error().message, HasSubstr("Another program"));
}

TEST(BookFile, PathHoldsAnyCharacters) {
    const TempFolder folder;
    const std::string name = "Øst's \"pit\" ½? #1%20.gpkg";
    ASSERT_TRUE(makeFullBook(folder / name));
    Result<BookFile> file = BookFile::open(folder / name);
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_TRUE(file->isWritable());
    EXPECT_TRUE(file->copyTo(folder / ("copy of " + name)));
}

} // namespace
} // namespace bedlore
