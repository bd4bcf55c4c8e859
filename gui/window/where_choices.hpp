// SPDX-License-Identifier: MIT
#pragma once

// The sentence at the head of the window, and what each of its parts offers.

namespace bedlore {

class ChoiceLine;
class Desk;

/// Fills `line` with where `desk` is: water, swim, visit. Each part offers the others there are.
void showWhereabouts(ChoiceLine& line, Desk& desk);

/// Goes on by `by` of the pages that the last part offers; from a new page, back to the last one.
/// False where there is none.
[[nodiscard]] bool stepPage(Desk& desk, int by);

} // namespace bedlore
