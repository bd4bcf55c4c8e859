// SPDX-License-Identifier: MIT
#pragma once

#include <cstdio>
#include <cstdlib>
#include <string_view>

// What a fuzzer holds the program to: broken, it ends the run as a crash does.

namespace bedlore::fuzz {

/// `promise` is what was promised, `detail` what was seen instead.
inline void must(bool kept, std::string_view promise, std::string_view detail = {}) {
    if (!kept) {
        std::fprintf(
            stderr,
            "promise broken: %.*s\n%.*s\n",
            static_cast<int>(promise.size()),
            promise.data(),
            static_cast<int>(detail.size()),
            detail.data());
        std::abort();
    }
}

} // namespace bedlore::fuzz
