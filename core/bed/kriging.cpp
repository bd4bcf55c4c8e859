// SPDX-License-Identifier: MIT
#include "core/bed/kriging.hpp"

#include "core/base/contract.hpp"
#include "core/bed/triangular.hpp"

#include <Eigen/Cholesky>

#include <cmath>
#include <numbers>
#include <utility>

namespace bedlore {

namespace {

double logDiagonal(const Eigen::MatrixXd& lower) {
    return lower.diagonal().array().log().sum();
}

/// L into `lower`, with a little added to the diagonal where rounding needs it.
Factoring factoriseWithJitter(
    const Eigen::MatrixXd& covariance, Eigen::MatrixXd& lower, const Progress& progress) {
    const auto n = static_cast<double>(covariance.rows());
    double jitter = 1e-8 * covariance.diagonal().sum() / n;
    lower = covariance;
    Factoring outcome = factorise(lower, progress);
    for (int tries = 0; tries < 3 && outcome == Factoring::NotPositive; ++tries) {
        lower = covariance;
        lower.diagonal().array() += jitter;
        outcome = factorise(lower, progress);
        jitter *= 10.0;
    }
    return outcome;
}

Error tooFewPlaces() {
    return inputError(
        "There are too few places with a depth for a bed with a slope.",
        "drift matrix not positive definite");
}

} // namespace

Result<Kriging> Kriging::solve(const KrigingSystem& system, const Progress& progress) {
    const Eigen::Index n = system.values.size();
    BEDLORE_EXPECTS(system.covariance.rows() == n && system.covariance.cols() == n);
    BEDLORE_EXPECTS(system.drift.rows() == n);
    BEDLORE_EXPECTS(system.drift.cols() == system.driftPrecision.size());
    Kriging result;
    switch (factoriseWithJitter(system.covariance, result.lower_, progress)) {
    case Factoring::Done:
        break;
    case Factoring::Cancelled:
        return fail(cancelledError());
    case Factoring::NotPositive:
        return fail(inputError(
            "The depths could not be brought together into a bed.",
            "covariance matrix not positive definite"));
    }
    if (!result.solveDrift(system)) {
        return fail(tooFewPlaces());
    }
    return result;
}

Result<Kriging> Kriging::fromFactor(Eigen::MatrixXd lower, const KrigingSystem& system) {
    const Eigen::Index n = system.values.size();
    BEDLORE_EXPECTS(lower.rows() == n && lower.cols() == n);
    BEDLORE_EXPECTS(system.drift.rows() == n);
    BEDLORE_EXPECTS(system.drift.cols() == system.driftPrecision.size());
    Kriging result;
    result.lower_ = std::move(lower);
    if (!result.solveDrift(system)) {
        return fail(tooFewPlaces());
    }
    return result;
}

bool Kriging::solveDrift(const KrigingSystem& system) {
    const auto triangle = lower_.triangularView<Eigen::Lower>();
    values_ = system.values;
    driftRoot_ = system.drift;
    if (system.drift.cols() > 0) {
        triangle.solveInPlace(driftRoot_);
    }
    Eigen::VectorXd whitened = triangle.solve(values_);
    const Eigen::Index p = system.drift.cols();
    double logB = 0.0;
    if (p > 0) {
        Eigen::MatrixXd B = driftRoot_.transpose() * driftRoot_;
        B.diagonal() += system.driftPrecision;
        const Eigen::LLT<Eigen::MatrixXd> factor(B);
        const Eigen::ArrayXd pivots = factor.matrixLLT().diagonal().array().abs2();
        if (factor.info() != Eigen::Success ||
            pivots.minCoeff() < 1e-13 * B.diagonal().maxCoeff()) {
            return false;
        }
        beta_ = factor.solve(driftRoot_.transpose() * whitened);
        driftCovariance_ = factor.solve(Eigen::MatrixXd::Identity(p, p));
        logB = logDiagonal(factor.matrixLLT());
        for (const double precision : system.driftPrecision) {
            logB -= precision > 0.0 ? 0.5 * std::log(precision) : 0.0;
        }
    } else {
        beta_.resize(0);
        driftCovariance_.resize(0, 0);
    }
    const Eigen::VectorXd residual = whitened - driftRoot_ * beta_;
    alpha_ = lower_.transpose().triangularView<Eigen::Upper>().solve(residual);
    const auto flat = static_cast<double>((system.driftPrecision.array() <= 0.0).count());
    const double degrees = static_cast<double>(values_.size()) - flat;
    logLikelihood_ = -0.5 * values_.dot(alpha_) - logDiagonal(lower_) - logB -
                     0.5 * degrees * std::log(2.0 * std::numbers::pi);
    return true;
}

KrigingEstimate
Kriging::estimate(const Eigen::VectorXd& k, const Eigen::VectorXd& f, double c0) const {
    const Eigen::VectorXd v = lower_.triangularView<Eigen::Lower>().solve(k);
    const Eigen::VectorXd u = f - driftRoot_.transpose() * v;
    return {
        .value = k.dot(alpha_) + f.dot(beta_),
        .variance = c0 - v.squaredNorm() + u.dot(driftCovariance_ * u)};
}

Eigen::MatrixXd Kriging::dual() const {
    const Eigen::MatrixXd inverseLower = inverseOfLower(lower_);
    Eigen::MatrixXd Q = inverseFromRoot(inverseLower);
    if (driftRoot_.cols() > 0) {
        const Eigen::MatrixXd H =
            inverseLower.transpose().triangularView<Eigen::Upper>() * driftRoot_;
        const Eigen::MatrixXd HB = H * driftCovariance_;
        Q.triangularView<Eigen::Lower>() -= HB * H.transpose();
    }
    return Q;
}

std::vector<KrigingEstimate> Kriging::leaveOneOut() const {
    const Eigen::MatrixXd Q = dual();
    std::vector<KrigingEstimate> result(static_cast<std::size_t>(values_.size()));
    for (Eigen::Index i = 0; i < values_.size(); ++i) {
        result[static_cast<std::size_t>(i)] = {
            .value = values_[i] - alpha_[i] / Q(i, i), .variance = 1.0 / Q(i, i)};
    }
    return result;
}

double Kriging::logLikelihood() const {
    return logLikelihood_;
}

} // namespace bedlore
