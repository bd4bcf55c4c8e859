// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"
#include "core/reduction/sounding.hpp"

// From a line and a direction to a place on the plan, and how sure it is.

namespace bedlore {

/// The place `distance` out from `tip`.
[[nodiscard]] Point placeAt(Point tip, PlaneBearing direction, GroundDistance distance);

/// Puts `reading` (and the near end of a stretch) where its line leads with the lead `drop` below
/// the tip. False, and nothing moved, when the line is too short for it.
bool placeOnLine(PlacedReading& reading, Point tip, PlaneBearing direction, Length drop);

/// What a place is wrong by, 1 sd each, independent of each other.
struct PlaceErrorSources {
    LineOut line;
    Length drop; ///< tip above the water plus depth
    Length lineSigma;
    Length dropSigma;
    Angle directionSigma;
};
struct PlaceErrors {
    Length along;
    Length across;
};
/// First-order errors along and across the cast: R = √(L² − D²), so dR = (L dL − D dD)/R, and R
/// times the direction's error to the side. `line` must be longer than `drop`. Along the cast never
/// more than the line itself.
[[nodiscard]] PlaceErrors placeErrors(const PlaceErrorSources& sources);

} // namespace bedlore
