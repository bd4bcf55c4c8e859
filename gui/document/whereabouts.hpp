// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <optional>
#include <string>
#include <vector>

// Where he is in the book: water, swim, visit.

namespace bedlore {

struct Whereabouts {
    std::optional<Id<Water>> water;
    std::optional<Id<Swim>> swim;
    std::optional<Id<Visit>> visit;
    friend bool operator==(const Whereabouts&, const Whereabouts&) = default;
};

/// The nearest to `wanted` that the book has: what is no longer there is dropped, what is not said
/// is the latest visit, its swim, its water.
[[nodiscard]] Whereabouts settled(const Book& book, const Whereabouts& wanted);

/// Where a visit is.
[[nodiscard]] Whereabouts whereaboutsOf(const Book& book, Id<Visit> visit);

/// The latest by date, then by entry; none without visits.
[[nodiscard]] std::optional<Id<Visit>> latestVisitOf(const Book& book, Id<Swim> swim);

/// Pages of a water in the order of entry.
[[nodiscard]] std::vector<const Page*> pagesOf(const Book& book, Id<Water> water);

/// The visits that a page speaks of, in its own order.
[[nodiscard]] std::vector<Id<Visit>> visitsOf(const Book& book, Id<Page> page);
/// Whether `visit` is one of them; sooner told than what all of them are.
[[nodiscard]] bool isOfVisit(const Book& book, Id<Page> page, Id<Visit> visit);

/// A page and the visits that it speaks of.
struct PageVisits {
    Id<Page> page;
    std::vector<Id<Visit>> visits;
};
/// The pages of a water in the order of entry, with the visits of their readings; only a page
/// without any is read for what its headers say.
[[nodiscard]] std::vector<PageVisits> pagesAndVisits(const Book& book, Id<Water> water);

/// The first page that speaks of a visit; none for a visit that came from a file.
[[nodiscard]] std::optional<Id<Page>> pageOf(const Book& book, Id<Visit> visit);

/// "12 April 2025, plumbing, level 2 steps": as much as is known.
[[nodiscard]] std::string visitWords(const Visit& visit);
/// "12 April 2025"
[[nodiscard]] std::string dateWords(Date date);

} // namespace bedlore
