// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit_plan.hpp"
#include "core/book/page_meaning.hpp"

#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <vector>

// What a page says of its visits, and the records that it becomes: swims, visits, aims, marks and
// reels.

namespace bedlore {

/// All sections of a page that speak of one swim and date, put together: what a later one says
/// counts. Without a swim or a date a section waits by itself.
struct SaidOfVisit {
    PageSection section;
    std::vector<std::string> labels; ///< of its aims: those defined, then those only used
    std::size_t firstSection = 0;
    [[nodiscard]] bool waits() const { return section.swim.empty() || !section.date; }
};

struct SaidByPage {
    std::vector<SaidOfVisit> visits;
    std::vector<std::size_t> visitOfSection; ///< into `visits`
};

[[nodiscard]] SaidByPage saidByPage(const PageMeaning& meaning);

/// The records that a visit of the page stands for.
struct VisitRecords {
    Id<Visit> visit;
    std::map<std::string, Id<Aim>> aims; ///< by label
};

/// How a visit of the page stood before. What the page said then and says no longer is taken back,
/// unless somebody else has changed it since, or relies on it: `shared`.
struct VisitBefore {
    const SaidOfVisit* said = nullptr; ///< null where the page did not speak of it
    std::optional<Id<Visit>> renamed;  ///< a visit of the page's own under its former swim or date
    bool shared = false;               ///< casts of other pages or imports are on it
};

/// Makes swim, visit, reel, marks and aims say what `now` says, which must not wait. Sentences
/// about what is new, or was said otherwise elsewhere, are added to `notices`.
[[nodiscard]] VisitRecords putVisit(
    EditPlan& plan,
    Id<Water> water,
    const SaidOfVisit& now,
    const VisitBefore& before,
    std::vector<std::string>& notices);

/// Takes back what the page said of a visit that it names no longer; the visit itself goes where
/// nothing else is known of it.
void leaveVisit(EditPlan& plan, Id<Visit> id, const VisitBefore& before);

/// The reel of that name, made without a measure where there is none.
[[nodiscard]] Id<Reel>
reelNamed(EditPlan& plan, const std::string& name, std::vector<std::string>& notices);

/// The aim of a visit with that label; null where there is none.
[[nodiscard]] const Aim* aimLabelled(const Book& book, Id<Visit> visit, const std::string& label);

} // namespace bedlore
