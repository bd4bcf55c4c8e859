// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/edit.hpp"
#include "core/book/page_meaning.hpp"

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

struct PageUpdate {
    Edits edits;
    PageMeaning meaning;
    std::vector<std::string> notices;
};

/// The edits that turn `page`, as `book` has it, into `lines`: swims, visits, aims, marks, casts
/// and readings are made, changed or removed so that they are exactly what the page says. Records
/// whose lines did not change keep their ids and are not touched; records that other pages or
/// imports made are never removed. A page without a swim or a date keeps its lines, its readings
/// wait, and `notices` say what for. `former` is what the page was read by until now, where that
/// differs from what `book` says: something was taught or forgotten.
[[nodiscard]] Result<PageUpdate> updatePage(
    const Book& book,
    const Page& page,
    const std::vector<TypedLine>& lines,
    IdSource& ids,
    const PageContext* former = nullptr);

/// The page's lines as typed, each ended by a newline.
[[nodiscard]] std::string pageText(const Book& book, Id<Page> page);

} // namespace bedlore
