// SPDX-License-Identifier: MIT
#include "core/bed/covariance.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bedlore {

namespace {

template <class Scalar>
inline constexpr Scalar root3 = std::numbers::sqrt3_v<Scalar>;
template <class Scalar>
inline constexpr Scalar root5 = static_cast<Scalar>(2.23606797749978969640917366873128L);

template <class Scalar, class Array>
void correlateInPlace(CovarianceFamily family, Array& h) {
    const Scalar one(1);
    switch (family) {
    case CovarianceFamily::Exponential:
        h = (-h).exp();
        break;
    case CovarianceFamily::Matern32:
        h *= root3<Scalar>;
        h = (one + h) * (-h).exp();
        break;
    case CovarianceFamily::Matern52:
        h *= root5<Scalar>;
        h = (one + h * (one + h / Scalar(3))) * (-h).exp();
        break;
    case CovarianceFamily::Spherical:
        h = h.min(one);
        h = one - h * (Scalar(1.5) - Scalar(0.5) * h * h);
        break;
    }
}

} // namespace

double covarianceAt(const CovariancePart& part, double distance) {
    Eigen::ArrayXd h = Eigen::ArrayXd::Constant(1, distance / part.range);
    correlate(part.family, h);
    return part.variance * h[0];
}

double slopeOverDistance(const CovariancePart& part, double distance) {
    const double smallest = 1e-3 * part.range;
    const double l2 = part.range * part.range;
    switch (part.family) {
    case CovarianceFamily::Matern32: {
        const double a = root3<double> * distance / part.range;
        return -3.0 * part.variance / l2 * std::exp(-a);
    }
    case CovarianceFamily::Matern52: {
        const double a = root5<double> * distance / part.range;
        return -5.0 / 3.0 * part.variance / l2 * (1.0 + a) * std::exp(-a);
    }
    case CovarianceFamily::Exponential: {
        const double r = std::max(distance, smallest);
        return -part.variance / (part.range * r) * std::exp(-r / part.range);
    }
    case CovarianceFamily::Spherical: {
        const double r = std::max(distance, smallest);
        const double h = std::min(r / part.range, 1.0);
        return -1.5 * part.variance * (1.0 - h * h) / (part.range * r);
    }
    }
    return 0.0;
}

void correlate(CovarianceFamily family, Eigen::Ref<Eigen::ArrayXd> h) {
    correlateInPlace<double>(family, h);
}

void correlate(CovarianceFamily family, Eigen::Ref<Eigen::ArrayXf> h) {
    correlateInPlace<float>(family, h);
}

void correlateWithSlope(
    CovarianceFamily family, Eigen::Ref<Eigen::ArrayXd> h, Eigen::Ref<Eigen::ArrayXd> byLogRange) {
    switch (family) {
    case CovarianceFamily::Exponential:
        byLogRange = (-h).exp();
        h *= byLogRange;
        h.swap(byLogRange);
        break;
    case CovarianceFamily::Matern32: {
        h *= root3<double>;
        const Eigen::ArrayXd e = (-h).exp();
        byLogRange = h * h * e;
        h = (1.0 + h) * e;
        break;
    }
    case CovarianceFamily::Matern52: {
        h *= root5<double>;
        const Eigen::ArrayXd e = (-h).exp();
        byLogRange = h * h * (1.0 + h) * (1.0 / 3.0) * e;
        h = (1.0 + h * (1.0 + h / 3.0)) * e;
        break;
    }
    case CovarianceFamily::Spherical:
        h = h.min(1.0);
        byLogRange = 1.5 * h * (1.0 - h * h);
        h = 1.0 - h * (1.5 - 0.5 * h * h);
        break;
    }
}

} // namespace bedlore
