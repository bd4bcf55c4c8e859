// SPDX-License-Identifier: MIT
#include "gui/jobs/job_board.hpp"

#include <QCoreApplication>
#include <QSignalSpy>
#include <QThread>
#include <gtest/gtest.h>

#include <atomic>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <vector>

namespace bedlore {
namespace {

const QString bed = QStringLiteral("bed");

/// A door that a worker waits at, until it is opened or the worker is stopped.
class Door {
public:
    void open() {
        const std::lock_guard lock(mutex_);
        isOpen_ = true;
        changed_.notify_all();
    }
    /// True when opened, false when stopped first.
    bool waitAt(const Progress& progress) {
        std::unique_lock lock(mutex_);
        while (!isOpen_ && !progress.cancelled()) {
            changed_.wait_for(lock, std::chrono::milliseconds(1));
        }
        return isOpen_;
    }

private:
    std::mutex mutex_;
    std::condition_variable changed_;
    bool isOpen_ = false;
};

/// Runs events until the board has nothing left to do; false after ten seconds.
bool waitUntilIdle(JobBoard& board) {
    QSignalSpy changes(&board, &JobBoard::changed);
    while (!board.isIdle()) {
        if (!changes.wait(10'000)) {
            return false;
        }
    }
    return true;
}

TEST(JobBoard, HandsTheResultOverOnItsOwnThread) {
    JobBoard board;
    int result = 0;
    QThread* worker = nullptr;
    QThread* receiver = nullptr;
    board.start(
        bed,
        QStringLiteral("drawing"),
        [&worker](const Progress&) {
            worker = QThread::currentThread();
            return 42;
        },
        [&](int value) {
            result = value;
            receiver = QThread::currentThread();
        });
    EXPECT_TRUE(board.isRunning(bed));
    EXPECT_EQ(board.words(), QStringLiteral("drawing"));
    ASSERT_TRUE(waitUntilIdle(board));
    EXPECT_EQ(result, 42);
    EXPECT_EQ(receiver, QThread::currentThread());
    EXPECT_NE(worker, QThread::currentThread());
    EXPECT_TRUE(board.words().isEmpty());
}

TEST(JobBoard, KeepsOnlyTheNewestOfThreeQuickStarts) {
    JobBoard board;
    std::vector<int> results;
    std::atomic<int> stopped = 0;
    auto door = std::make_shared<Door>();
    for (int number = 1; number <= 3; ++number) {
        board.start(
            bed,
            {},
            [number, door, &stopped](const Progress& progress) {
                if (!door->waitAt(progress)) {
                    ++stopped;
                }
                return number;
            },
            [&results](int value) { results.push_back(value); });
    }
    // The first two end by themselves, as nobody opens the door before the third is the newest.
    door->open();
    ASSERT_TRUE(waitUntilIdle(board));
    EXPECT_EQ(results, std::vector<int>{3});
}

TEST(JobBoard, ANewerStartStopsTheRunningOne) {
    JobBoard board;
    std::atomic<bool> sawStop = false;
    auto shut = std::make_shared<Door>();
    board.start(
        bed,
        {},
        [shut, &sawStop](const Progress& progress) {
            sawStop = !shut->waitAt(progress);
            return 1;
        },
        [](int) { FAIL() << "the older result was delivered"; });
    int result = 0;
    board.start(
        bed,
        {},
        [&sawStop](const Progress&) {
            // Waits for the other worker, not for a time.
            while (!sawStop) {
                QThread::yieldCurrentThread();
            }
            return 2;
        },
        [&result](int value) { result = value; });
    ASSERT_TRUE(waitUntilIdle(board));
    EXPECT_TRUE(sawStop);
    EXPECT_EQ(result, 2);
}

TEST(JobBoard, KindsDoNotDisturbEachOther) {
    JobBoard board;
    int sum = 0;
    const auto add = [&sum](int value) { sum += value; };
    board.start(
        bed, {}, [](const Progress&) { return 1; }, add);
    board.start(
        QStringLiteral("export"), {}, [](const Progress&) { return 10; }, add);
    ASSERT_TRUE(waitUntilIdle(board));
    EXPECT_EQ(sum, 11);
}

TEST(JobBoard, AStoppedJobDeliversNothing) {
    JobBoard board;
    auto shut = std::make_shared<Door>();
    std::atomic<bool> ended = false;
    board.start(
        bed,
        {},
        [shut, &ended](const Progress& progress) {
            static_cast<void>(shut->waitAt(progress));
            ended = true;
            return 1;
        },
        [](int) { FAIL() << "a stopped job delivered"; });
    board.stop(bed);
    EXPECT_TRUE(board.isIdle());
    while (!ended) {
        QThread::yieldCurrentThread();
    }
    QCoreApplication::processEvents();
}

TEST(JobBoard, WorkThatLeavesSomethingIsAwaitedWhenItIsStopped) {
    JobBoard board;
    auto shut = std::make_shared<Door>();
    std::vector<bool> ends;
    board.startToTheEnd(
        bed,
        QStringLiteral("writing"),
        [shut](const Progress& progress) { return shut->waitAt(progress); },
        [&ends](bool opened) { ends.push_back(opened); });
    board.stop(bed);
    board.stopAll();
    EXPECT_TRUE(board.isRunning(bed)) << "until it has ended";
    EXPECT_EQ(board.words(), QStringLiteral("stopping"));
    ASSERT_TRUE(waitUntilIdle(board));
    EXPECT_EQ(ends, std::vector<bool>{false}) << "told once, that it was stopped";
}

TEST(JobBoard, ClosingStopsAndWaits) {
    std::atomic<bool> ended = false;
    auto shut = std::make_shared<Door>();
    {
        JobBoard board;
        board.start(
            bed,
            {},
            [shut, &ended](const Progress& progress) {
                const bool opened = shut->waitAt(progress);
                ended = true;
                return opened;
            },
            [](bool) { FAIL() << "delivered after closing"; });
    }
    EXPECT_TRUE(ended);
    QCoreApplication::processEvents();
}

TEST(JobBoard, SaysHowFarItIs) {
    JobBoard board;
    QSignalSpy reports(&board, &JobBoard::progressed);
    board.start(
        bed,
        {},
        [](const Progress& progress) {
            progress.at(0.5);
            return 0;
        },
        [](int) {});
    ASSERT_TRUE(waitUntilIdle(board));
    ASSERT_EQ(reports.count(), 1);
    EXPECT_EQ(reports.at(0).at(1).toDouble(), 0.5);
}

} // namespace
} // namespace bedlore
