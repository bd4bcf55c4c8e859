// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/reading.hpp"
#include "core/book/visit.hpp"
#include "core/units/angle.hpp"
#include "core/units/length.hpp"

#include <optional>
#include <span>

// How wrong a note usually is, where he does not say. Assumed sizes, from the trade notes; [C]
// common practice, [M] from memory.

namespace bedlore::usual {

inline constexpr Length stickSpacing = 12.0 * foot; ///< [C]
inline constexpr Length tipHeight = 6.0 * foot;     ///< above the water [C]

// One reading, 1 sd, rounding apart.
inline constexpr Length line = 0.35 * metre;    ///< one count of line [M]
inline constexpr Length depth = 0.10 * metre;   ///< one float reading [M]
inline constexpr double depthShare = 0.015;     ///< and this share of the depth [M]
inline constexpr double aboutFactor = 2.0;      ///< "about"
inline constexpr double doubtfulFactor = 1.5;   ///< "?" [M]
inline constexpr Length fixDepth = 0.2 * metre; ///< a depth from elsewhere that says no error [M]
inline constexpr Length fixPlace = 1.0 * metre; ///< and its position, each way [M]

// Shared by all of a visit or of a swim, 1 sd.
inline constexpr double rangeScale = 0.003;              ///< sticks and tension [M]
inline constexpr Length rangeOffset = 0.2 * metre;       ///< where the rod was when clipped [M]
inline constexpr Length swimPlace = 0.3 * metre;         ///< where he stood, each way [C]
inline constexpr Length levelInMetres = 0.02 * metre;    ///< a gauge read [M]
inline constexpr Length levelInSteps = 0.05 * metre;     ///< steps counted [M]
inline constexpr Length levelUnsaid = 0.3 * metre;       ///< a visit that says no level
inline constexpr Angle rotation = 0.3 * degree;          ///< all directions of a visit together [M]
inline constexpr Angle rotationByCompass = 1.5 * degree; ///< the same of a sighting compass [M]
inline constexpr Angle rotationByPhone = 4.0 * degree;   ///< and of a phone [M]

// One cast's direction, 1 sd. A phone's 5° are 3° of each bearing and 4° of all together.
inline constexpr Angle aimTyped = 1.0 * degree;   ///< at a bearing [M]
inline constexpr Angle aimAtMark = 0.7 * degree;  ///< at a mark, or by a photo's angles [M]
inline constexpr Angle aimByPhone = 3.0 * degree; ///< at a phone's bearing [M]
inline constexpr Angle aimByHand = 2.0 * degree;  ///< by fists and fingers [M]
inline constexpr Angle aimGuessed = 5.0 * degree; ///< by the clock, or where nobody gave one

} // namespace bedlore::usual

namespace bedlore {

/// The step that all `numbers` of one unit were rounded to: the largest of `steps` (falling) that
/// every one is a multiple of, else the smallest. A count rounded to a step q has a uniform error
/// of sd q/√12.
[[nodiscard]] double roundingStep(std::span<const double> numbers, std::span<const double> steps);

/// The steps that a person rounds a number of this unit to, largest first.
[[nodiscard]] std::span<const double> usualSteps(Unit unit);

/// The error of one cast's direction (1 sd) from how its direction was given; the visit's own word
/// on the error of its bearings counts before anything else.
[[nodiscard]] Angle aimSigma(const Visit& visit, const AimBasis& basis);
/// The error that all directions of a visit share (1 sd), at most what the visit itself says.
[[nodiscard]] Angle rotationSigma(const Visit& visit);

/// The error of one count of line, rounding and the reel's own measure apart (1 sd).
[[nodiscard]] Length countSigma(const Reading& reading);

} // namespace bedlore
