// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_edits.hpp"

#include <cstddef>
#include <string>
#include <vector>

// Which stored line each line in the editor is.

namespace bedlore {

/// Pairs the editor's lines with the stored ones, so that a line that he did not touch stays the
/// record that it was: equal lines at both ends first, then the longest run of equal lines between,
/// then equal lines that stand elsewhere (a line that he moved stays itself), then, between those,
/// line by line in order (a line that he changed stays itself). What is left over is new.
[[nodiscard]] std::vector<TypedLine>
matchLines(const std::vector<const PageLine*>& stored, const std::vector<std::string>& typed);

/// The lines that differ, for the words of undo: how many there are in `after`, where the first of
/// them stands (from 0), and how many they replace in `before`.
struct LineChange {
    std::size_t first = 0;
    std::size_t removed = 0;
    std::size_t added = 0;
    bool reordered = false; ///< the same lines, in another order
    friend bool operator==(const LineChange&, const LineChange&) = default;
};
[[nodiscard]] LineChange
lineChange(const std::vector<std::string>& before, const std::vector<std::string>& after);

/// What was changed from `before` to `mine`, done to `theirs`, which came of `before` in another
/// way. Where both changed the same lines, `mine` stand.
[[nodiscard]] std::vector<std::string> mergedLines(
    const std::vector<std::string>& before,
    const std::vector<std::string>& mine,
    const std::vector<std::string>& theirs);

/// "typed line 12", "changed line 3", "took out line 5", "typed 60 lines", "swapped lines 3 and 4",
/// "put 60 lines in place of 3".
[[nodiscard]] std::string words(const LineChange& change);

} // namespace bedlore
