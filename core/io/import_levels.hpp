// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <string>
#include <vector>

// Days of an import that say no water level.

namespace bedlore {

/// One sentence for each swim that has, after the import, days with a level and days without one,
/// where the import brought either. Depths of a day without a level count from the level mark
/// itself, so that such a day may move the map up or down.
[[nodiscard]] std::vector<std::string> missingLevelWords(const Book& before, const Book& after);

} // namespace bedlore
