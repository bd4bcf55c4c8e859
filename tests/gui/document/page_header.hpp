// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

namespace bedlore::testing {

/// The head of a page: aims in degrees, wraps and feet.
inline std::vector<std::string> pageHeader() {
    return {
        "swim the Point",
        "date 2025-04-12",
        "sticks 12 ft",
        "distances wraps",
        "depths ft",
        "tip 6 ft"};
}

} // namespace bedlore::testing
