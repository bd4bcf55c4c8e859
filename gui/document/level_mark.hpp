// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"

#include <string>

// What he reads a water's level from, as it is typed.

namespace bedlore {

/// `stepHeight` has to say its unit; blank is not said.
struct TypedLevelMark {
    std::string words;
    std::string stepHeight;
    LevelCounts counts = LevelCounts::UpWithWater;
};

/// The mark as it is in the book.
[[nodiscard]] TypedLevelMark typedLevelMark(const Water& water);

/// What "level 2 steps" on a page means then, or why it means nothing; heights in `unit`, metre or
/// foot.
[[nodiscard]] std::string takenLevelWords(const TypedLevelMark& typed, Unit unit);

/// The edits that make the book say what is typed, none where it says so already. A sentence where
/// the height of a step cannot be read.
[[nodiscard]] Result<Edits>
putLevelMark(const Book& book, Id<Water> water, const TypedLevelMark& typed);

} // namespace bedlore
