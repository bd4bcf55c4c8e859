// SPDX-License-Identifier: MIT
#include "core/io/book_digests.hpp"
#include "core/io/book_file.hpp"
#include "core/io/xxhash.hpp"
#include "tests/core/io/store_support.hpp"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <random>
#include <sqlite3.h>
#include <string>
#include <vector>

// Damage is told from an edit: no flipped bit changes what was noted without being noticed, and
// what another program changes is no damage.

namespace bedlore {
namespace {

namespace fs = std::filesystem;

using testing::bookOf;
using testing::bytesOf;
using ::testing::ElementsAre;
using testing::everyRecord;
using ::testing::HasSubstr;
using testing::isASentence;
using ::testing::IsEmpty;
using testing::makeFullBook;
using testing::sayings;
using testing::sqlite;
using testing::TempFolder;

std::uint64_t hashOf(const std::string& text) {
    return xxHash64(std::as_bytes(std::span(text)), 0);
}

TEST(XxHash64, AgreesWithItsAuthorsProgram) {
    // Source: xxhsum 0.8.1 (Debian package xxhash 0.8.1-1), `xxhsum -H1 FILE` over these bytes.
    EXPECT_EQ(hashOf(""), 0xef46db3751d8e999U);
    EXPECT_EQ(hashOf("a"), 0xd24ec4f1a98c6e5bU);
    EXPECT_EQ(hashOf("abc"), 0x44bc2cf5ad770999U);
    EXPECT_EQ(hashOf("Nobody inspects the spammish repetition"), 0xfbcea83c8a378bf1U);
    std::string longer; // the byte i is 7 i modulo 256
    for (unsigned i = 0; i < 101; ++i) {
        longer += static_cast<char>(static_cast<unsigned char>(7 * i));
    }
    EXPECT_EQ(hashOf(longer), 0x42312f4d55d9bd17U);
}

TEST(BookDigests, TakenBackRowsLeaveTheSumsAsTheyWere) {
    BookDigests digests;
    digests.append("words", 3, 100);
    digests.append("words", 7, 1000);
    const BookDigests before = digests;
    EXPECT_EQ(digests.sumOf("words"), (TableSum{.rows = 2, .sum = 1100}));
    digests.put("words", 5, 10);
    digests.put("words", 3, 1);
    digests.put("words", 3, 2);
    digests.remove("words", 7);
    digests.put("spots", 9, 4);
    EXPECT_EQ(digests.sumOf("words"), (TableSum{.rows = 2, .sum = 12}));
    EXPECT_THAT(digests.difference(before), ElementsAre("spots", "words"));
    digests.takeBack();
    EXPECT_EQ(digests.sumOf("words"), (TableSum{.rows = 2, .sum = 1100}));
    EXPECT_THAT(digests.difference(before), IsEmpty());
    digests.put("words", 8, 1);
    digests.keep();
    digests.takeBack();
    EXPECT_EQ(digests.sumOf("words"), (TableSum{.rows = 3, .sum = 1101}));
}

TEST(BookDigests, RowsThatSwapTheirSumsAreDifferentRows) {
    BookDigests one;
    one.append("words", 1, 5);
    one.append("words", 2, 6);
    BookDigests other;
    other.append("words", 1, 6);
    other.append("words", 2, 5);
    EXPECT_THAT(one.difference(other), ElementsAre("words"));
}

/// A book that was edited, undone and read by other programs, and what it holds.
struct LivedIn {
    TempFolder folder;
    fs::path path = folder / "a.gpkg";
    Book book = bookOf(everyRecord());
    std::int64_t nextId = 0;
    std::int64_t editNumber = 0;

    LivedIn() {
        EXPECT_TRUE(makeFullBook(path));
        Result<BookFile> file = BookFile::open(path);
        EXPECT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->write({Put<Word>{{.id = {27}}}}, 28));
        EXPECT_TRUE(file->write({Remove<Word>{{27}}}, 28));
        EXPECT_TRUE(file->writeDerived({}));
        nextId = file->nextId();
        editNumber = file->editNumber();
    }

    /// Whether a copy with that bit the other way round was refused; opened, it must be the same.
    bool isRefusedWith(std::fstream& file, std::size_t at, unsigned bit) const {
        const auto turn = [&] {
            char byte = 0;
            file.seekg(static_cast<std::streamoff>(at));
            file.get(byte);
            byte = static_cast<char>(static_cast<unsigned char>(byte) ^ (1U << bit));
            file.seekp(static_cast<std::streamoff>(at));
            file.put(byte);
            file.flush();
        };
        turn();
        const Result<BookFile> damaged = BookFile::open(path, BookAccess::ReadOnly);
        turn();
        if (!damaged) {
            EXPECT_THAT(damaged.error().message, isASentence());
            EXPECT_EQ(damaged.error().fault, Fault::Input) << sayings(damaged);
            return true;
        }
        EXPECT_TRUE(damaged->book() == book) << "a value changed and nothing was said";
        EXPECT_EQ(damaged->nextId(), nextId);
        EXPECT_EQ(damaged->editNumber(), editNumber);
        EXPECT_THAT(damaged->notices(), IsEmpty());
        return false;
    }
};

TEST(BookFileFlipped, NoFlippedBitChangesARecordUnnoticed) {
    const LivedIn book;
    const std::string whole = bytesOf(book.path);
    constexpr unsigned seed = 20261125;
    std::mt19937 random(seed);
    std::fstream file(book.path, std::ios::in | std::ios::out | std::ios::binary);
    std::size_t refused = 0;
    std::size_t tried = 0;
    const auto tryBit = [&](std::size_t at, unsigned bit) {
        SCOPED_TRACE("byte " + std::to_string(at) + ", bit " + std::to_string(bit));
        refused += book.isRefusedWith(file, at, bit) ? 1U : 0U;
        ++tried;
    };
    for (std::size_t at = 0; at < 100; ++at) { // the whole header
        tryBit(at, static_cast<unsigned>(at % 8));
    }
    for (std::size_t page = 4096; page < whole.size(); page += 4096) { // the head of every page
        for (std::size_t at = page; at < page + 8; ++at) {
            tryBit(at, random() % 8);
        }
    }
    for (int i = 0; i < 600;) { // whatever holds something
        const std::size_t at = 100 + random() % (whole.size() - 100);
        if (whole[at] != '\0') {
            tryBit(at, random() % 8);
            ++i;
        }
    }
    EXPECT_GT(refused, tried / 10) << "the flips hit nothing";
    EXPECT_TRUE(bytesOf(book.path) == whole);
}

TEST(BookFileFlipped, EveryBitOfAReadingIsWatched) {
    // The row of one reading, found by the text that only it holds.
    const LivedIn book;
    const std::string whole = bytesOf(book.path);
    const std::string text = book.book.get(Id<Reading>{13}).note;
    ASSERT_GT(text.size(), 3U);
    const std::size_t found = whole.find(text);
    ASSERT_NE(found, std::string::npos);
    std::fstream file(book.path, std::ios::in | std::ios::out | std::ios::binary);
    std::size_t notRefused = 0;
    for (std::size_t at = found - 60; at < found + text.size(); ++at) {
        for (unsigned bit = 0; bit < 8; ++bit) {
            SCOPED_TRACE("byte " + std::to_string(at) + ", bit " + std::to_string(bit));
            notRefused += book.isRefusedWith(file, at, bit) ? 0U : 1U;
        }
    }
    EXPECT_EQ(notRefused, 0U);
}

TEST(BookFileFlipped, DamagedTableIsNamed) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    // A text that any reader would believe.
    std::string bytes = bytesOf(folder / "a.gpkg");
    const std::string rules = "two rods; no night fishing";
    const std::size_t at = bytes.find(rules);
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'T';
    testing::putBytes(folder / "b.gpkg", bytes);
    const Result<BookFile> damaged = BookFile::open(folder / "b.gpkg");
    ASSERT_FALSE(damaged);
    EXPECT_THAT(damaged.error().message, HasSubstr("\"b.gpkg\" is damaged"));
    EXPECT_THAT(damaged.error().message, HasSubstr("its waters are not what was written there"));
}

TEST(BookFileFlipped, CopyIsWatchedLikeItsOriginal) {
    const LivedIn book;
    {
        Result<BookFile> file = BookFile::open(book.path);
        ASSERT_TRUE(file) << sayings(file);
        const Result<void> copied = file->copyTo(book.folder / "b.gpkg");
        ASSERT_TRUE(copied) << sayings(copied);
    }
    const Result<BookFile> copy = BookFile::open(book.folder / "b.gpkg");
    ASSERT_TRUE(copy) << sayings(copy);
    EXPECT_THAT(copy->notices(), IsEmpty());
    std::string bytes = bytesOf(book.folder / "b.gpkg");
    const std::size_t at = bytes.find("two rods; no night fishing");
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'T';
    testing::putBytes(book.folder / "c.gpkg", bytes);
    EXPECT_FALSE(BookFile::open(book.folder / "c.gpkg"));
}

TEST(BookFileEdited, AnotherProgramsEditIsSaidAndIsNoDamage) {
    const TempFolder folder;
    const fs::path path = folder / "a.gpkg";
    ASSERT_TRUE(makeFullBook(path));
    ASSERT_EQ(sqlite(path, "UPDATE waters SET rules = 'one rod'").status, 0);
    for (const BookAccess access : {BookAccess::ReadOnly, BookAccess::ReadWrite}) {
        Result<BookFile> file = BookFile::open(path, access);
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_EQ(file->book().get(Id<Water>{2}).rules, "one rod");
        EXPECT_THAT(file->notices(), ElementsAre(HasSubstr("changed \"a.gpkg\" (waters)")));
        EXPECT_EQ(file->integrity(), "ok");
        if (access == BookAccess::ReadWrite) {
            ASSERT_TRUE(file->write({Put<Word>{{.id = {30}}}}, 31));
        }
    }
    // Taken for what was written from then on, and watched like all else.
    const Result<BookFile> later = BookFile::open(path);
    ASSERT_TRUE(later) << sayings(later);
    EXPECT_THAT(later->notices(), IsEmpty());
    std::string bytes = bytesOf(path);
    const std::size_t at = bytes.find("one rod");
    ASSERT_NE(at, std::string::npos);
    bytes[at] = 'O';
    testing::putBytes(folder / "b.gpkg", bytes);
    EXPECT_FALSE(BookFile::open(folder / "b.gpkg"));
}

TEST(BookFileEdited, WhatAnotherProgramAddsBesideTheRecordsIsNotWorthASentence) {
    const TempFolder folder;
    const fs::path path = folder / "a.gpkg";
    ASSERT_TRUE(makeFullBook(path));
    ASSERT_EQ(sqlite(path, "CREATE TABLE mine (id INTEGER PRIMARY KEY); VACUUM").status, 0);
    const Result<BookFile> file = BookFile::open(path);
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_THAT(file->notices(), IsEmpty());
    EXPECT_TRUE(file->book() == bookOf(everyRecord()));
}

TEST(BookFileEdited, EditThroughALogIsNoDamageEither) {
    // The count of changes in the header stands still while a log is written.
    const TempFolder folder;
    const fs::path path = folder / "a.gpkg";
    ASSERT_TRUE(makeFullBook(path));
    sqlite3* other = nullptr;
    ASSERT_EQ(sqlite3_open(path.c_str(), &other), SQLITE_OK);
    const auto run = [&](const char* sql) {
        return sqlite3_exec(other, sql, nullptr, nullptr, nullptr);
    };
    ASSERT_EQ(run("PRAGMA journal_mode = WAL; SELECT * FROM meta"), SQLITE_OK);
    {
        Result<BookFile> file = BookFile::open(path);
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write({Put<Word>{{.id = {30}}}}, 31));
    }
    ASSERT_EQ(run("UPDATE waters SET rules = 'one rod'"), SQLITE_OK);
    ASSERT_EQ(run("PRAGMA wal_checkpoint(TRUNCATE)"), SQLITE_OK);
    sqlite3_close(other);
    const Result<BookFile> again = BookFile::open(path);
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_EQ(again->book().get(Id<Water>{2}).rules, "one rod");
    EXPECT_EQ(again->book().all<Word>().size(), 2U);
}

TEST(BookFileEdited, WriteOverRowsChangedMeanwhileIsRefusedUntilTheyAreCaughtUpWith) {
    const TempFolder folder;
    const fs::path path = folder / "a.gpkg";
    ASSERT_TRUE(makeFullBook(path));
    Result<BookFile> file = BookFile::open(path);
    ASSERT_TRUE(file) << sayings(file);
    ASSERT_EQ(sqlite(path, "UPDATE waters SET rules = 'one rod'").status, 0);
    for (int i = 0; i < 2; ++i) {
        const Result<void> written = file->write({Put<Word>{{.id = {30}}}}, 31);
        ASSERT_FALSE(written);
        EXPECT_EQ(written.error().fault, Fault::Machine);
        EXPECT_THAT(written.error().message, HasSubstr("Another program has written"));
        EXPECT_FALSE(file->writeDerived({}));
    }
    EXPECT_TRUE(file->catchUp().value());
    EXPECT_FALSE(file->catchUp().value());
    EXPECT_EQ(file->book().get(Id<Water>{2}).rules, "one rod");
    const Result<void> written = file->write({Put<Word>{{.id = {30}}}}, 31);
    EXPECT_TRUE(written) << sayings(written);
    const Result<BookFile> again = BookFile::open(path, BookAccess::ReadOnly);
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_THAT(again->notices(), IsEmpty());
    EXPECT_EQ(again->book().get(Id<Water>{2}).rules, "one rod");
    EXPECT_EQ(again->book().all<Word>().size(), 2U);
}

} // namespace
} // namespace bedlore
