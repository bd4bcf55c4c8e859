// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/bed_fit.hpp"
#include "core/geometry/point.hpp"

#include <Eigen/Core>

#include <memory>
#include <span>
#include <vector>

// The bed and its error at many places at once.

namespace bedlore {

/// Level, error (1 sd) and distance to the nearest sounding [m], of a block of places.
struct BlockPrediction {
    Eigen::ArrayXd level;
    Eigen::ArrayXd sigma;
    Eigen::ArrayXd nearest;
};

/// Predicts from a fit. `Scalar` is what the covariances and the variance are computed in; levels
/// are always summed in double. Safe to use from several threads.
template <class Scalar>
class Predictor {
public:
    /// Distances to the nearest sounding are taken from `recorded`.
    Predictor(const BedFit& fit, std::span<const Point> recorded);
    ~Predictor();
    Predictor(Predictor&&) noexcept;
    Predictor& operator=(Predictor&&) noexcept;

    [[nodiscard]] BlockPrediction at(std::span<const Point> places) const;

private:
    class Parts;
    std::unique_ptr<const Parts> parts_;
};

extern template class Predictor<float>;
extern template class Predictor<double>;

} // namespace bedlore
