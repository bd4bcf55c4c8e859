// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/reading.hpp"
#include "core/book/visit.hpp"
#include "core/units/depth.hpp"

// A depth as noted to a depth below that day's surface.

namespace bedlore {

/// A depth and its error, rounding apart (1 sd).
struct MeasuredDepth {
    Depth depth;
    Length sigma;
};

/// False where the float or the lead never got to the bed: what was counted is then no depth of it.
[[nodiscard]] bool reachedTheBed(const Reading& reading);

/// Pulls × pull length + the rig's offset (the visit's float), or a fixed unit. "8 to 10" is its
/// middle with a uniform error, which no agreement narrows; "about" doubles the reading's own
/// error, a doubtful reading's is half as large again, and N casts that agree divide it by √N.
/// Fails for pulls on a visit that does not say its float and for what is no depth. The reading
/// must have a depth.
[[nodiscard]] Result<MeasuredDepth> measuredDepth(const Reading& reading, const Visit& visit);

/// The length of one unit of a depth's number on this visit, for its rounding: a foot, a pull, a
/// metre.
[[nodiscard]] Length depthUnit(Unit unit, const Visit& visit);

} // namespace bedlore
