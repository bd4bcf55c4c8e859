// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"

#include <gmock/gmock.h>

#include <atomic>
#include <stdexcept>
#include <stop_token>
#include <thread>
#include <vector>

namespace bedlore {
namespace {

using ::testing::Each;

TEST(Parallel, DoesEachPieceOnce) {
    std::vector<int> done(1000, 0);
    EXPECT_TRUE(inParallel(done.size(), 4, {}, [&](std::size_t i) { ++done[i]; }));
    EXPECT_THAT(done, Each(1));
}

TEST(Parallel, NoPieceIsNoWork) {
    EXPECT_TRUE(inParallel(0, 4, {}, [](std::size_t) { FAIL(); }));
}

TEST(Parallel, StopsBetweenPieces) {
    std::stop_source stop;
    std::atomic<int> done{0};
    const Progress progress(stop.get_token(), {});
    EXPECT_FALSE(inParallel(100'000, 3, progress, [&](std::size_t) {
        if (++done == 10) {
            stop.request_stop();
        }
    }));
    EXPECT_LT(done, 100'000);
}

TEST(Parallel, PiecesMayHavePiecesOfTheirOwn) {
    std::atomic<int> done{0};
    static_cast<void>(inParallel(40, 4, {}, [&](std::size_t) {
        static_cast<void>(inParallel(25, 4, {}, [&](std::size_t) { ++done; }));
    }));
    EXPECT_EQ(done, 1000);
}

TEST(Parallel, ManyMayAskAtTheSameTime) {
    std::atomic<int> done{0};
    {
        std::vector<std::jthread> askers;
        for (int i = 0; i < 12; ++i) {
            askers.emplace_back([&] {
                for (int round = 0; round < 50; ++round) {
                    static_cast<void>(inParallel(8, 3, {}, [&](std::size_t) { ++done; }));
                }
            });
        }
    }
    EXPECT_EQ(done, 12 * 50 * 8);
}

TEST(Parallel, OwnWorkIsDoneOnTheCallersThreadBesideTheRest) {
    std::thread::id own;
    std::vector<int> done(64, 0);
    inParallelBeside(
        [&] { own = std::this_thread::get_id(); },
        done.size(),
        3,
        [&](std::size_t i) { ++done[i]; });
    EXPECT_EQ(own, std::this_thread::get_id());
    EXPECT_THAT(done, Each(1));
}

TEST(Parallel, AFaultOfOwnWorkWaitsForWhoeverHasBegun) {
    std::atomic<int> begun{0};
    std::atomic<int> ended{0};
    const auto ask = [&] {
        inParallelBeside(
            [&] { throw std::runtime_error("no room"); },
            1000,
            3,
            [&](std::size_t) {
                ++begun;
                ++ended;
            });
    };
    EXPECT_THROW(ask(), std::runtime_error);
    EXPECT_EQ(begun, ended);
}

} // namespace
} // namespace bedlore
