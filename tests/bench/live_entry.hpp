// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>
#include <utility>
#include <vector>

// What the benches of a typed line share.

namespace bedlore::bench {

using Clock = std::chrono::steady_clock;

inline double since(Clock::time_point start) {
    const std::chrono::duration<double, std::milli> taken = Clock::now() - start;
    return taken.count();
}

inline void must(bool done, const char* what) {
    if (!done) {
        std::fprintf(stderr, "%s failed\n", what);
        std::exit(1); // NOLINT(concurrency-mt-unsafe): nothing of it is wanted any more
    }
}

/// A page with casts of ten readings over a bed with a bar, as a person notes them: half feet.
inline std::vector<std::string> pageOf(int readings) {
    std::vector<std::string> lines{
        "swim Long Board",
        "date 2025-04-12",
        "sticks 12 ft",
        "distances wraps",
        "depths ft",
        "tip 6 ft"};
    const int casts = (readings + 9) / 10;
    for (int c = 0; c < casts; ++c) {
        lines.push_back(
            "aim X" + std::to_string(c) + " = " + std::to_string(320.0 + 80.0 * c / casts) +
            " true");
    }
    for (int i = 0; i < readings; ++i) {
        const double wraps = 33.0 - 1.5 * (i % 10);
        const double out = 12.0 * wraps * 0.3048;
        const double depth = 11.0 - 4.0 * std::exp(-std::pow((out - 90.0) / 9.0, 2.0));
        std::array<char, 64> text{};
        std::snprintf(text.data(), text.size(), "%.2f %.1f", wraps, std::round(2.0 * depth) / 2.0);
        lines.push_back(
            i % 10 == 0 ? "X" + std::to_string(i / 10) + " " + text.data()
                        : std::string(text.data()));
    }
    return lines;
}

/// What a bench does, for its main: nothing escapes from it.
template <class Work>
int reported(const Work& work) noexcept {
    try {
        work();
        return 0;
    } catch (const std::exception& problem) {
        std::fputs(problem.what(), stderr);
        return 1;
    }
}

inline void say(const char* what, std::vector<double> times) {
    std::sort(times.begin(), times.end());
    std::printf(
        "%-20s median %6.1f ms   95 %% %6.1f ms   (%zu)\n",
        what,
        times[times.size() / 2],
        times[times.size() * 95 / 100],
        times.size());
}

} // namespace bedlore::bench
