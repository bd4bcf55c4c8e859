// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>

// How the errors of what was measured pass on to what is computed from it.

namespace bedlore {

/// Covariance of y(x), to first order, from the covariance of x: J Σ Jᵀ with J = ∂y/∂x, a row for
/// each y. Correlations count. Source: JCGM 100:2008, equation 13 (and H.2 for several y at once).
template <class Jacobian, class Covariance>
[[nodiscard]] auto propagated(
    const Eigen::MatrixBase<Jacobian>& jacobian, const Eigen::MatrixBase<Covariance>& covariance) {
    return (jacobian * covariance * jacobian.transpose()).eval();
}

} // namespace bedlore
