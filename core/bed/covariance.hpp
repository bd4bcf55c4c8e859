// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>

#include <cstdint>

// How alike the bed is at two places, by their distance (covariance functions).

namespace bedlore {

/// The shape of a covariance over distance, roughest first. The Matérn ones (`Exponential` is the
/// one of smoothness 1/2) are valid in any number of dimensions, `Spherical` in up to three.
enum class CovarianceFamily : std::uint8_t { Exponential, Matern32, Matern52, Spherical };

/// One part of a covariance: `variance` [m²] times a correlation of distance / `range` [m].
///
/// Symbols: h = distance / range; a = h √3 or h √5.
///   Exponential e^−h · Matern32 (1 + a) e^−a · Matern52 (1 + a + a²/3) e^−a
///   Spherical 1 − 3h/2 + h³/2 below h = 1, else 0
/// Source: Rasmussen & Williams (2006), Gaussian Processes for Machine Learning, equations 4.14 to
/// 4.17; for the spherical one Isaaks & Srivastava (1989), chapter 16.
struct CovariancePart {
    CovarianceFamily family = CovarianceFamily::Matern32;
    double variance = 1.0;
    double range = 1.0;
};

/// Covariance of the part at `distance` [m].
[[nodiscard]] double covarianceAt(const CovariancePart& part, double distance);

/// (dC/dr)/r at `distance` [m]: times the difference of two places it is the gradient of the
/// covariance. Finite at distance zero for the smooth families; the others have no slope there and
/// give the one at a thousandth of the range.
[[nodiscard]] double slopeOverDistance(const CovariancePart& part, double distance);

/// Turns scaled distances h into correlations in place. The narrow version serves large grids.
void correlate(CovarianceFamily family, Eigen::Ref<Eigen::ArrayXd> h);
void correlate(CovarianceFamily family, Eigen::Ref<Eigen::ArrayXf> h);

/// The same, with the derivative by the logarithm of the range into `byLogRange` (same size).
void correlateWithSlope(
    CovarianceFamily family, Eigen::Ref<Eigen::ArrayXd> h, Eigen::Ref<Eigen::ArrayXd> byLogRange);

} // namespace bedlore
