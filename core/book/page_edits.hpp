// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"
#include "core/book/page_meaning.hpp"
#include "core/book/page_visit.hpp"

#include <optional>
#include <string>
#include <vector>

// From a page's lines to the edits that make the book say the same.

namespace bedlore {

/// A line of the page as it stands in the editor: `id` is the stored line that it was, empty for a
/// new one.
struct TypedLine {
    std::optional<Id<PageLine>> id;
    std::string text;
};

/// A page's text, what it was read by, and what it said.
struct PageAsRead {
    std::vector<std::string> texts;
    PageContext context;
    PageMeaning meaning;
    SaidByPage said;
};

struct PageUpdate {
    Edits edits;
    std::vector<std::string> notices;
    PageAsRead read; ///< the page as it is now
};

/// How the page was read until now.
struct FormerReading {
    /// Where it differs from what the book says: something was taught or forgotten.
    const PageContext* context = nullptr;
    /// The page before, and the page as it is to be, as they were read last: where text and context
    /// are still the same they need not be read again.
    const PageAsRead* last = nullptr;
    const PageAsRead* now = nullptr;
};

/// Reads `texts` by `context`.
[[nodiscard]] PageAsRead readAs(std::vector<std::string> texts, PageContext context);
/// Whether reading `texts` by `context` gave `read`; false where nothing was read yet.
[[nodiscard]] bool isReadFrom(
    const PageAsRead* read, const std::vector<std::string>& texts, const PageContext& context);

/// The edits that turn `page`, as `book` has it, into `lines`: swims, visits, aims, marks, casts
/// and readings are made, changed or removed so that they are exactly what the page says. Records
/// whose lines did not change keep their ids and are not touched; records that other pages or
/// imports made are never removed. A page without a swim or a date keeps its lines, its readings
/// wait, and `notices` say what for.
[[nodiscard]] Result<PageUpdate> updatePage(
    const Book& book,
    const Page& page,
    const std::vector<TypedLine>& lines,
    IdSource& ids,
    const FormerReading& former = {});

/// The page's lines as typed, each ended by a newline.
[[nodiscard]] std::string pageText(const Book& book, Id<Page> page);

} // namespace bedlore
