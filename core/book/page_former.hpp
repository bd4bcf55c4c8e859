// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/book/page_meaning.hpp"
#include "core/book/page_visit.hpp"

#include <map>
#include <optional>
#include <set>
#include <vector>

// What a page had made of the book before it is changed.

namespace bedlore {

/// The records that hang on a page's stored lines, and what its text said. Moved, never copied:
/// `visits` points into `said`.
struct FormerPage {
    FormerPage() = default;
    FormerPage(FormerPage&&) = default;
    FormerPage& operator=(FormerPage&&) = default;

    std::map<Id<PageLine>, PageLine> lines;
    std::set<Id<Reading>> readings;
    std::set<Id<Cast>> casts;
    std::set<Id<Spot>> spots;
    std::set<Id<Aim>> aims;
    std::set<Id<Swim>> swims;
    std::set<Id<Mark>> marks;
    std::set<Id<Reel>> reels;
    SaidByPage said;
    std::map<Id<Visit>, VisitBefore> visits; ///< that the page spoke of
    std::vector<std::optional<Id<Visit>>> visitOfSection;
};

/// How `page` stands in `book`, whose text of it says `said`.
[[nodiscard]] FormerPage formerPage(const Book& book, const Page& page, SaidByPage said);

} // namespace bedlore
