// SPDX-License-Identifier: MIT
#pragma once

// The sentence at the head of the window, and what each of its parts offers.

namespace bedlore {

class ChoiceLine;
class Desk;

/// Fills `line` with where `desk` is: water, swim, visit. Each part offers the others there are.
void showWhereabouts(ChoiceLine& line, Desk& desk);

} // namespace bedlore
