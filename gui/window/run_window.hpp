// SPDX-License-Identifier: MIT
#pragma once

#include "gui/window/main_window.hpp"

// The program with its window, from start to end.

namespace bedlore {

/// Makes the application and the window and runs until it is closed. Gives the exit status.
[[nodiscard]] int runWindow(int argc, char** argv, const WindowOptions& options);

} // namespace bedlore
