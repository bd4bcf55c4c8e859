// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "core/io/book_upgrade.hpp"
#include "tests/core/io/store_support.hpp"

#include <array>
#include <string>
#include <vector>

// Books of other formats: those of before are opened for ever, by way of a copy.

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

TEST(BookFileFormats, BookOfVersionOneIsOpenedForEver) {
    const TempFolder folder;
    fs::copy_file(BEDLORE_TEST_DATA_DIR "/books/version-1.gpkg", folder / "a.gpkg");
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    // Its photo was written before a photo had to be a picture, and is kept as it is.
    Book expected = bookOf(everyRecord());
    Photo photo = *expected.all<Photo>().begin();
    photo.bytes = std::make_shared<const std::vector<std::byte>>(
        std::vector<std::byte>{std::byte{1}, std::byte{0}, std::byte{255}});
    expected.all<Photo>().put(photo);
    EXPECT_TRUE(file->book() == expected);
    EXPECT_EQ(file->nextId(), 27);
    EXPECT_EQ(file->integrity(), "ok");
    EXPECT_TRUE(file->write({Put<Word>{{.id = {27}}}}, 28));
}

Result<void> renameTheWater(Database& database) {
    return database.execute("UPDATE waters SET rules = 'of format two'");
}

/// A program that is one format ahead of this one.
struct NextProgram {
    std::array<UpgradeStep, 1> steps{{{.from = bookFormat, .apply = renameTheWater}}};
    BookFormats formats{.newest = bookFormat + 1, .steps = steps};
};

TEST(BookFileFormats, OlderBookIsBroughtUpToDateAndTheOldFileStays) {
    const NextProgram next;
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string before = bytesOf(folder / "a.gpkg");
    {
        Result<BookFile> file =
            BookFile::open(folder / "a.gpkg", BookAccess::ReadWrite, next.formats);
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->isWritable());
        EXPECT_THAT(file->notices(), ElementsAre(HasSubstr("\"a.v1.gpkg\"")));
        EXPECT_EQ(file->book().get(Id<Water>{2}).rules, "of format two");
        EXPECT_EQ(file->nextId(), 27);
        EXPECT_EQ(file->integrity(), "ok");
        const Result<void> written = file->write({Put<Word>{{.id = {27}}}}, 28);
        EXPECT_TRUE(written) << sayings(written);
    }
    EXPECT_TRUE(bytesOf(folder / "a.v1.gpkg") == before);
    const Result<BookFile> again =
        BookFile::open(folder / "a.gpkg", BookAccess::ReadWrite, next.formats);
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_THAT(again->notices(), IsEmpty());
    EXPECT_EQ(again->book().all<Word>().size(), 2U);
    const Result<BookFile> here = BookFile::open(folder / "a.gpkg");
    ASSERT_FALSE(here);
    EXPECT_THAT(here.error().message, HasSubstr("newer Bedlore"));
    const Result<BookFile> old = BookFile::open(folder / "a.v1.gpkg");
    ASSERT_TRUE(old) << sayings(old);
    EXPECT_TRUE(old->book() == bookOf(everyRecord()));
}

TEST(BookFileFormats, ReaderOfAnOlderBookLeavesItAsItIs) {
    const NextProgram next;
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string before = bytesOf(folder / "a.gpkg");
    Result<BookFile> file = BookFile::open(folder / "a.gpkg", BookAccess::ReadOnly, next.formats);
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(file->book().get(Id<Water>{2}).rules, "of format two");
    EXPECT_THAT(file->notices(), ElementsAre(HasSubstr("left as it is")));
    EXPECT_FALSE(file->write({}, 30));
    EXPECT_TRUE(bytesOf(folder / "a.gpkg") == before);
    EXPECT_FALSE(fs::exists(folder / "a.v1.gpkg"));
}

TEST(BookFileFormats, NameOfAnotherBookIsNotTakenForTheOldOne) {
    const NextProgram next;
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    testing::putBytes(folder / "a.v1.gpkg", "his notes");
    const Result<BookFile> file =
        BookFile::open(folder / "a.gpkg", BookAccess::ReadWrite, next.formats);
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(bytesOf(folder / "a.v1.gpkg"), "his notes");
    EXPECT_TRUE(BookFile::open(folder / "a.v1-2.gpkg"));
}

TEST(BookFileFormats, UpgradeThatFailsLeavesTheBookAlone) {
    const BookFormats formats{.newest = bookFormat + 1, .steps = {}};
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string before = bytesOf(folder / "a.gpkg");
    for (const BookAccess access : {BookAccess::ReadWrite, BookAccess::ReadOnly}) {
        const Result<BookFile> file = BookFile::open(folder / "a.gpkg", access, formats);
        ASSERT_FALSE(file);
        EXPECT_THAT(file.error().message, isASentence());
        EXPECT_THAT(file.error().message, HasSubstr("cannot bring up to date. Open it with "));
    }
    EXPECT_TRUE(bytesOf(folder / "a.gpkg") == before);
    EXPECT_FALSE(fs::exists(folder / "a.v1.gpkg"));
    EXPECT_TRUE(BookFile::open(folder / "a.gpkg"));
}

} // namespace
} // namespace bedlore
