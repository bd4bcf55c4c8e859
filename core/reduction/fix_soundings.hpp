// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/reduction/sounding.hpp"

// Depths from elsewhere as soundings.

namespace bedlore {

/// Adds the fixes of the reduction's water that are not set aside, behind the readings' soundings
/// and in the order of their places. Geographic ones need a frame with an origin. Fails only when
/// stopped.
[[nodiscard]] Result<void>
addFixSoundings(const Book& book, Reduction& reduction, const Progress& progress);

} // namespace bedlore
