// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <optional>
#include <string>

// Pages that belong to no visit yet, because they do not say their swim or their date.

namespace bedlore {

/// "page without a date, begins: a long note…": names such a page in a list.
[[nodiscard]] std::string waitingPageWords(const Book& book, Id<Page> page);

/// "40 readings wait for a date that their page does not say yet.", a sentence for each thing that
/// is waited for on the water's pages; empty where no reading waits. Reads every page.
[[nodiscard]] std::string waitingReadingsWords(const Book& book, Id<Water> water);

/// The page entered last of those that belong to no visit yet and say more than headers; none where
/// each has its day.
[[nodiscard]] std::optional<Id<Page>> lastWaitingPage(const Book& book);

/// "A page with 5 lines waits for a date.": of all such pages of the book; empty for none.
[[nodiscard]] std::string waitingPagesWords(const Book& book);

} // namespace bedlore
