// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit_plan.hpp"
#include "core/book/page_former.hpp"

// What a page had made and no longer speaks of.

namespace bedlore {

/// Takes out the swims, marks and reels that the page had made and does not mention any more,
/// where nothing is known of them but their name and nothing else uses them.
void removeBare(
    EditPlan& plan, Id<Water> water, const FormerPage& former, const PageMeaning& meaning);

} // namespace bedlore
