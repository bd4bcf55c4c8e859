// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <optional>
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
};

/// A line taken apart. `meaning.kind` is Reading, Unclear or Note; `reading` counts for the first
/// only.
struct ReadingLine {
    LineMeaning meaning;
    Reading reading;
    std::string aim;      ///< empty where the line names none
    bool newCast = false; ///< it began with a plus
};

/// A line that has an aim's label or a distance at its front and goes on as a reading does.
/// Anything else is a note.
[[nodiscard]] ReadingLine readReadingLine(std::string_view line, const ReadingRules& rules);

/// Whether `word` names an aim here: one that the page defines, or a single capital letter.
[[nodiscard]] bool isAimLabel(std::string_view word, const PageSection& section);

/// A distance as typed, for spots and lengths used.
[[nodiscard]] std::optional<Entered>
readDistance(std::string_view text, std::optional<Unit> bareDistance);

/// About how long a count is [m], for telling nearer from farther only: sticks of the section, 0.9
/// m a turn.
[[nodiscard]] double roughMetres(const Entered& distance, const PageSection& section);

} // namespace bedlore
