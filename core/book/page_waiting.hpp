// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_visit.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// What of a page cannot go on the map yet, and what it waits for.

namespace bedlore {

/// Whether a header's word stands alone on its line: "swim" or "date", about to be completed.
[[nodiscard]] bool waitsToBeCompleted(std::string_view line);

/// What a part of a page lacks before its readings count: "a swim", "a date", "a swim and a date";
/// empty where it lacks neither.
[[nodiscard]] std::string missingHeaders(const PageSection& section);

/// How many readings of a page wait for the same: what it is, in words of `missingHeaders`.
struct WaitingReadings {
    std::string lacking;
    std::size_t count = 0;
    std::size_t firstLine = 0; ///< counted from 1
};

/// One entry for each part of the page whose readings wait, in the page's order.
[[nodiscard]] std::vector<WaitingReadings>
waitingReadings(const PageMeaning& meaning, const SaidByPage& said);

/// One sentence for each part of the page whose readings wait for a swim, a date or both: how many,
/// from which line on, and the header that they need. `said` is what `meaning` says of its visits.
[[nodiscard]] std::vector<std::string>
waitingWords(const PageMeaning& meaning, const SaidByPage& said);

} // namespace bedlore
