// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"

#include <Eigen/Core>

#include <cstdint>

// Cholesky factors in blocks: stoppable, and the same to the byte however often they are made.

namespace bedlore {

enum class Factoring : std::uint8_t { Done, NotPositive, Cancelled };

/// Replaces the lower triangle of a symmetric matrix by its Cholesky factor L; what lies above the
/// diagonal is neither read nor written. On failure the matrix is spoilt. Cost n³/3.
[[nodiscard]] Factoring factorise(Eigen::MatrixXd& matrix, const Progress& progress = {});

/// L⁻¹ of a lower triangular L, zeros above. Cost n³/3. Not stoppable by itself: at most half a
/// second for n = 1500.
[[nodiscard]] Eigen::MatrixXd inverseOfLower(const Eigen::MatrixXd& lower);

/// The lower triangle of (L Lᵀ)⁻¹ from L⁻¹; above the diagonal zeros. Cost n³/3.
[[nodiscard]] Eigen::MatrixXd inverseFromRoot(const Eigen::MatrixXd& inverseLower);

} // namespace bedlore
