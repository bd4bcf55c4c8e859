// SPDX-License-Identifier: MIT
#include "core/bed/covariance.hpp"
#include "core/bed/drift.hpp"
#include "core/bed/kriging.hpp"
#include "core/bed/triangular.hpp"

#include <Eigen/Dense>
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <random>

namespace bedlore {
namespace {

constexpr unsigned seed = 20250412;

std::vector<Point> scattered(std::size_t count) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> metres(0.0, 60.0);
    std::vector<Point> places(count);
    for (Point& p : places) {
        p = {metres(random), metres(random)};
    }
    return places;
}

KrigingSystem systemOver(const std::vector<Point>& places, double noise, double precision) {
    const CovariancePart part{CovarianceFamily::Matern32, 0.6, 15.0};
    const auto n = static_cast<Eigen::Index>(places.size());
    KrigingSystem s;
    s.covariance = noise * Eigen::MatrixXd::Identity(n, n);
    s.values.resize(n);
    for (Eigen::Index i = 0; i < n; ++i) {
        const Point a = places[static_cast<std::size_t>(i)];
        for (Eigen::Index j = 0; j < n; ++j) {
            const Point b = places[static_cast<std::size_t>(j)];
            s.covariance(i, j) +=
                covarianceAt(part, std::hypot(a.east - b.east, a.north - b.north));
        }
        s.values[i] = std::sin(0.1 * a.east) + 0.02 * a.north;
    }
    const Drift drift = Drift::over(places, DriftKind::Quadratic, 1.0);
    s.drift = drift.at(places);
    s.driftPrecision = Eigen::VectorXd::Constant(drift.size(), precision);
    return s;
}

Eigen::MatrixXd randomPositive(Eigen::Index n) {
    std::mt19937 random(seed);
    std::normal_distribution<double> normal;
    Eigen::MatrixXd a(n, n);
    for (double& v : a.reshaped()) {
        v = normal(random);
    }
    return a * a.transpose() + 0.1 * Eigen::MatrixXd::Identity(n, n);
}

TEST(Triangular, FactorTimesItsTransposeIsTheMatrix) {
    for (const Eigen::Index n : {1, 2, 63, 64, 65, 200}) {
        SCOPED_TRACE(n);
        const Eigen::MatrixXd matrix = randomPositive(n);
        Eigen::MatrixXd lower = matrix;
        ASSERT_EQ(factorise(lower), Factoring::Done);
        lower = lower.triangularView<Eigen::Lower>().toDenseMatrix();
        EXPECT_LT((lower * lower.transpose() - matrix).norm(), 1e-12 * matrix.norm());
        const Eigen::MatrixXd inverse = inverseOfLower(lower);
        EXPECT_LT((inverse * lower - Eigen::MatrixXd::Identity(n, n)).norm(), 1e-8);
        Eigen::MatrixXd full = inverseFromRoot(inverse);
        full = full.selfadjointView<Eigen::Lower>().toDenseMatrix().eval();
        EXPECT_LT((full * matrix - Eigen::MatrixXd::Identity(n, n)).norm(), 1e-8);
    }
}

TEST(Triangular, RefusesWhatIsNotPositiveAndNaN) {
    Eigen::MatrixXd negative = -Eigen::MatrixXd::Identity(3, 3);
    EXPECT_EQ(factorise(negative), Factoring::NotPositive);
    Eigen::MatrixXd notANumber = Eigen::MatrixXd::Constant(3, 3, std::nan(""));
    EXPECT_EQ(factorise(notANumber), Factoring::NotPositive);
}

TEST(Triangular, NeverReadsWhatLiesAboveTheDiagonal) {
    const Eigen::MatrixXd matrix = randomPositive(100);
    Eigen::MatrixXd spoilt = matrix;
    spoilt.triangularView<Eigen::StrictlyUpper>().setConstant(std::nan(""));
    Eigen::MatrixXd clean = matrix;
    ASSERT_EQ(factorise(spoilt), Factoring::Done);
    ASSERT_EQ(factorise(clean), Factoring::Done);
    EXPECT_EQ(
        spoilt.triangularView<Eigen::Lower>().toDenseMatrix(),
        clean.triangularView<Eigen::Lower>().toDenseMatrix());
}

TEST(Triangular, StopsWhenAsked) {
    std::stop_source stop;
    stop.request_stop();
    Eigen::MatrixXd matrix = randomPositive(10);
    EXPECT_EQ(factorise(matrix, Progress(stop.get_token())), Factoring::Cancelled);
}

TEST(Kriging, DriftWithAPriorIsTheSameAsItsCovariance) {
    const auto places = scattered(40);
    const KrigingSystem apart = systemOver(places, 0.01, 0.2);
    KrigingSystem within = apart;
    // Source: by hand: F beta with beta ~ N(0, 1/0.2) has covariance F Fᵀ / 0.2.
    within.covariance += apart.drift * apart.drift.transpose() / 0.2;
    within.drift.resize(within.values.size(), 0);
    within.driftPrecision.resize(0);
    const Kriging a = Kriging::solve(apart).value();
    const Kriging b = Kriging::solve(within).value();
    EXPECT_LT((a.alpha() - b.alpha()).norm(), 1e-8 * b.alpha().norm());
    EXPECT_NEAR(a.logLikelihood(), b.logLikelihood(), 1e-8);
    EXPECT_LT((a.dual() - b.dual()).norm(), 1e-8 * b.dual().norm());
}

TEST(Kriging, LikelihoodIsTheDenseGaussianDensity) {
    KrigingSystem s = systemOver(scattered(12), 0.01, 0.2);
    const Eigen::MatrixXd all = s.covariance + s.drift * s.drift.transpose() / 0.2;
    // Source: the density of N(0, all) written out with a determinant and an inverse.
    const double expected = -0.5 * s.values.dot(all.inverse() * s.values) -
                            0.5 * std::log(all.determinant()) -
                            6.0 * std::log(2.0 * std::numbers::pi);
    EXPECT_NEAR(Kriging::solve(s).value().logLikelihood(), expected, 1e-9);
}

TEST(Kriging, RestrictedLikelihoodIsThatOfContrasts) {
    KrigingSystem s = systemOver(scattered(12), 0.01, 0.0);
    // Source: Harville (1974): the likelihood of any full set of contrasts. They are taken here
    // from a QR factorisation of the drift; the restricted form differs by ½ log|FᵀF|.
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(s.drift);
    const Eigen::MatrixXd basis = qr.householderQ();
    const Eigen::MatrixXd A = basis.rightCols(6);
    const Eigen::MatrixXd C = A.transpose() * s.covariance * A;
    const Eigen::VectorXd e = A.transpose() * s.values;
    const double contrasts = -0.5 * e.dot(C.inverse() * e) - 0.5 * std::log(C.determinant()) -
                             3.0 * std::log(2.0 * std::numbers::pi);
    const double constant = 0.5 * std::log((s.drift.transpose() * s.drift).determinant());
    EXPECT_NEAR(Kriging::solve(s).value().logLikelihood(), contrasts - constant, 1e-8);
}

TEST(Kriging, LeavingOneOutIsSolvingWithoutIt) {
    const auto places = scattered(15);
    const KrigingSystem s = systemOver(places, 0.02, 0.0);
    const auto left = Kriging::solve(s).value().leaveOneOut();
    for (Eigen::Index i = 0; i < 15; ++i) {
        SCOPED_TRACE(i);
        std::vector<Eigen::Index> others;
        for (Eigen::Index j = 0; j < 15; ++j) {
            if (j != i) {
                others.push_back(j);
            }
        }
        KrigingSystem without;
        without.covariance = s.covariance(others, others);
        without.drift = s.drift(others, Eigen::all);
        without.driftPrecision = s.driftPrecision;
        without.values = s.values(others);
        const auto direct = Kriging::solve(without).value().estimate(
            s.covariance(others, i), s.drift.row(i).transpose(), s.covariance(i, i));
        EXPECT_NEAR(left[static_cast<std::size_t>(i)].value, direct.value, 1e-9);
        EXPECT_NEAR(left[static_cast<std::size_t>(i)].variance, direct.variance, 1e-9);
    }
}

TEST(Kriging, HonoursItsDataWithoutNoise) {
    const auto places = scattered(30);
    const KrigingSystem s = systemOver(places, 0.0, 0.0);
    const Kriging kriging = Kriging::solve(s).value();
    for (Eigen::Index i = 0; i < 30; ++i) {
        const auto got =
            kriging.estimate(s.covariance.col(i), s.drift.row(i).transpose(), s.covariance(i, i));
        EXPECT_NEAR(got.value, s.values[i], 1e-9);
        EXPECT_NEAR(got.variance, 0.0, 1e-9);
    }
}

TEST(Kriging, SolvesExactDuplicatesWithoutNoiseByALittleJitter) {
    auto places = scattered(5);
    places.push_back(places.front());
    const auto solved = Kriging::solve(systemOver(places, 0.0, 0.2));
    ASSERT_TRUE(solved.has_value());
    EXPECT_TRUE(solved->alpha().allFinite());
}

TEST(Kriging, SaysWhenTheDriftHasMoreTermsThanData) {
    const auto solved = Kriging::solve(systemOver(scattered(3), 0.01, 0.0));
    ASSERT_FALSE(solved.has_value());
    EXPECT_EQ(solved.error().fault, Fault::Input);
}

TEST(Kriging, IsStoppedAtOnce) {
    std::stop_source stop;
    stop.request_stop();
    const auto solved =
        Kriging::solve(systemOver(scattered(10), 0.01, 0.2), Progress(stop.get_token()));
    ASSERT_FALSE(solved.has_value());
    EXPECT_EQ(solved.error().fault, Fault::Cancelled);
}

} // namespace
} // namespace bedlore
