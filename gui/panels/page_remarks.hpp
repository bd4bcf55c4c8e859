// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"
#include "gui/document/page_session.hpp"

#include <QString>

#include <cstddef>
#include <map>
#include <string>
#include <vector>

// What the map has to say of lines of a page that are understood.

namespace bedlore {

struct PageRemarks {
    std::map<Id<Reading>, QString> readings; ///< that could not be used
    std::map<Id<Visit>, QString> levels;     ///< that count for nothing, or that nobody said
    friend bool operator==(const PageRemarks&, const PageRemarks&) = default;
};

/// A page as it stands in the editor, which may be ahead of the book.
struct TypedPage {
    const PageSession& session;
    const Book& book;
    const PageMeaning& meaning;
    const std::vector<std::string>& lines;
};

/// The remarks by line, counted from 0, as far as the lines are those that the map knows. What is
/// said of a level stands at its line, or at the date of a visit that has none.
[[nodiscard]] std::map<std::size_t, QString>
remarksByLine(const PageRemarks& remarks, const TypedPage& page);

} // namespace bedlore
