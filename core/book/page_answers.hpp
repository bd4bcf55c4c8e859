// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/edit_plan.hpp"
#include "core/book/page_former.hpp"

// What he answered about a page whose head changes.

namespace bedlore {

/// A visit whose swim or date he corrects keeps what he answered about its numbers, in `plan` and
/// in `context`. Only where one visit of the page alone is called otherwise now: else it would be a
/// guess which of them became which. Whether anything was kept so: then the page says more.
[[nodiscard]] bool renameAnswers(
    EditPlan& plan, PageContext& context, const FormerPage& former, const SaidByPage& now);

} // namespace bedlore
