// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace bedlore {

int usualThreads() {
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

bool inParallel(
    std::size_t count,
    int threads,
    const Progress& progress,
    const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    const auto takeWork = [&](bool reporting) {
        while (!progress.cancelled()) {
            const std::size_t i = next.fetch_add(1, std::memory_order_relaxed);
            if (i >= count) {
                return;
            }
            work(i);
            if (reporting) {
                progress.at(static_cast<double>(i + 1) / static_cast<double>(count));
            }
        }
    };
    const auto others = static_cast<std::size_t>(std::max(threads, 1) - 1);
    {
        std::vector<std::jthread> workers;
        for (std::size_t t = 0; t < std::min(others, count); ++t) {
            workers.emplace_back([&] { takeWork(false); });
        }
        takeWork(true);
    }
    return !progress.cancelled();
}

void inParallelBeside(
    const std::function<void()>& own,
    std::size_t count,
    int threads,
    const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next{0};
    const auto takeWork = [&] {
        for (;;) {
            const std::size_t i = next.fetch_add(1, std::memory_order_relaxed);
            if (i >= count) {
                return;
            }
            work(i);
        }
    };
    const auto others = static_cast<std::size_t>(std::max(threads, 1) - 1);
    std::vector<std::jthread> workers;
    for (std::size_t t = 0; t < std::min(others, count); ++t) {
        workers.emplace_back(takeWork);
    }
    own();
    takeWork();
}

} // namespace bedlore
