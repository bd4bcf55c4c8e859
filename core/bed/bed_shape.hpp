// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/covariance.hpp"

#include <Eigen/Core>

#include <array>
#include <vector>

// What a bed is taken to be made of, and what is believed about it before any reading.

namespace bedlore {

/// The unknowns of a bed, each kept as its natural logarithm; sigmas and ranges in metres.
enum BedUnknown : std::uint8_t {
    LongSigma,
    LongRange,
    ShortSigma,
    ShortRange,
    NuggetSigma,
    NoiseFactor,
};
inline constexpr std::size_t bedUnknowns = 6;

using BedTheta = std::array<double, bedUnknowns>;

/// A belief about the logarithm of an unknown: median, sd, and the range it is kept in.
struct LogNormalPrior {
    double median = 1.0;
    double spread = 1.0;
    double least = 1e-9;
    double most = 1e9;
};

/// Which parts there are: a broad shape, small relief, relief too fine to tell. What is not in
/// `unknowns` is held at its prior's median; a part that is off has no variance at all.
struct BedShape {
    CovarianceFamily longFamily = CovarianceFamily::Matern52;
    CovarianceFamily shortFamily = CovarianceFamily::Exponential;
    bool hasShort = true;
    bool hasNugget = false;
    std::array<LogNormalPrior, bedUnknowns> priors;
    std::vector<BedUnknown> unknowns;

    [[nodiscard]] BedTheta medians() const;
    [[nodiscard]] CovariancePart longPart(const BedTheta& theta) const;
    /// Without variance where the shape has none.
    [[nodiscard]] CovariancePart shortPart(const BedTheta& theta) const;
    [[nodiscard]] double nuggetVariance(const BedTheta& theta) const;
    /// Of the bed about its drift.
    [[nodiscard]] double processVariance(const BedTheta& theta) const;
};

/// The shape used for every bed, for readings whose levels have the given variance [m²].
/// Medians and spreads: see the notes in the source.
[[nodiscard]] BedShape usualShape(double levelVariance);

} // namespace bedlore
