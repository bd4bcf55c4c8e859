// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>

// One typed reading: aim, distance, depth, feel.

namespace bedlore {

/// What stands above a line and decides how its bare numbers are read.
struct ReadingRules {
    const PageContext& context;
    const PageSection& section;
    std::optional<Unit> bareDistance;
    std::optional<Unit> bareDepth;
    std::string reel; ///< named on the page, empty for none
    const std::set<std::string, std::less<>>* usedAims = nullptr; ///< of readings above
};

/// A line taken apart. `meaning.kind` is Reading, Unclear or Note; `reading` counts for the first
/// only.
struct ReadingLine {
    LineMeaning meaning;
    Reading reading;
    std::string aim;      ///< empty where the line names none
    bool newCast = false; ///< it began with a plus
};

/// A line that has an aim's label or a distance at its front and goes on as a reading does:
///
///     [+] [aim] distance [-- | depth] words and signs [, note]
///
/// What follows the words that are known is the reading's note, where it is prose. A line that
/// begins as a reading and cannot be understood is unclear; anything else is a note.
[[nodiscard]] ReadingLine readReadingLine(std::string_view line, const ReadingRules& rules);

/// Whether `word` names an aim here: one that the page defines, or a single capital letter.
[[nodiscard]] bool isAimLabel(std::string_view word, const PageSection& section);

} // namespace bedlore
