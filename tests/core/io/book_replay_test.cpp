// SPDX-License-Identifier: MIT
#include "core/book/history.hpp"
#include "core/io/book_file.hpp"
#include "core/io/book_inspection.hpp"
#include "tests/core/io/store_support.hpp"
#include "tests/support/disk_log.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <random>
#include <sqlite3.h>
#include <string>
#include <vector>

// The power goes between any two writes of a long run of edits, or within one; the disk fills up at
// any write of an edit. With BEDLORE_LONG_TESTS set the run is longer and every write is cut.

namespace bedlore {
namespace {

namespace fs = std::filesystem;

using testing::bookOf;
using testing::bytesOf;
using testing::DiskImage;
using testing::DiskLog;
using testing::DiskStep;
using testing::everyRecord;
using testing::isASentence;
using testing::putBytes;
using testing::sayings;
using testing::TempFolder;

struct State {
    Book book;
    std::int64_t nextId = 1;
};

/// A book edited as in the window, and what it was after each edit that was acknowledged.
class EditingRun {
public:
    EditingRun(const fs::path& path, DiskLog& log, unsigned seed)
        : log_(log)
        , file_(BookFile::create(path).value())
        , random_(seed) {
        states.emplace(0, State{});
        image["a.gpkg"] = bytesOf(path);
        first = log.steps().size();
        acknowledged.emplace_back(first, 0);
    }

    void put(const Edits& edits) {
        const Edits inverse = write(edits);
        history_.applied("act", inverse);
    }
    void goOn(const fs::path& folder) {
        switch (random_() % 8) {
        case 0:
        case 1:
            if (history_.canUndo()) {
                const Edits edits = history_.nextUndo().edits;
                history_.undone(write(edits));
            }
            return;
        case 2:
            if (history_.canRedo()) {
                const Edits edits = history_.nextRedo().edits;
                history_.redone(write(edits));
            }
            return;
        case 3: {
            const Result<void> derived = file_.writeDerived({});
            EXPECT_TRUE(derived) << sayings(derived);
            return;
        }
        case 4: {
            fs::remove(folder / "copy.gpkg");
            const Result<void> copied = file_.copyTo(folder / "copy.gpkg");
            EXPECT_TRUE(copied) << sayings(copied);
            return;
        }
        case 5:
            return put(
                {Put<Page>{{.id = {next_}, .water = {2}, .author = std::string(3000, 'x')}}});
        default:
            return put({Put<Word>{{.id = {next_}, .text = "w" + std::to_string(next_)}}});
        }
    }

    DiskImage image;                      ///< when the first step was taken
    std::size_t first = 0;                ///< that step
    std::map<std::int64_t, State> states; ///< by edit number
    std::vector<std::pair<std::size_t, std::int64_t>> acknowledged; ///< steps, edit number

private:
    Edits write(const Edits& edits) {
        const Book& before = states.at(file_.editNumber()).book;
        Result<Applied> applied = applyEdits(before, edits);
        EXPECT_TRUE(applied) << sayings(applied);
        next_ = std::max(next_, largestId(edits) + 1);
        const Result<void> written = file_.write(edits, next_);
        EXPECT_TRUE(written) << sayings(written);
        states.emplace(file_.editNumber(), State{applied->book, file_.nextId()});
        acknowledged.emplace_back(log_.steps().size(), file_.editNumber());
        return std::move(applied->inverse);
    }

    DiskLog& log_;
    BookFile file_;
    History history_;
    std::mt19937 random_;
    std::int64_t next_ = 27;
};

/// Opens the book that such a disk holds: after a step it is as after the last edit that was
/// acknowledged by then, or as after the one that was being written.
void expectWhole(
    const fs::path& folder, const DiskImage& disk, const EditingRun& run, std::size_t step) {
    for (const char* name : {"a.gpkg", "a.gpkg-journal"}) {
        const auto bytes = disk.find(name);
        if (bytes != disk.end()) {
            putBytes(folder / name, bytes->second);
        } else {
            fs::remove(folder / name);
        }
    }
    const auto later =
        std::find_if(run.acknowledged.begin(), run.acknowledged.end(), [&](const auto& entry) {
            return entry.first > step;
        });
    const std::int64_t kept = std::prev(later)->second;
    const Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    ASSERT_GE(file->editNumber(), kept);
    ASSERT_LE(file->editNumber(), kept + 1);
    const State& expected = run.states.at(file->editNumber());
    ASSERT_TRUE(file->book() == expected.book);
    ASSERT_EQ(file->nextId(), expected.nextId);
    ASSERT_TRUE(file->isWritable());
    // One that was cut off before its first bytes says nothing; SQLite leaves it for the next
    // write.
    ASSERT_FALSE(hasHotJournal(folder / "a.gpkg"));
}

/// Replays the run step by step into a fresh folder.
void replay(const EditingRun& run, const std::vector<DiskStep>& steps, std::size_t cutEvery) {
    const TempFolder folder;
    DiskImage disk = run.image;
    DiskImage synced = disk;
    for (std::size_t i = run.first; i < steps.size(); ++i) {
        const DiskStep& step = steps[i];
        SCOPED_TRACE("step " + std::to_string(i) + " on " + step.file);
        const bool isBook = step.file == "a.gpkg" || step.file == "a.gpkg-journal";
        if (!isBook) {
            continue; // a copy that is being made
        }
        if (step.kind == DiskStep::Kind::Write && i % cutEvery == 0) {
            for (const std::size_t most : {std::size_t{512}, step.bytes.size() / 2 + 1}) {
                DiskImage torn = disk;
                apply(step, torn, most);
                expectWhole(folder.path(), torn, run, i);
            }
        }
        if (step.kind != DiskStep::Kind::Write) {
            // What was not waited for may not be there, of the one file or of the other.
            for (const char* name : {"a.gpkg", "a.gpkg-journal"}) {
                DiskImage dropped = disk;
                if (const auto old = synced.find(name); old != synced.end()) {
                    dropped[name] = old->second;
                } else {
                    dropped.erase(name);
                }
                if (dropped != disk) {
                    expectWhole(folder.path(), dropped, run, i);
                }
            }
        }
        apply(step, disk);
        if (step.kind == DiskStep::Kind::Sync) {
            synced[step.file] = disk[step.file];
        } else {
            if (step.kind == DiskStep::Kind::Delete) {
                synced.erase(step.file);
            }
            expectWhole(folder.path(), disk, run, i + 1);
        }
        if (::testing::Test::HasFatalFailure()) {
            return;
        }
    }
}

TEST(BookFilePower, EveryPrefixOfWhatWasWrittenIsAWholeBook) {
    const bool isLong = std::getenv("BEDLORE_LONG_TESTS") != nullptr;
    constexpr unsigned seed = 20250412;
    SCOPED_TRACE(seed);
    const TempFolder folder;
    DiskLog log;
    EditingRun run(folder / "a.gpkg", log, seed);
    for (const Edit& edit : everyRecord()) {
        run.put({edit});
    }
    for (int i = 0; i < (isLong ? 600 : 60); ++i) {
        run.goOn(folder.path());
    }
    const std::vector<DiskStep> steps = log.steps();
    ASSERT_GT(run.states.size(), 50U);
    replay(run, steps, isLong ? 1 : 7);
    RecordProperty("steps", static_cast<int>(steps.size() - run.first));
    RecordProperty("edits", static_cast<int>(run.states.size()) - 1);
}

class BookFileDiskFails : public ::testing::TestWithParam<int> {};

TEST_P(BookFileDiskFails, AtAnyWriteOfAnEditNothingMovesAndTheNextWorks) {
    const TempFolder folder;
    DiskLog log;
    ASSERT_TRUE(testing::makeFullBook(folder / "a.gpkg"));
    Result<BookFile> file = BookFile::open(folder / "a.gpkg");
    ASSERT_TRUE(file) << sayings(file);
    const Edits edits{
        Put<Page>{{.id = {30}, .water = {2}, .author = std::string(9000, 'x')}},
        Remove<Word>{{25}}};
    const Book before = file->book();
    ASSERT_TRUE(applyEdits(before, edits));
    const std::string bytes = bytesOf(folder / "a.gpkg");
    constexpr std::size_t tooMany = 200;
    std::size_t step = 0;
    for (; step < tooMany; ++step) {
        SCOPED_TRACE(step);
        log.failFrom(step, GetParam());
        const Result<void> written = file->write(edits, 31);
        const bool failed = log.hasFailed();
        log.heal();
        if (!failed) {
            ASSERT_TRUE(written) << sayings(written);
            break;
        }
        ASSERT_FALSE(written);
        EXPECT_EQ(written.error().fault, Fault::Machine) << sayings(written);
        EXPECT_THAT(written.error().message, isASentence());
        EXPECT_EQ(file->editNumber(), 1);
        EXPECT_EQ(file->nextId(), 27);
        EXPECT_FALSE(file->catchUp().value()) << "what was refused is there";
        EXPECT_TRUE(bytesOf(folder / "a.gpkg") == bytes);
    }
    EXPECT_GT(step, 5U);
    EXPECT_LT(step, tooMany);
    EXPECT_EQ(file->integrity(), "ok");
    const Result<BookFile> again = BookFile::open(folder / "a.gpkg", BookAccess::ReadOnly);
    ASSERT_TRUE(again) << sayings(again);
    EXPECT_TRUE(again->book() == applyEdits(before, edits)->book);
    EXPECT_THAT(again->notices(), ::testing::IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(
    Ways,
    BookFileDiskFails,
    ::testing::Values(SQLITE_FULL, SQLITE_IOERR_WRITE, SQLITE_IOERR_FSYNC));

} // namespace
} // namespace bedlore
