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
/// no less known.
[[nodiscard]] Result<BedFit>
fitBed(std::span<const BedDatum> data, const SharedErrors& errors, const Progress& progress = {});

} // namespace bedlore
