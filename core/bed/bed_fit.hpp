// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/bed_data.hpp"
#include "core/bed/bed_shape.hpp"
#include "core/bed/bed_terms.hpp"
#include "core/bed/drift.hpp"
#include "core/bed/kriging.hpp"
#include "core/bed/likelihood.hpp"
#include "core/bed/shared_errors.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

// A bed fitted to its readings: unknowns, shared errors, and the solved system.

namespace bedlore {

/// Below this many readings several sets of unknowns are averaged.
inline constexpr std::size_t fewReadings = 30;

/// One set of unknowns with its solved system and its share of belief.
struct BedNode {
    double weight = 1.0;
    BedTheta theta{};
    Kriging solved;
};

/// Everything a prediction needs. `places` are the soundings' with the most likely shared errors
/// taken out; `placeSpread` is the mean square of what is still uncertain about each [m²].
/// `meanLevel` has been taken from the values.
struct BedFit {
    BedShape shape;
    Drift drift;
    Eigen::VectorXd driftPrecision;
    double meanLevel = 0.0;
    std::vector<Point> places;
    Eigen::VectorXd placeSpread;
    Linearised about; ///< what `places` and the solved systems were made about
    Eigen::VectorXd zeta;
    BedTheta mode{}; ///< the most likely unknowns
    std::vector<BedNode> nodes;
    int evaluations = 0; ///< of the likelihood
    int passes = 0;      ///< of the shared errors
};

/// Fits `data`, which must not be empty, with its shared errors. The unknowns are learnt from what
/// is left of it without repeats (`withoutRepeats`), so that a page copied once more makes the bed
/// no less known. Unknowns that are `known` already are taken as they are.
[[nodiscard]] Result<BedFit> fitBed(
    std::span<const BedDatum> data,
    const SharedErrors& errors,
    const Progress& progress = {},
    const std::optional<BedTheta>& known = std::nullopt);

/// The drift that fits so many readings, and what is known of its coefficients beforehand.
struct UsualDrift {
    Drift drift;
    Eigen::VectorXd precision; ///< 1/variance of each coefficient
};
/// `places` are those of the readings, `casts` how many casts they are of (a fix is one of its
/// own), `variance` that of their levels [m²].
[[nodiscard]] UsualDrift
usualDrift(std::span<const Point> places, std::size_t casts, double variance);

/// What levels vary by [m²]: a weighted mean of what `sumOfSquares` of `count` levels about their
/// mean says and of what beds usually vary by.
[[nodiscard]] double levelVariance(double sumOfSquares, std::size_t count);

} // namespace bedlore
