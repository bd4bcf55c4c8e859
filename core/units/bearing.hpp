// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/angle.hpp"

#include <cmath>
#include <numbers>

// Directions, clockwise from one of three norths. Only `geodesy` turns one kind into another.

namespace bedlore {

/// A direction clockwise from the north that `North` names, kept in [0°, 360°).
/// A direction and an angle add; two directions subtract to the angle between them, in [−180°,
/// 180°).
template <class North>
class Direction {
public:
    constexpr Direction() = default;
    explicit Direction(Angle clockwise)
        : angle_(wrapped(clockwise)) {}

    [[nodiscard]] constexpr Angle clockwise() const { return angle_; }
    [[nodiscard]] double degrees() const { return angle_ / degree; }

    friend constexpr auto operator<=>(Direction, Direction) = default;
    friend Direction operator+(Direction d, Angle a) { return Direction(d.angle_ + a); }
    friend Direction operator-(Direction d, Angle a) { return Direction(d.angle_ - a); }
    friend Angle operator-(Direction a, Direction b) {
        const double full = 2.0 * std::numbers::pi;
        const double difference = (a.angle_ - b.angle_).si();
        return Angle::fromSi(difference - full * std::floor(difference / full + 0.5));
    }

private:
    static Angle wrapped(Angle a) {
        const double full = 2.0 * std::numbers::pi;
        const double inside = a.si() - full * std::floor(a.si() / full);
        return Angle::fromSi(inside < full ? inside : 0.0);
    }
    Angle angle_;
};

struct TrueNorth {};
struct MagneticNorth {};
struct PlaneNorth {};

/// Clockwise from true north.
using Bearing = Direction<TrueNorth>;
/// Clockwise from where a compass points.
using MagneticBearing = Direction<MagneticNorth>;
/// Clockwise from the north axis of the water's plane.
using PlaneBearing = Direction<PlaneNorth>;

} // namespace bedlore
