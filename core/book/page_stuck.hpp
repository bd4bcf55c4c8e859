// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_reading.hpp"

#include <optional>
#include <string_view>

// "A30 9 gr": an aim's letter that stands at its distance without a blank.

namespace bedlore {

/// Such a line read as if the blank were there, with a remark that offers it. None where the letter
/// and its number may be a name ("B52 flew over", "P14 again"), so that the line is a note.
[[nodiscard]] std::optional<ReadingLine>
readStuckLabel(std::string_view line, const ReadingRules& rules);

} // namespace bedlore
