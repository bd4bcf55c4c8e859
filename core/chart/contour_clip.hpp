// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/contours.hpp"

// Contours inside an outline.

namespace bedlore {

/// What of `contours` lies in `outline`; lines keep their direction. `shown` becomes the outline.
/// Bands still meet without overlap; where `outline` reaches beyond what was shown, nothing is
/// added.
[[nodiscard]] Contours clipped(const Contours& contours, const Polygon& outline);

} // namespace bedlore
