// SPDX-License-Identifier: MIT
#pragma once

#include "core/geometry/point.hpp"

#include <Eigen/Core>

#include <cstdint>
#include <span>

// The broad lie of the bed (the drift): a level, a slope, a bowl.

namespace bedlore {

enum class DriftKind : std::uint8_t { None, Constant, Linear, Quadratic };

/// Basis functions in z = (place − centre) / scale: 1; z1, z2; (z1², √2 z1 z2, z2²) / 2. With
/// independent priors of one size on each group, turning the plane changes nothing.
///
/// A bowl or a slope that goes on for ever would be kilometres deep somewhere: farther from the
/// centre than `reach` [m], z grows ever more slowly, and never beyond a quarter more than there
/// (and smoothly, so that no edge is seen). Nothing changes within.
class Drift {
public:
    Drift() = default;
    Drift(DriftKind kind, Point centre, double scale, double reach)
        : kind_(kind)
        , centre_(centre)
        , scale_(scale)
        , reach_(reach) {}

    /// Centred on the places, scaled by their root mean square distance from the centre, at least
    /// `leastScale` [m] so that a few close places do not make a steep drift; it reaches as far as
    /// the farthest place, and at least one scale.
    [[nodiscard]] static Drift
    over(std::span<const Point> places, DriftKind kind, double leastScale);

    [[nodiscard]] Eigen::Index size() const;
    [[nodiscard]] DriftKind kind() const { return kind_; }
    [[nodiscard]] double scale() const { return scale_; }

    [[nodiscard]] Eigen::VectorXd at(Point place) const;
    /// One row for each place.
    [[nodiscard]] Eigen::MatrixXd at(std::span<const Point> places) const;
    /// Derivatives by east (column 0) and north (column 1) [1/m], for a place within reach.
    [[nodiscard]] Eigen::MatrixX2d gradient(Point place) const;

private:
    [[nodiscard]] Eigen::Vector2d coordinates(Point place) const;

    DriftKind kind_ = DriftKind::None;
    Point centre_;
    double scale_ = 1.0;
    double reach_ = 1.0;
};

} // namespace bedlore
