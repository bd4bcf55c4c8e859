// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "gui/document/page_session.hpp"
#include "tests/gui/document/notebook_writer.hpp"
#include "tests/gui/support.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <optional>
#include <random>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

extern char** environ; // NOLINT(readability-redundant-declaration): not every system declares it

// The program is killed while a page is written through the document. It runs as a process of its
// own, not as a fork of this one, which has a window's threads. With BEDLORE_LONG_TESTS set it is
// killed 200 times.

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;
using Lines = std::vector<std::string>;

/// A process that writes in a book, and what it has said.
class NotebookWriter {
public:
    NotebookWriter(const fs::path& book, unsigned seed) {
        std::array<int, 2> ends{};
        EXPECT_EQ(::pipe2(ends.data(), O_CLOEXEC), 0);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
        std::string program = BEDLORE_NOTEBOOK_WRITER;
        std::string path = book.string();
        std::string number = std::to_string(seed);
        std::array<char*, 4> arguments{program.data(), path.data(), number.data(), nullptr};
        EXPECT_EQ(
            ::posix_spawn(&process_, program.c_str(), &actions, nullptr, arguments.data(), environ),
            0);
        posix_spawn_file_actions_destroy(&actions);
        ::close(ends[1]);
        said_ = ends[0];
    }
    NotebookWriter(const NotebookWriter&) = delete;
    NotebookWriter& operator=(const NotebookWriter&) = delete;
    NotebookWriter(NotebookWriter&&) = delete;
    NotebookWriter& operator=(NotebookWriter&&) = delete;
    ~NotebookWriter() {
        kill();
        ::close(said_);
    }

    /// Waits for what it says next; false where it has ended.
    bool listen() {
        std::size_t end = 0;
        while ((end = heard_.find('\n')) == std::string::npos) {
            std::array<char, 4096> chunk{};
            const ssize_t size = ::read(said_, chunk.data(), chunk.size());
            if (size <= 0) {
                return false;
            }
            heard_.append(chunk.data(), static_cast<std::size_t>(size));
        }
        const std::string message = heard_.substr(0, end);
        heard_.erase(0, end + 1);
        if (message[0] == 'w') {
            wanted = linesIn(message);
        } else {
            kept = std::exchange(wanted, std::nullopt);
            ++acts;
        }
        return true;
    }
    /// Until a write is under way, or it has ended.
    void waitForAWrite(const fs::path& book) const {
        const fs::path journal = book.string() + "-journal";
        siginfo_t ended{};
        while (!fs::exists(journal) && ended.si_pid != process_) {
            ::waitid(P_PID, static_cast<id_t>(process_), &ended, WEXITED | WNOHANG | WNOWAIT);
            std::this_thread::yield();
        }
    }
    /// Whether it was running until then.
    bool kill() {
        if (process_ <= 0) {
            return false;
        }
        ::kill(process_, SIGKILL);
        int status = 0;
        ::waitpid(std::exchange(process_, -1), &status, 0);
        return WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
    }

    std::optional<Lines> kept;   ///< the page as it said last that it is kept
    std::optional<Lines> wanted; ///< the page as it was about to be, where that was not said
    std::int64_t acts = 0;       ///< it said that they are kept

private:
    pid_t process_ = -1;
    int said_ = -1;
    std::string heard_;
};

/// The lines of the only page; none where there is no page.
Lines pageOf(const Book& book) {
    Lines lines;
    if (!book.all<Page>().empty()) {
        for (const PageLine* line : linesOf(book, book.all<Page>().begin()->id)) {
            lines.push_back(line->text);
        }
    }
    return lines;
}

/// The readings in the order of the page, but for their ids.
std::vector<Reading> readingsOf(const Book& book) {
    std::vector<Reading> readings;
    if (!book.all<Page>().empty()) {
        for (const PageLine* line : linesOf(book, book.all<Page>().begin()->id)) {
            if (line->reading) {
                readings.push_back(book.get(*line->reading));
                readings.back().id = {};
                readings.back().cast = {};
            }
        }
    }
    return readings;
}

/// What a page of `lines` is when it is typed in one go.
Book typedAtOnce(const Lines& lines) {
    const TempFolder folder;
    const auto document = newBook(folder / "once.gpkg");
    PageSession session(*document);
    session.begin(std::nullopt);
    EXPECT_TRUE(session.keep(lines).has_value());
    return *document->book();
}

/// The book holds all that was said to be kept, or that and the act that was cut off, and that
/// whole.
struct Expected {
    Lines kept;
    std::optional<Lines> wanted;
    std::int64_t editNumber = 0; ///< with the acts that are kept
};

void expectWhole(BookFile& file, const Expected& expected) {
    const Lines page = pageOf(file.book());
    const bool isNext = page != expected.kept;
    EXPECT_TRUE(!isNext || page == expected.wanted)
        << "neither what was kept nor what was about to be";
    EXPECT_GE(file.editNumber(), expected.editNumber);
    EXPECT_LE(file.editNumber(), expected.editNumber + (expected.wanted ? 1 : 0));
    const Book whole = typedAtOnce(page);
    EXPECT_EQ(readingsOf(file.book()), readingsOf(whole));
    EXPECT_EQ(file.book().all<Reading>().size(), whole.all<Reading>().size());
    EXPECT_EQ(file.book().all<Cast>().size(), whole.all<Cast>().size());
    EXPECT_EQ(file.integrity(), "ok");
    EXPECT_TRUE(file.isWritable()) << "a killed process still holds the lock";
    // A check sum that is wrong would be taken for another program's change.
    for (const std::string& notice : file.notices()) {
        EXPECT_THAT(notice, ::testing::HasSubstr("was cut off"));
    }
}

TEST(DocumentKilled, EverythingSaidToBeKeptIsThereAndNothingHalf) {
    const bool isLong = std::getenv("BEDLORE_LONG_TESTS") != nullptr;
    const TempFolder folder;
    const fs::path path = folder / "Harl Pit.gpkg";
    ASSERT_NE(newBook(path), nullptr);
    constexpr unsigned seed = 20250412;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    Expected expected;
    std::int64_t acts = 0;
    int cutOff = 0;
    const unsigned rounds = isLong ? 200 : 25;
    for (unsigned round = 0; round < rounds; ++round) {
        SCOPED_TRACE(round);
        NotebookWriter writer(path, seed + round);
        const auto sayings = 1 + random() % 40;
        for (unsigned long i = 0; i < sayings; ++i) {
            ASSERT_TRUE(writer.listen()) << "it ended by itself";
        }
        if (round % 2 == 1) {
            writer.waitForAWrite(path);
        } else {
            for (auto turns = random() % 200; turns > 0; --turns) {
                std::this_thread::yield(); // any moment after that
            }
        }
        ASSERT_TRUE(writer.kill()) << "it ended by itself";
        while (writer.listen()) {
        }
        expected.kept = writer.kept.value_or(expected.kept);
        expected.wanted = writer.wanted;
        expected.editNumber += writer.acts;
        acts += writer.acts;

        Result<BookFile> file = BookFile::open(path);
        ASSERT_TRUE(file.has_value()) << file.error().message;
        expectWhole(*file, expected);
        if (::testing::Test::HasFailure()) {
            return;
        }
        cutOff += static_cast<int>(file->notices().size());
        expected.kept = pageOf(file->book());
        expected.editNumber = file->editNumber();
    }
    EXPECT_GT(acts, 0);
    RecordProperty("rounds", static_cast<int>(rounds));
    RecordProperty("acts", static_cast<int>(acts));
    RecordProperty("writes cut off", cutOff);
}

} // namespace
} // namespace bedlore::testing
