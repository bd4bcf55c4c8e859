// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/reading.hpp"
#include "core/reduction/spool.hpp"
#include "core/units/length.hpp"

#include <optional>

// A counted length to line between tip and lead, and from there to the ground.

namespace bedlore {

/// What a count of line means on one visit: a wrap there, and the reel that the cast was made with.
struct LineRules {
    Length wrap;                ///< one counted wrap, there-and-back habit included
    std::optional<Spool> spool; ///< for turns
};

/// No cast from a bank goes farther: 400 m.
inline constexpr Length longestLine = 400.0 * metre;

/// One counted wrap of `visit`: its sticks (12 ft where unsaid), twice that for a man who counts
/// there and back.
[[nodiscard]] Length wrapOf(const Visit& visit);

/// The line out that `count` says. Its sigma holds what the reel's own measure adds, not the error
/// of counting. Fails in a sentence for turns without a measured reel, for units that are no
/// length, for a negative count and beyond `longestLine`.
[[nodiscard]] Result<MeasuredLine> lineOut(const Entered& count, const LineRules& rules);

/// The line out after winding in `count` (turns by the reel's own curve, or any length) from
/// `last`. Fails when that would be nothing or less.
[[nodiscard]] Result<MeasuredLine>
lineNearer(const Entered& count, LineOut last, const LineRules& rules);

/// Line and drop (tip above the water plus depth) to the distance on the plan: sqrt(line² − drop²).
/// Fails when the line is not longer than the drop.
[[nodiscard]] Result<GroundDistance> groundDistance(LineOut line, Length drop);

/// The line that reaches a ground distance: sqrt(range² + drop²).
[[nodiscard]] LineOut lineFor(GroundDistance range, Length drop);

} // namespace bedlore
