// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/app/program.hpp"
#include "tests/support/cut_off_write.hpp"
#include "tests/support/without_rights.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>
#include <sqlite3.h>
#include <unistd.h>

// Books that are damaged, held by others, forbidden or on a full disk, by the command line: each a
// sentence and an exit status, and the book as it was.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using Json = nlohmann::json;

class BookFaults : public ::testing::Test {
protected:
    ScratchFolder folder;
    ScratchFolder elsewhere;
    std::string book = folder / "pit.gpkg";
    std::string more = elsewhere.write(
        "more.txt",
        "swim A\ndate 2025-05-12\ndistances yd\ndepths ft\ntip 6 ft\naim A = 0 true\n\nA 90 9\n");
    std::string bytes;

    void SetUp() override {
        const std::string page = elsewhere.write(
            "page.txt",
            "swim A\ndate 2025-04-12\nlevel 0 m\ndistances yd\ndepths ft\ntip 6 ft\n"
            "aim A = 0 true\n\nA 90 9 gr\n80 8\n70 7\n");
        const Ran ran = bedlore({"import", book, page, "--water", "Harl Pit"});
        ASSERT_EQ(ran.status, 0) << ran.err;
        bytes = textOf(book);
    }
    std::vector<std::vector<std::string>> everyCommand(const std::string& file) const {
        return {
            {"info", file},
            {"check", file},
            {"export", file, "--tiff", elsewhere / "t.tif"},
            {"import", file, more}};
    }
    /// Every command refuses a book of these bytes in a sentence that holds `words`, and leaves it
    /// alone.
    void expectRefused(const std::string& strange, const char* words) const {
        const std::string file = folder.write("strange.gpkg", strange);
        for (const std::vector<std::string>& command : everyCommand(file)) {
            const Ran ran = bedlore(command);
            EXPECT_EQ(ran.status, 1) << command[0] << ": " << ran.err;
            EXPECT_THAT(ran.err, AllOf(HasSubstr("\"strange.gpkg\""), HasSubstr(words)))
                << command[0];
            EXPECT_EQ(linesOf(ran.err).size(), 1U) << ran.err;
            EXPECT_TRUE(textOf(file) == strange) << command[0] << " changed it";
        }
        EXPECT_FALSE(fs::exists(elsewhere / "t.tif"));
    }
    std::size_t readings() const {
        const Ran ran = bedlore({"info", book, "--json"});
        EXPECT_EQ(ran.status, 0) << ran.err;
        return ran.status == 0 ? Json::parse(ran.out)["readings"].get<std::size_t>() : 0;
    }
};

TEST_F(BookFaults, FlippedBitIsRefusedByEveryCommand) {
    std::string damaged = bytes;
    const std::size_t at = damaged.find("Harl Pit");
    ASSERT_NE(at, std::string::npos);
    damaged[at] = 'I'; // one bit of the letter H
    expectRefused(damaged, "is damaged");
}

TEST_F(BookFaults, TruncatedOneIsRefusedByEveryCommand) {
    for (const std::size_t size : {bytes.size() - 1, bytes.size() / 2, std::size_t{700}}) {
        SCOPED_TRACE(size);
        expectRefused(bytes.substr(0, size), "Use a copy of it from before.");
    }
}

TEST_F(BookFaults, NewerOneIsRefusedByEveryCommand) {
    const std::string newer = "UPDATE meta SET format = " + std::to_string(bookFormat + 1);
    ASSERT_EQ(run("sqlite3", {book, newer}).status, 0);
    expectRefused(textOf(book), "newer Bedlore");
}

TEST_F(BookFaults, OneOfTheFirstFormatIsReadAndTakesMore) {
    book = folder / "old.gpkg";
    fs::copy_file(BEDLORE_TEST_DATA_DIR "/books/version-1.gpkg", book);
    EXPECT_EQ(readings(), 1U); // Source: one record of every kind, tests/data/books/SOURCE.md
    const Ran taken = bedlore({"import", book, more, "--water", "New Pit"});
    EXPECT_EQ(taken.status, 0) << taken.err;
    EXPECT_EQ(readings(), 2U);
    EXPECT_EQ(bedlore({"check", book}).status, 0);
}

TEST_F(BookFaults, OneThatIsOpenElsewhereIsReadAndTakesNothing) {
    {
        const auto held = BookFile::open(book);
        ASSERT_TRUE(held.has_value()) << held.error().message;
        const Ran ran = bedlore({"import", book, more});
        EXPECT_EQ(ran.status, 3);
        EXPECT_THAT(ran.err, HasSubstr("\"pit.gpkg\" is open in another window or program"));
        EXPECT_THAT(ran.err, HasSubstr("nothing was taken in"));
        EXPECT_EQ(readings(), 3U);
    }
    EXPECT_EQ(bedlore({"import", book, more}).status, 0);
    EXPECT_EQ(readings(), 4U);
}

TEST_F(BookFaults, WriteThatWasCutOffIsTakenBackAndSaid) {
    for (const std::vector<std::string>& command : everyCommand(book)) {
        fs::remove(book);
        folder.write("pit.gpkg", bytes);
        cutOffAWrite(book);
        ASSERT_FALSE(textOf(book) == bytes) << "nothing was cut off";
        const Ran ran = bedlore(command);
        EXPECT_EQ(ran.status, 0) << ran.err;
        EXPECT_THAT(ran.err, HasSubstr("was cut off before it was finished")) << command[0];
        EXPECT_EQ(readings(), command[0] == "import" ? 4U : 3U);
    }
}

TEST_F(BookFaults, SpatialIndexOfAGisIsNoDamageAndIsKeptUpToDate) {
    const Ran made =
        run("ogrinfo", {"-q", book, "-sql", "SELECT CreateSpatialIndex('soundings', 'geom')"});
    ASSERT_EQ(made.status, 0) << made.err;
    const auto indexed = [&] {
        return run("sqlite3", {book, "SELECT count(*) FROM rtree_soundings_geom"}).out;
    };
    EXPECT_EQ(indexed(), "3\n");
    const Ran checked = bedlore({"check", book});
    EXPECT_EQ(checked.status, 0) << checked.err;
    EXPECT_THAT(checked.err, IsEmpty());
    const Ran taken = bedlore({"import", book, more});
    EXPECT_EQ(taken.status, 0) << taken.err;
    EXPECT_EQ(indexed(), "4\n");
    EXPECT_EQ(bedlore({"check", book}).status, 0);
}

TEST_F(BookFaults, ClockThatWasSetBackHindersNothing) {
    const std::string later =
        "UPDATE gpkg_contents SET last_change = '2099-01-01T00:00:00.000Z'; SELECT changes();";
    const Ran set = run("sqlite3", {book, later});
    ASSERT_EQ(set.status, 0) << set.err;
    ASSERT_GT(std::stoi(set.out), 0);
    fs::last_write_time(book, fs::file_time_type::clock::now() + std::chrono::hours(24 * 365 * 70));
    for (const char* command : {"info", "check"}) {
        const Ran ran = bedlore({command, book});
        EXPECT_EQ(ran.status, 0) << ran.err;
        EXPECT_THAT(ran.err, IsEmpty()) << command;
    }
    const Ran taken = bedlore({"import", book, more});
    EXPECT_EQ(taken.status, 0) << taken.err;
    EXPECT_EQ(readings(), 4U);
    const Ran checked = bedlore({"check", book});
    EXPECT_EQ(checked.status, 0) << checked.err;
}

/// Another program that keeps everybody from reading the book while it lives.
class HeldBook {
public:
    explicit HeldBook(const std::string& book) {
        EXPECT_EQ(sqlite3_open(book.c_str(), &database_), SQLITE_OK);
        EXPECT_EQ(sqlite3_exec(database_, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr), SQLITE_OK);
    }
    ~HeldBook() { sqlite3_close(database_); }
    HeldBook(const HeldBook&) = delete;
    HeldBook& operator=(const HeldBook&) = delete;
    HeldBook(HeldBook&&) = delete;
    HeldBook& operator=(HeldBook&&) = delete;

private:
    sqlite3* database_ = nullptr;
};

TEST_F(BookFaults, OneThatIsReplacedDuringAnImportLeavesBothAsTheyWere) {
    const std::string other = elsewhere / "other.gpkg";
    ASSERT_EQ(bedlore({"import", other, more, "--water", "Other Pit"}).status, 0);
    const std::string otherBytes = textOf(other);
    const std::string aside = folder / "aside.gpkg";
    auto held = std::make_optional<HeldBook>(book);
    Running import(BEDLORE_PROGRAM, {"import", book, more});
    ASSERT_TRUE(import.hasOpened(book));
    fs::rename(book, aside);
    fs::copy_file(other, book);
    held.reset();
    const Ran ran = import.finish();
    EXPECT_EQ(ran.status, 3) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("\"pit.gpkg\" was moved, removed or replaced"));
    EXPECT_EQ(linesOf(ran.err).size(), 1U) << ran.err;
    EXPECT_TRUE(textOf(aside) == bytes) << "the book that was moved away";
    EXPECT_TRUE(textOf(book) == otherBytes) << "the one in its place";
    EXPECT_EQ(bedlore({"check", aside}).status, 0);
    EXPECT_EQ(bedlore({"check", book}).status, 0);
    EXPECT_FALSE(fs::exists(book + ".lock"));
}

TEST_F(BookFaults, OneThatIsRemovedDuringAnImportIsSaidAndNotMadeAnew) {
    auto held = std::make_optional<HeldBook>(book);
    Running import(BEDLORE_PROGRAM, {"import", book, more});
    ASSERT_TRUE(import.hasOpened(book));
    fs::remove(book);
    held.reset();
    const Ran ran = import.finish();
    EXPECT_EQ(ran.status, 3) << ran.err;
    EXPECT_THAT(ran.err, HasSubstr("\"pit.gpkg\" was moved, removed or replaced"));
    EXPECT_EQ(linesOf(ran.err).size(), 1U) << ran.err;
    EXPECT_TRUE(fs::is_empty(folder.path())) << "a file nobody asked for";
}

struct Forbidden {
    const char* name;
    fs::perms folder;
    fs::perms file;
};

class ForbiddenBook : public BookFaults, public ::testing::WithParamInterface<Forbidden> {};

TEST_P(ForbiddenBook, IsReadAndTakesNothing) {
    const Rights rights(book, GetParam().folder, GetParam().file);
    fs::permissions(elsewhere.path(), mayDoAll);
    const WithoutRights nobody;
    if (::access(BEDLORE_PROGRAM, X_OK) != 0) {
        GTEST_SKIP() << "nobody else may run the program where it lies";
    }
    EXPECT_EQ(readings(), 3U);
    const Ran taken = bedlore({"import", book, more});
    EXPECT_EQ(taken.status, 3) << taken.err;
    EXPECT_THAT(taken.err, HasSubstr("\"pit.gpkg\" or its folder is read-only"));
    EXPECT_THAT(taken.err, HasSubstr("nothing was taken in"));
    const Ran written = bedlore({"export", book, "--tiff", elsewhere / "t.tif"});
    EXPECT_EQ(written.status, 0) << written.err;
    EXPECT_TRUE(fs::exists(elsewhere / "t.tif"));
    EXPECT_TRUE(textOf(book) == bytes);
}

INSTANTIATE_TEST_SUITE_P(
    Rights,
    ForbiddenBook,
    ::testing::Values(
        Forbidden{"Folder", mayEnter, mayDoAll},
        Forbidden{"File", mayDoAll, mayRead},
        Forbidden{"Both", mayEnter, mayRead}),
    [](const ::testing::TestParamInfo<Forbidden>& way) { return way.param.name; });

TEST_F(BookFaults, FolderAndFileThatForbidAreSaid) {
    const Rights rights(book, mayEnter, fs::perms::none);
    fs::permissions(elsewhere.path(), mayDoAll);
    const WithoutRights nobody;
    if (::access(BEDLORE_PROGRAM, X_OK) != 0) {
        GTEST_SKIP() << "nobody else may run the program where it lies";
    }
    for (const std::vector<std::string>& command : everyCommand(book)) {
        const Ran ran = bedlore(command);
        EXPECT_EQ(ran.status, 3) << command[0];
        EXPECT_THAT(ran.err, HasSubstr("\"pit.gpkg\" may not be read")) << command[0];
    }
    const Ran fresh = bedlore({"import", folder / "new.gpkg", more, "--water", "New Pit"});
    EXPECT_EQ(fresh.status, 3);
    EXPECT_THAT(fresh.err, HasSubstr("\"new.gpkg\" cannot be made there"));
}

TEST_F(BookFaults, FullDiskTakesNothingInAndSaysSo) {
    // No file may grow: what is written to one fails as on a full disk. What the program says goes
    // through a pipe.
    const auto onAFullDisk = [&](const std::string& file) {
        const std::string command = "'" + std::string(BEDLORE_PROGRAM) + "' import '" + file +
                                    "' '" + more + "' --water 'Harl Pit'";
        return run("sh", {"-c", "(ulimit -f 0; trap '' XFSZ; " + command + " 2>&1; echo $?) | cat"})
            .out;
    };
    const std::string said = onAFullDisk(book);
    EXPECT_THAT(said, AllOf(HasSubstr("\"pit.gpkg\""), HasSubstr("full")));
    EXPECT_THAT(said, ::testing::EndsWith("\n3\n"));
    EXPECT_EQ(readings(), 3U);
    EXPECT_TRUE(textOf(book) == bytes);
    const std::string fresh = onAFullDisk(folder / "new.gpkg");
    EXPECT_THAT(fresh, AllOf(HasSubstr("\"new.gpkg\" cannot be made there"), HasSubstr("full")));
    EXPECT_THAT(fresh, ::testing::EndsWith("\n3\n"));
    EXPECT_FALSE(fs::exists(folder / "new.gpkg"));
    EXPECT_EQ(bedlore({"import", book, more}).status, 0) << "there is room again";
    EXPECT_EQ(readings(), 4U);
}

} // namespace
} // namespace bedlore::testing
