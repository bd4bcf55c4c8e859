// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/bed_data.hpp"
#include "core/bed/drift.hpp"
#include "core/bed/likelihood.hpp"
#include "core/bed/shared_errors.hpp"

#include <Eigen/Core>

#include <span>
#include <vector>

// From readings and the bed's slope at each to the matrices of the likelihood.

namespace bedlore {

/// The bed's expected slope at each sounding (east in column 0, north in column 1).
using Slopes = Eigen::MatrixX2d;

/// The state about which errors of place are made linear: the shared errors' most likely values and
/// the slopes there.
struct Linearised {
    Eigen::VectorXd zeta;
    Slopes slopes;
};

/// J: the effect of each shared error on each sounding's level, by one standard deviation. Sparse:
/// for each error the soundings it touches.
struct ErrorColumn {
    std::vector<Eigen::Index> soundings;
    std::vector<double> effects;
};

struct BedTerms {
    LikelihoodTerms likelihood;
    std::vector<Point> places;
    Eigen::VectorXd placeSpread; ///< mean square error of each place, its shared part in [m²]
    std::vector<ErrorColumn> columns;
};

/// The terms with every error of place at first order about `about`. `levels` are without their
/// mean. Source of the linear form: a Taylor series of z = f(place(zeta)) + ...; the places carry
/// zeta, so what stays in the covariance is J Jᵀ and the values become level + J zeta.
[[nodiscard]] BedTerms bedTerms(
    std::span<const BedDatum> data,
    const SharedErrors& errors,
    const Linearised& about,
    const Drift& drift,
    const Eigen::VectorXd& driftPrecision,
    const Eigen::VectorXd& levels);

/// Slopes of the broad shape and the drift at the places, given a solved system.
[[nodiscard]] Slopes broadSlopes(
    const CovariancePart& longPart,
    const Drift& drift,
    std::span<const Point> places,
    const Eigen::MatrixXd& distance,
    const Kriging& solved);

/// Jᵀ alpha: the most likely shared errors under a solved system.
[[nodiscard]] Eigen::VectorXd
mostLikelyErrors(const std::vector<ErrorColumn>& columns, const Eigen::VectorXd& alpha);

} // namespace bedlore
