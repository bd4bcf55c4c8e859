// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"

#include <Eigen/Core>

#include <vector>

// Best linear prediction from correlated data over a drift (kriging): the one kernel for the bed
// and for the published check values.

namespace bedlore {

/// What is known at n places. `covariance` is of the data: noise on its diagonal, shared errors
/// in; only its lower triangle is read. `drift` is n × p. `driftPrecision` holds what is known
/// beforehand about each coefficient (1/variance, around zero): all zero is ordinary or universal
/// kriging, no column at all is simple kriging of values with a known mean of zero.
struct KrigingSystem {
    Eigen::MatrixXd covariance;
    Eigen::MatrixXd drift;
    Eigen::VectorXd driftPrecision;
    Eigen::VectorXd values;
};

struct KrigingEstimate {
    double value = 0.0;
    double variance = 0.0;
};

/// A solved system. Cost n³/3 once, then n for a value and n² for its variance.
///
/// Symbols: K covariance, F drift, P driftPrecision (a diagonal), y values; K = L Lᵀ; G = L⁻¹F;
/// B = P + GᵀG; beta = B⁻¹FᵀK⁻¹y; alpha = K⁻¹(y − F beta) = Q y with
/// Q = K⁻¹ − K⁻¹F B⁻¹FᵀK⁻¹; k, f of a target; u = f − FᵀK⁻¹k.
///   value = kᵀalpha + fᵀbeta, variance = c0 − |L⁻¹k|² + uᵀB⁻¹u
/// Source: Rasmussen & Williams (2006), algorithm 2.1 and section 2.7; with P = 0 it is universal
/// kriging, Cressie (1993), section 3.4. Omre (1987), Mathematical Geology 19(1), for a drift with
/// a prior.
class Kriging {
public:
    /// A matrix that is not positive definite gets 1e-8 of its mean diagonal added, then ten times
    /// and a hundred times as much, before it fails.
    [[nodiscard]] static Result<Kriging>
    solve(const KrigingSystem& system, const Progress& progress = {});

    /// The same from a lower factor L of the covariance that is there already; cost n².
    /// `system.covariance` is not read, what stands above the diagonal of L neither.
    [[nodiscard]] static Result<Kriging>
    fromFactor(Eigen::MatrixXd lower, const KrigingSystem& system);

    /// At a target with covariance `k` to each of the data (without their noise), drift `f` and
    /// own variance `c0`.
    [[nodiscard]] KrigingEstimate
    estimate(const Eigen::VectorXd& k, const Eigen::VectorXd& f, double c0) const;

    /// What the others say about each datum; the variance is of the datum itself, its noise in.
    /// Exact, the drift estimated anew each time. Cost n³.
    /// Source: Dubrule (1983), Mathematical Geology 15(6).
    [[nodiscard]] std::vector<KrigingEstimate> leaveOneOut() const;

    /// Logarithm of the (restricted) likelihood of the values. Without a prior on the drift it is
    /// the usual restricted likelihood, up to a constant that does not depend on K.
    [[nodiscard]] double logLikelihood() const;

    [[nodiscard]] const Eigen::VectorXd& alpha() const { return alpha_; }
    [[nodiscard]] const Eigen::VectorXd& beta() const { return beta_; }
    [[nodiscard]] const Eigen::MatrixXd& lower() const { return lower_; }
    /// G.
    [[nodiscard]] const Eigen::MatrixXd& driftRoot() const { return driftRoot_; }
    /// B⁻¹.
    [[nodiscard]] const Eigen::MatrixXd& driftCovariance() const { return driftCovariance_; }
    /// Lower triangle of Q; zeros above. Cost 2n³/3.
    [[nodiscard]] Eigen::MatrixXd dual() const;

private:
    Kriging() = default;
    [[nodiscard]] bool solveDrift(const KrigingSystem& system);

    Eigen::MatrixXd lower_;
    Eigen::MatrixXd driftRoot_;
    Eigen::MatrixXd driftCovariance_;
    Eigen::VectorXd alpha_;
    Eigen::VectorXd beta_;
    Eigen::VectorXd values_;
    double logLikelihood_ = 0.0;
};

} // namespace bedlore
