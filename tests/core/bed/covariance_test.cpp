// SPDX-License-Identifier: MIT
#include "core/bed/covariance.hpp"

#include <gmock/gmock.h>

#include <cmath>

namespace bedlore {
namespace {

using F = CovarianceFamily;

constexpr F everyFamily[] = {F::Exponential, F::Matern32, F::Matern52, F::Spherical};
constexpr F maternFamilies[] = {F::Exponential, F::Matern32, F::Matern52};

// Source: the general Matérn covariance, Rasmussen & Williams (2006), equation 4.14,
// 2^(1−ν)/Γ(ν) s^ν K_ν(s) with s = √(2ν) h, through the standard library's Bessel function: none
// of the closed forms under test is used.
double maternByBessel(double nu, double h) {
    const double s = std::sqrt(2.0 * nu) * h;
    return std::pow(2.0, 1.0 - nu) / std::tgamma(nu) * std::pow(s, nu) * std::cyl_bessel_k(nu, s);
}

double smoothness(F family) {
    return family == F::Exponential ? 0.5 : family == F::Matern32 ? 1.5 : 2.5;
}

TEST(Covariance, MaternPartsAgreeWithTheBesselForm) {
    for (const F family : maternFamilies) {
        for (const double distance : {0.01, 0.5, 3.0, 12.0, 60.0}) {
            SCOPED_TRACE(distance);
            const double expected = 2.0 * maternByBessel(smoothness(family), distance / 8.0);
            EXPECT_NEAR(covarianceAt({family, 2.0, 8.0}, distance), expected, 1e-12);
        }
    }
}

TEST(Covariance, IsTheVarianceAtDistanceZero) {
    for (const F family : everyFamily) {
        EXPECT_DOUBLE_EQ(covarianceAt({family, 0.7, 5.0}, 0.0), 0.7);
    }
}

TEST(Covariance, SphericalEndsAtItsRange) {
    // Source: by hand, 1 − 1.5/2 + 0.5/8 = 0.3125 at half the range.
    EXPECT_DOUBLE_EQ(covarianceAt({F::Spherical, 1.0, 10.0}, 5.0), 0.3125);
    EXPECT_DOUBLE_EQ(covarianceAt({F::Spherical, 1.0, 10.0}, 10.0), 0.0);
    EXPECT_DOUBLE_EQ(covarianceAt({F::Spherical, 1.0, 10.0}, 1e6), 0.0);
}

TEST(Covariance, SlopeOverDistanceIsTheDerivative) {
    for (const F family : everyFamily) {
        for (const double r : {0.3, 2.0, 4.9}) {
            SCOPED_TRACE(r);
            const CovariancePart part{family, 1.3, 5.0};
            const double step = 1e-5;
            // Source: central difference; error of order step² and rounding/step, below 1e-9.
            const double byDifference =
                (covarianceAt(part, r + step) - covarianceAt(part, r - step)) / (2.0 * step);
            EXPECT_NEAR(slopeOverDistance(part, r) * r, byDifference, 1e-8);
        }
    }
}

TEST(Covariance, SlopeByLogRangeIsTheDerivative) {
    for (const F family : everyFamily) {
        for (const double r : {0.3, 2.0, 4.9}) {
            SCOPED_TRACE(r);
            Eigen::ArrayXd value = Eigen::ArrayXd::Constant(1, r / 5.0);
            Eigen::ArrayXd slope(1);
            correlateWithSlope(family, value, slope);
            EXPECT_DOUBLE_EQ(value[0], covarianceAt({family, 1.0, 5.0}, r));
            const double step = 1e-5;
            const double byDifference = (covarianceAt({family, 1.0, 5.0 * std::exp(step)}, r) -
                                         covarianceAt({family, 1.0, 5.0 * std::exp(-step)}, r)) /
                                        (2.0 * step);
            EXPECT_NEAR(slope[0], byDifference, 1e-8);
        }
    }
}

TEST(Covariance, NarrowNumbersAgreeWithWideOnes) {
    for (const F family : everyFamily) {
        Eigen::ArrayXf narrow = Eigen::ArrayXf::LinSpaced(50, 0.0F, 6.0F);
        Eigen::ArrayXd wide = narrow.cast<double>();
        correlate(family, narrow);
        correlate(family, wide);
        EXPECT_LT((narrow.cast<double>() - wide).abs().maxCoeff(), 1e-6);
    }
}

} // namespace
} // namespace bedlore
