// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/likelihood.hpp"

#include <Eigen/Core>

#include <span>

// The most likely unknowns of a bed.

namespace bedlore {

struct SearchOptions {
    int evaluations = 20;    ///< at most
    double tolerance = 1e-3; ///< stop when a step can gain no more than this in the objective
};

struct SearchOutcome {
    BedTheta theta{};
    Likelihood at; ///< at `theta`
    int evaluations = 0;
};

/// From `start` downhill by damped Newton steps on the average information (Levenberg and
/// Marquardt's way of damping), within the priors' ranges.
[[nodiscard]] Result<SearchOutcome> mostLikely(
    const BedShape& shape,
    std::span<const LikelihoodTerms> parts,
    const BedTheta& start,
    const SearchOptions& options,
    const Progress& progress = {});

} // namespace bedlore
