// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/bed_shape.hpp"
#include "core/bed/kriging.hpp"

#include <Eigen/Core>

#include <span>

// How well the unknowns of a bed explain its readings.

namespace bedlore {

/// Everything about the readings that does not depend on the unknowns. Matrices are n × n, lower
/// triangles only.
struct LikelihoodTerms {
    Eigen::MatrixXd distance;      ///< [m] between the places
    Eigen::MatrixXd shortDistance; ///< the same for the small relief, uncertain places in
    Eigen::MatrixXd sharedErrors;  ///< J Jᵀ [m²]
    Eigen::VectorXd depthNoise;    ///< [m²] multiplied by the square of the noise factor
    Eigen::VectorXd placeNoise;    ///< [m²] not multiplied
    Eigen::MatrixXd drift;
    Eigen::VectorXd driftPrecision;
    Eigen::VectorXd values;
};

/// Minus the logarithm of restricted likelihood times prior, with derivatives by the logarithms of
/// `BedShape::unknowns`, in their order.
struct Likelihood {
    double objective = 0.0;
    Eigen::VectorXd gradient;
    /// The average of observed and expected information, prior in: positive definite, and cheap.
    /// Source: Gilmour, Thompson & Cullis (1995), Biometrics 51.
    Eigen::MatrixXd information;
};

/// Data covariance of the terms under `theta`; lower triangle.
[[nodiscard]] Eigen::MatrixXd
dataCovariance(const BedShape& shape, const LikelihoodTerms& terms, const BedTheta& theta);

/// The kernel set up and solved for `theta`.
[[nodiscard]] Result<Kriging> solveBed(
    const BedShape& shape,
    const LikelihoodTerms& terms,
    const BedTheta& theta,
    const Progress& progress = {});

/// Minus the logarithm of the prior, up to a constant.
[[nodiscard]] double priorPenalty(const BedShape& shape, const BedTheta& theta);

/// For parts of the readings taken as if independent of each other (a composite likelihood), one or
/// many; the prior counts once. Cost n³ and a few n² for each part, parts side by side on several
/// threads.
/// Source of the composite: Varin, Reid & Firth (2011), Statistica Sinica 21.
///
/// Symbols: K data covariance, Q and alpha as in `Kriging`; dKa = dK/dtheta_a.
///   gradient_a = ½ tr(Q dKa) − ½ alphaᵀ dKa alpha, information_ab = ½ (dKa alpha)ᵀ Q (dKb alpha)
[[nodiscard]] Result<Likelihood> likelihood(
    const BedShape& shape,
    std::span<const LikelihoodTerms> parts,
    const BedTheta& theta,
    const Progress& progress = {});

} // namespace bedlore
