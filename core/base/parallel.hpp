// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"

#include <cstddef>
#include <functional>

// Independent pieces of work on several threads.

namespace bedlore {

/// Threads worth starting here: one for each core, at least one.
[[nodiscard]] int usualThreads();

/// Calls `work(i)` once for every i below `count`, on up to `threads` threads at once (the caller's
/// is one of them), and reports and looks at `progress` on the caller's thread. Pieces may run in
/// any order, so each must write only what is its own. False when stopped; pieces not yet begun are
/// then left out.
[[nodiscard]] bool inParallel(
    std::size_t count,
    int threads,
    const Progress& progress,
    const std::function<void(std::size_t)>& work);

/// Calls `own` on the caller's thread while others begin with `work(i)` for every i below `count`,
/// then helps with what is left of that. The caller's thread is one of `threads`.
void inParallelBeside(
    const std::function<void()>& own,
    std::size_t count,
    int threads,
    const std::function<void(std::size_t)>& work);

} // namespace bedlore
