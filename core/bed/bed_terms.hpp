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

/// What one sounding brings to the terms by itself.
struct SoundingTerms {
    double ownSpread = 0.0;  ///< mean square of the error of place that is its own [m²]
    SharedEffect aim;        ///< of its cast; `error` is −1 without one
    double spread = 0.0;     ///< mean square error of its place, the aim's part in [m²]
    double depthNoise = 0.0; ///< [m²] multiplied by the square of the noise factor
    double placeNoise = 0.0; ///< [m²] not multiplied
};
/// `effects` are those of the shared errors on this sounding, `slope` the bed's there (east,
/// north).
[[nodiscard]] SoundingTerms soundingTerms(
    const BedDatum& datum,
    const std::vector<SharedEffect>& effects,
    const SharedErrors& errors,
    const Eigen::RowVector2d& slope);
/// The mean square by which errors of place change the distance of two soundings [m²]: those of one
/// cast move together.
[[nodiscard]] double spreadBetween(const SoundingTerms& a, const SoundingTerms& b);
/// What a shared error does to a sounding's level, by one standard deviation [m].
[[nodiscard]] double effectOnLevel(const SharedEffect& effect, const Eigen::RowVector2d& slope);

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

/// A drift, and what is known of each of its coefficients beforehand, as 1/variance.
struct KnownDrift {
    const Drift& drift;
    const Eigen::VectorXd& precision;
};

/// The terms with every error of place at first order about `about`. `levels` are without their
/// mean. Source of the linear form: a Taylor series of z = f(place(zeta)) + ...; the places carry
/// zeta, so what stays in the covariance is J Jᵀ and the values become level + J zeta.
[[nodiscard]] BedTerms bedTerms(
    std::span<const BedDatum> data,
    const SharedErrors& errors,
    const Linearised& about,
    const KnownDrift& drift,
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
