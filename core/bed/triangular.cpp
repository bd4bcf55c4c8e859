// SPDX-License-Identifier: MIT
#include "core/bed/triangular.hpp"

#include <Eigen/Cholesky>

#include <algorithm>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// Wide enough for the matrix products to dominate, narrow enough to be stopped within a few
// milliseconds.
constexpr Index blockSize = 64;

} // namespace

Factoring factorise(Eigen::MatrixXd& matrix, const Progress& progress) {
    const Index n = matrix.rows();
    for (Index k = 0; k < n; k += blockSize) {
        if (progress.cancelled()) {
            return Factoring::Cancelled;
        }
        const Index size = std::min(blockSize, n - k);
        const Index rest = n - k - size;
        auto diagonal = matrix.block(k, k, size, size);
        const Eigen::LLT<Eigen::MatrixXd> factor(diagonal);
        if (factor.info() != Eigen::Success || !factor.matrixLLT().diagonal().allFinite()) {
            return Factoring::NotPositive;
        }
        diagonal.triangularView<Eigen::Lower>() = factor.matrixLLT();
        if (rest > 0) {
            auto below = matrix.block(k + size, k, rest, size);
            diagonal.triangularView<Eigen::Lower>().transpose().solveInPlace<Eigen::OnTheRight>(
                below);
            matrix.bottomRightCorner(rest, rest)
                .selfadjointView<Eigen::Lower>()
                .rankUpdate(below, -1.0);
        }
    }
    return Factoring::Done;
}

Eigen::MatrixXd inverseOfLower(const Eigen::MatrixXd& lower) {
    const Index n = lower.rows();
    Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(n, n);
    for (Index k = 0; k < n; k += blockSize) {
        const Index size = std::min(blockSize, n - k);
        const auto diagonal = lower.block(k, k, size, size).triangularView<Eigen::Lower>();
        Eigen::MatrixXd own = Eigen::MatrixXd::Identity(size, size);
        diagonal.solveInPlace(own);
        inverse.block(k, k, size, size).triangularView<Eigen::Lower>() = own;
        if (k > 0) {
            Eigen::MatrixXd left = lower.block(k, 0, size, k) *
                                   inverse.topLeftCorner(k, k).triangularView<Eigen::Lower>();
            diagonal.solveInPlace(left);
            inverse.block(k, 0, size, k) = -left;
        }
    }
    return inverse;
}

Eigen::MatrixXd inverseFromRoot(const Eigen::MatrixXd& inverseLower) {
    const Index n = inverseLower.rows();
    Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(n, n);
    for (Index k = 0; k < n; k += blockSize) {
        const Index size = std::min(blockSize, n - k);
        const Index width = k + size;
        inverse.topLeftCorner(width, width)
            .selfadjointView<Eigen::Lower>()
            .rankUpdate(inverseLower.block(k, 0, size, width).transpose(), 1.0);
    }
    return inverse;
}

} // namespace bedlore
