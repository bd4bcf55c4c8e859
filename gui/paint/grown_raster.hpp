// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/raster.hpp"

// A map that reaches a little beyond what is known, so that it can be cut along a smooth edge.

namespace bedlore {

/// `depth` with the unknown cells (NaN) up to two cells beside known ones given the mean of their
/// neighbours that are known, or were given one before them.
[[nodiscard]] Raster<float> grownByTwoCells(const Raster<float>& depth);

} // namespace bedlore
