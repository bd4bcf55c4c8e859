// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit_plan.hpp"
#include "core/book/page_meaning.hpp"

#include <map>
#include <optional>
#include <set>
#include <string>

// A page's section as records: its swim, visit, aims, marks and reels.

namespace bedlore {

/// The records that a section stands for.
struct SectionRecords {
    Id<Visit> visit;
    std::map<std::string, Id<Aim>> aims; ///< by label
};

/// The swim of `water` with that name, made without a place where there is none. Likewise reels
/// (without a measure).
[[nodiscard]] Id<Swim> swimNamed(EditPlan& plan, Id<Water> water, const std::string& name);
[[nodiscard]] Id<Reel> reelNamed(EditPlan& plan, const std::string& name);

/// Which visit a section had before, and whether anything but this page says something of it.
struct FormerVisit {
    std::optional<Id<Visit>> visit;
    bool shared = false;
    std::set<Id<Aim>> saidAims; ///< aims that earlier sections of the page spoke of
};

/// Makes the section's visit say what the page says. On a visit that others share, only what the
/// page says is changed. `labels` are the aims that its casts use, in the order in which they first
/// do. None where the section has no swim or no date yet.
[[nodiscard]] std::optional<SectionRecords> putSection(
    EditPlan& plan,
    Id<Water> water,
    const PageSection& section,
    const std::vector<std::string>& labels,
    const FormerVisit& former);

} // namespace bedlore
