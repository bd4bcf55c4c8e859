// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/reduction/sounding.hpp"
#include "gui/document/bed_map.hpp"

#include <vector>

// Every water of a book, from notes to places with depths: what the tables for other programs are
// made from.

namespace bedlore {

/// One for each water of `book`. That of `drawn`, which may be null, is taken over where it is of
/// this very book.
[[nodiscard]] Result<std::vector<Reduction>> reductionsOf(
    const std::shared_ptr<const Book>& book, const BedMap* drawn, const Progress& progress);

/// Whether `book` holds so many depths (thousands) that to write the tables for other programs
/// takes long enough (4 s for a million) for a window to seem to stand still.
[[nodiscard]] bool hasManyDepths(const Book& book);

} // namespace bedlore
