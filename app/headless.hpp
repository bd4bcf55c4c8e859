// SPDX-License-Identifier: MIT
#pragma once

#include "app/command_line.hpp"
#include "app/console.hpp"

// Every command that works without a window.

namespace bedlore {

/// Runs `options.command`, which is not `OpenWindow`.
[[nodiscard]] ExitStatus runHeadless(const Options& options, Console& console);

} // namespace bedlore
