// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "tests/core/io/store_support.hpp"
#include "tests/support/cut_off_write.hpp"

#include <algorithm>
#include <array>
#include <csignal>
#include <cstdint>
#include <functional>
#include <memory>
#include <random>
#include <sqlite3.h>
#include <string>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

// What the machine does to a book: processes killed, disks full, folders read-only, files taken
// away.

namespace bedlore {
namespace {

namespace fs = std::filesystem;

using testing::bookOf;
using testing::bytesOf;
using testing::cutOffAWrite;
using ::testing::ElementsAre;
using testing::everyRecord;
using ::testing::HasSubstr;
using testing::isASentence;
using ::testing::IsEmpty;
using testing::makeFullBook;
using testing::sayings;
using testing::TempFolder;

/// Runs `body` in a process of its own, as a user who owns nothing where this one may do anything,
/// and gives what it says.
std::string inOtherProcess(const std::function<std::string()>& body, bool withoutRights = false) {
    std::array<int, 2> ends{};
    if (::pipe(ends.data()) != 0) {
        return "no pipe";
    }
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr uid_t nobody = 65534;
        if (withoutRights && ::geteuid() == 0 && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) {
            ::_exit(1);
        }
        const std::string said = body();
        const ssize_t sent = ::write(ends[1], said.data(), said.size());
        ::_exit(sent == static_cast<ssize_t>(said.size()) ? 0 : 1);
    }
    ::close(ends[1]);
    std::string said;
    std::array<char, 4096> chunk{};
    for (ssize_t n = 0; (n = ::read(ends[0], chunk.data(), chunk.size())) > 0;) {
        said.append(chunk.data(), static_cast<std::size_t>(n));
    }
    ::close(ends[0]);
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0 ? said : said + " (process failed)";
}

Edits oneWord(std::int64_t id) {
    return {Put<Word>{{.id = {id}, .text = "w" + std::to_string(id), .meaning = "wd"}}};
}

/// Writes words 1, 2, 3 … without end, and says each number to the pipe when it is kept.
[[noreturn]] void writeAndSay(const fs::path& path, int pipe) {
    Result<BookFile> file = BookFile::open(path);
    if (!file) {
        ::_exit(1);
    }
    for (std::int64_t id = file->nextId();; ++id) {
        if (!file->write(oneWord(id), id + 1) || ::write(pipe, &id, sizeof(id)) != sizeof(id)) {
            ::_exit(1);
        }
    }
}

/// Until the writer has a journal beside the book, or has ended.
void waitForAWrite(const fs::path& path, pid_t writer) {
    const fs::path journal = path.string() + "-journal";
    siginfo_t ended{};
    while (!fs::exists(journal) && ended.si_pid != writer) {
        ::waitid(P_PID, static_cast<id_t>(writer), &ended, WEXITED | WNOHANG | WNOWAIT);
        std::this_thread::yield();
    }
}

TEST(BookFileKilled, EverythingShownAsKeptIsThere) {
    const TempFolder folder;
    ASSERT_TRUE(BookFile::create(folder / "a.gpkg"));
    constexpr unsigned seed = 11;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    std::int64_t kept = 0;
    for (int round = 0; round < 20; ++round) {
        std::array<int, 2> ends{};
        ASSERT_EQ(::pipe(ends.data()), 0);
        const pid_t child = ::fork();
        if (child == 0) {
            ::close(ends[0]);
            writeAndSay(folder / "a.gpkg", ends[1]);
        }
        ::close(ends[1]);
        // Some writes, and then between two or within the next one.
        const unsigned writes = 1 + random() % 8;
        for (unsigned i = 0; i < writes; ++i) {
            ASSERT_EQ(::read(ends[0], &kept, sizeof(kept)), static_cast<ssize_t>(sizeof(kept)));
        }
        if (round % 2 == 1) {
            waitForAWrite(folder / "a.gpkg", child);
        }
        ::kill(child, SIGKILL);
        while (::read(ends[0], &kept, sizeof(kept)) == static_cast<ssize_t>(sizeof(kept))) {
        }
        ::close(ends[0]);
        ::waitpid(child, nullptr, 0);

        const Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->isWritable()) << "a killed process still holds the lock";
        const auto words = static_cast<std::int64_t>(file->book().all<Word>().size());
        EXPECT_GE(words, kept);
        EXPECT_LE(words, kept + 1) << "only the write that was cut off may be there unsaid";
        EXPECT_EQ(file->editNumber(), words);
        EXPECT_EQ(file->nextId(), words + 1);
        EXPECT_EQ(file->book().all<Word>().begin()->id.value, 1);
    }
}

TEST(BookFileKilled, WriteThatWasCutOffIsTakenBackAndSaid) {
    const TempFolder folder;
    for (const BookAccess access : {BookAccess::ReadWrite, BookAccess::ReadOnly}) {
        const fs::path path = folder / (access == BookAccess::ReadOnly ? "a.gpkg" : "b.gpkg");
        ASSERT_TRUE(makeFullBook(path));
        const std::string before = bytesOf(path);
        cutOffAWrite(path);
        ASSERT_FALSE(bytesOf(path) == before) << "nothing was cut off";
        const Result<BookFile> file = BookFile::open(path, access);
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->book() == bookOf(everyRecord()));
        EXPECT_THAT(file->notices(), ElementsAre(HasSubstr("cut off")));
        EXPECT_TRUE(bytesOf(path) == before);
    }
}

TEST(BookFileKilled, CutOffWriteInAReadOnlyFolderIsASentence) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    cutOffAWrite(folder / "a.gpkg");
    ::chmod((folder / "a.gpkg").c_str(), 0444);
    ::chmod((folder / "a.gpkg-journal").c_str(), 0444);
    ::chmod(folder.path().c_str(), 0555);
    const std::string said =
        inOtherProcess([&] { return sayings(BookFile::open(folder / "a.gpkg")); }, true);
    ::chmod(folder.path().c_str(), 0755);
    EXPECT_THAT(said, HasSubstr("taken back first"));
}

struct Rights {
    mode_t folder;
    mode_t file;
};

class BookFileReadOnly : public ::testing::TestWithParam<Rights> {};

TEST_P(BookFileReadOnly, IsReadAndSaid) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const std::string before = bytesOf(folder / "a.gpkg");
    ::chmod((folder / "a.gpkg").c_str(), GetParam().file);
    ::chmod(folder.path().c_str(), GetParam().folder);
    const std::string said = inOtherProcess(
        [&]() -> std::string {
            Result<BookFile> file = BookFile::open(folder / "a.gpkg");
            if (!file) {
                return sayings(file);
            }
            const Result<void> written = file->write(oneWord(30), 31);
            const bool same = file->book() == bookOf(everyRecord());
            const std::string notice = file->notices().empty() ? "" : file->notices().front();
            return std::string(same ? "same" : "different") +
                   (file->isWritable() ? ", writable" : ", read only") +
                   (written ? ", written" : ", refused") + ": " + notice;
        },
        true);
    ::chmod(folder.path().c_str(), 0755);
    EXPECT_THAT(said, HasSubstr("same, read only, refused: \"a.gpkg\" or its folder is read-only"));
    EXPECT_TRUE(bytesOf(folder / "a.gpkg") == before);
}

INSTANTIATE_TEST_SUITE_P(
    Rights,
    BookFileReadOnly,
    ::testing::Values(
        Rights{.folder = 0555, .file = 0444},
        Rights{.folder = 0555, .file = 0666},
        Rights{.folder = 0777, .file = 0444}));

TEST(BookFileReadOnly, BookThatMayNotBeReadIsASentence) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ::chmod((folder / "a.gpkg").c_str(), 0000);
    ::chmod(folder.path().c_str(), 0755);
    const std::string said = inOtherProcess(
        [&] {
            return sayings(BookFile::open(folder / "a.gpkg")) +
                   sayings(BookFile::create(folder / "b.gpkg"));
        },
        true);
    EXPECT_THAT(said, HasSubstr("may not be read"));
    EXPECT_THAT(said, HasSubstr("\"b.gpkg\" cannot be made there"));
}

TEST(BookFileTakenAway, RemovedMovedOrReplacedFileKeepsNothingAndSaysSo) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "other.gpkg"));
    const std::string other = bytesOf(folder / "other.gpkg");
    const std::vector<std::function<void(const fs::path&)>> ways{
        [](const fs::path& path) { fs::remove(path); },
        [](const fs::path& path) { fs::rename(path, path.string() + ".moved"); },
        [&](const fs::path& path) {
            fs::copy_file(folder / "other.gpkg", folder / "copy.gpkg");
            fs::rename(folder / "copy.gpkg", path);
        }};
    for (const auto& way : ways) {
        const fs::path path = folder / "a.gpkg";
        fs::remove(path);
        Result<BookFile> file = BookFile::create(path);
        ASSERT_TRUE(file) << sayings(file);
        ASSERT_TRUE(file->write(oneWord(1), 2));
        way(path);
        const Result<void> written = file->write(oneWord(2), 3);
        ASSERT_FALSE(written);
        EXPECT_EQ(written.error().fault, Fault::Machine);
        EXPECT_THAT(written.error().message, HasSubstr("moved, removed or replaced"));
        EXPECT_EQ(file->editNumber(), 1);
        EXPECT_FALSE(file->writeDerived({}));
        EXPECT_TRUE(!fs::exists(path) || bytesOf(path) == other);
        // What was read is still there, so a copy can save it.
        const Result<void> copied = file->copyTo(folder / "saved.gpkg");
        EXPECT_TRUE(copied) << sayings(copied);
        const Result<BookFile> saved = BookFile::open(folder / "saved.gpkg");
        ASSERT_TRUE(saved) << sayings(saved);
        EXPECT_EQ(saved->book().all<Word>().size(), 1U);
        fs::remove(folder / "saved.gpkg");
    }
}

TEST(BookFileDiskFull, NothingIsLostAndItIsSaid) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    const auto limit = rlim_t{fs::file_size(folder / "a.gpkg")} + 20'000;
    const std::string said = inOtherProcess([&]() -> std::string {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        if (!file) {
            return sayings(file);
        }
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit full{.rlim_cur = limit, .rlim_max = limit};
        ::setrlimit(RLIMIT_FSIZE, &full);
        const Page page{.id = {30}, .water = {2}, .author = std::string(1500, 'x'), .file = {}};
        std::int64_t id = 30;
        for (; id < 1000; ++id) {
            Page next = page;
            next.id = {id};
            const Result<void> written = file->write({Put<Page>{next}}, id + 1);
            if (!written) {
                const bool wrong = written.error().fault != Fault::Machine;
                const bool small = file->write(oneWord(5000), 5001).has_value();
                const bool copied = file->copyTo(folder / "copy.gpkg").has_value();
                return std::to_string(id - 30) + (wrong ? " wrong fault " : " pages; ") +
                       (small ? "then a word; " : "then no word; ") +
                       (copied ? "copied; " : "not copied; ") + written.error().message;
            }
        }
        return "never full";
    });
    EXPECT_THAT(said, HasSubstr("disk")) << said;
    EXPECT_THAT(said, ::testing::Not(HasSubstr("wrong fault"))) << said;
    const auto pages = std::stoul(said);
    EXPECT_GT(pages, 2U);
    const bool word = said.find("then a word") != std::string::npos;
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    EXPECT_EQ(file->book().all<Page>().size(), 1U + pages);
    EXPECT_EQ(file->book().all<Word>().size(), word ? 2U : 1U);
    EXPECT_EQ(file->integrity(), "ok");
    EXPECT_TRUE(file->write(oneWord(6000), 6001)) << "it does not go on when there is room again";
    if (said.find("not copied") != std::string::npos) {
        EXPECT_FALSE(fs::exists(folder / "copy.gpkg"));
    }
}

TEST(BookFileDiskFull, NewBookLeavesNothingBehind) {
    const TempFolder folder;
    const std::string said = inOtherProcess([&]() -> std::string {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit full{.rlim_cur = 20'000, .rlim_max = 20'000};
        ::setrlimit(RLIMIT_FSIZE, &full);
        return sayings(BookFile::create(folder / "a.gpkg"));
    });
    EXPECT_THAT(said, HasSubstr("cannot be made there"));
    EXPECT_TRUE(fs::is_empty(folder.path()));
}

TEST(BookFileBusy, OtherProgramThatIsWritingIsWaitedForThenSaid) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    sqlite3* other = nullptr;
    ASSERT_EQ(sqlite3_open((folder / "a.gpkg").c_str(), &other), SQLITE_OK);
    ASSERT_EQ(sqlite3_exec(other, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr), SQLITE_OK);
    const Result<void> written = file->write(oneWord(30), 31);
    ASSERT_FALSE(written);
    EXPECT_EQ(written.error().fault, Fault::Machine);
    EXPECT_THAT(written.error().message, HasSubstr("Another program is using"));
    ASSERT_EQ(sqlite3_exec(other, "COMMIT", nullptr, nullptr, nullptr), SQLITE_OK);
    sqlite3_close(other);
    EXPECT_TRUE(file->write(oneWord(30), 31));
}

TEST(BookFileBusy, GisThatKeepsItsLogOpenIsSaidAndStopsNothing) {
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    sqlite3* other = nullptr;
    ASSERT_EQ(sqlite3_open((folder / "a.gpkg").c_str(), &other), SQLITE_OK);
    ASSERT_EQ(
        sqlite3_exec(
            other, "PRAGMA journal_mode = WAL; SELECT * FROM meta", nullptr, nullptr, nullptr),
        SQLITE_OK);
    {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->isWritable());
        EXPECT_THAT(file->notices(), ElementsAre(HasSubstr("open too")));
        const Result<void> written = file->write(oneWord(30), 31);
        EXPECT_TRUE(written) << sayings(written);
    }
    sqlite3_close(other);
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_EQ(again->book().all<Word>().size(), 2U);
}

TEST(BookFileBusy, GisThatSwitchedTheFileToALogDoesNotStopTheNextWrite) {
    // Some programs set the write-ahead log on every GeoPackage that they open.
    const TempFolder folder;
    ASSERT_TRUE(makeFullBook(folder / "a.gpkg"));
    ASSERT_EQ(testing::sqlite(folder / "a.gpkg", "PRAGMA journal_mode = WAL").text, "wal\n");
    {
        Result<BookFile> file = BookFile::open(folder / "a.gpkg");
        ASSERT_TRUE(file) << sayings(file);
        EXPECT_TRUE(file->isWritable());
        const Result<void> written = file->write(oneWord(30), 31);
        EXPECT_TRUE(written) << sayings(written);
    }
    EXPECT_EQ(testing::sqlite(folder / "a.gpkg", "PRAGMA journal_mode").text, "delete\n");
    EXPECT_FALSE(fs::exists(folder / "a.gpkg-wal"));
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_EQ(again->book().all<Word>().size(), 2U);
}

} // namespace
} // namespace bedlore
