// SPDX-License-Identifier: MIT
#pragma once

#include <cstdio>
#include <cstdlib>

// Checks of programmer errors: a broken one is a bug of ours, never bad input.

namespace bedlore::detail {

[[noreturn]] inline void contractBroken(const char* condition, const char* file, int line) {
    std::fprintf(stderr, "%s:%d: contract broken: %s\n", file, line, condition);
    std::abort();
}

} // namespace bedlore::detail

#define BEDLORE_EXPECTS(condition)                                                                 \
    ((condition) ? static_cast<void>(0)                                                            \
                 : ::bedlore::detail::contractBroken(#condition, __FILE__, __LINE__))
