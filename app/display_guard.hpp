// SPDX-License-Identifier: MIT
#pragma once

// A window on a machine that cannot show one.

namespace bedlore {

/// From here on, a window toolkit that finds no display ends the program with a sentence and the
/// status of a machine at fault, instead of with an abort. To be called before the application is
/// made.
void guardAgainstMissingDisplay();

} // namespace bedlore
