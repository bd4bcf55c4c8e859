// SPDX-License-Identifier: MIT
#include "core/bed/likelihood.hpp"

#include "core/base/contract.hpp"
#include "core/base/parallel.hpp"

#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Index = Eigen::Index;

/// A part's covariance between all places, and its derivative by log range where asked for.
struct PartMatrices {
    Eigen::MatrixXd covariance;
    Eigen::MatrixXd byLogRange;
};

PartMatrices matricesOf(const CovariancePart& part, const Eigen::MatrixXd& distance, bool slopes) {
    const Index n = distance.rows();
    PartMatrices result;
    result.covariance.resize(n, n);
    if (slopes) {
        result.byLogRange.resize(n, n);
    }
    for (Index j = 0; j < n; ++j) {
        auto column = result.covariance.col(j).tail(n - j).array();
        column = distance.col(j).tail(n - j).array() / part.range;
        if (slopes) {
            auto slope = result.byLogRange.col(j).tail(n - j).array();
            correlateWithSlope(part.family, column, slope);
            slope *= part.variance;
        } else {
            correlate(part.family, column);
        }
        column *= part.variance;
    }
    return result;
}

Eigen::VectorXd
noiseOf(const BedShape& shape, const LikelihoodTerms& terms, const BedTheta& theta) {
    const double factor = std::exp(2.0 * theta[NoiseFactor]);
    return (factor * terms.depthNoise + terms.placeNoise).array() + shape.nuggetVariance(theta);
}

void addLower(Eigen::MatrixXd& sum, const Eigen::MatrixXd& other) {
    const Index n = sum.rows();
    for (Index j = 0; j < n; ++j) {
        sum.col(j).tail(n - j) += other.col(j).tail(n - j);
    }
}

/// Sum of the products of all elements of two symmetric matrices given by lower triangles.
double dotOfSymmetric(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    const Index n = a.rows();
    double below = 0.0;
    for (Index j = 0; j + 1 < n; ++j) {
        below += a.col(j).tail(n - j - 1).dot(b.col(j).tail(n - j - 1));
    }
    return 2.0 * below + a.diagonal().dot(b.diagonal());
}

KrigingSystem systemOf(const LikelihoodTerms& terms, Eigen::MatrixXd covariance) {
    return {
        .covariance = std::move(covariance),
        .drift = terms.drift,
        .driftPrecision = terms.driftPrecision,
        .values = terms.values};
}

/// dKa alpha and tr(Q dKa) for one unknown.
struct Derivative {
    Eigen::VectorXd timesAlpha;
    double trace = 0.0;
};

class Derivatives {
public:
    Derivatives(
        const BedShape& shape,
        const LikelihoodTerms& terms,
        const BedTheta& theta,
        const PartMatrices& longPart,
        const PartMatrices& shortPart,
        const Eigen::MatrixXd& Q,
        const Eigen::VectorXd& alpha)
        : shape_(shape)
        , terms_(terms)
        , theta_(theta)
        , long_(longPart)
        , short_(shortPart)
        , Q_(Q)
        , alpha_(alpha) {}

    [[nodiscard]] Derivative by(BedUnknown unknown) const {
        switch (unknown) {
        case LongSigma:
            return dense(long_.covariance, 2.0);
        case LongRange:
            return dense(long_.byLogRange, 1.0);
        case ShortSigma:
            return dense(short_.covariance, 2.0);
        case ShortRange:
            return dense(short_.byLogRange, 1.0);
        case NuggetSigma:
            return diagonal(
                Eigen::VectorXd::Constant(alpha_.size(), 2.0 * shape_.nuggetVariance(theta_)));
        case NoiseFactor:
            break;
        }
        return diagonal(2.0 * std::exp(2.0 * theta_[NoiseFactor]) * terms_.depthNoise);
    }

private:
    [[nodiscard]] Derivative dense(const Eigen::MatrixXd& dK, double factor) const {
        return {
            .timesAlpha = factor * (dK.selfadjointView<Eigen::Lower>() * alpha_),
            .trace = factor * dotOfSymmetric(Q_, dK)};
    }
    [[nodiscard]] Derivative diagonal(const Eigen::VectorXd& dK) const {
        return {.timesAlpha = dK.cwiseProduct(alpha_), .trace = Q_.diagonal().dot(dK)};
    }

    const BedShape& shape_;
    const LikelihoodTerms& terms_;
    const BedTheta& theta_;
    const PartMatrices& long_;
    const PartMatrices& short_;
    const Eigen::MatrixXd& Q_;
    const Eigen::VectorXd& alpha_;
};

} // namespace

Eigen::MatrixXd
dataCovariance(const BedShape& shape, const LikelihoodTerms& terms, const BedTheta& theta) {
    Eigen::MatrixXd K = matricesOf(shape.longPart(theta), terms.distance, false).covariance;
    if (shape.hasShort) {
        addLower(K, matricesOf(shape.shortPart(theta), terms.shortDistance, false).covariance);
    }
    addLower(K, terms.sharedErrors);
    K.diagonal() += noiseOf(shape, terms, theta);
    return K;
}

Result<Kriging> solveBed(
    const BedShape& shape,
    const LikelihoodTerms& terms,
    const BedTheta& theta,
    const Progress& progress) {
    return Kriging::solve(systemOf(terms, dataCovariance(shape, terms, theta)), progress);
}

double priorPenalty(const BedShape& shape, const BedTheta& theta) {
    double sum = 0.0;
    for (const BedUnknown unknown : shape.unknowns) {
        const LogNormalPrior& prior = shape.priors[unknown];
        const double z = (theta[unknown] - std::log(prior.median)) / prior.spread;
        sum += 0.5 * z * z;
    }
    return sum;
}

namespace {

/// Of the readings alone, without a prior.
Result<Likelihood> likelihoodOf(
    const BedShape& shape,
    const LikelihoodTerms& terms,
    const BedTheta& theta,
    const Progress& progress) {
    const PartMatrices longPart = matricesOf(shape.longPart(theta), terms.distance, true);
    PartMatrices shortPart;
    Eigen::MatrixXd K = longPart.covariance;
    if (shape.hasShort) {
        shortPart = matricesOf(shape.shortPart(theta), terms.shortDistance, true);
        addLower(K, shortPart.covariance);
    }
    addLower(K, terms.sharedErrors);
    K.diagonal() += noiseOf(shape, terms, theta);
    const Result<Kriging> solved = Kriging::solve(systemOf(terms, std::move(K)), progress);
    if (!solved) {
        return fail(solved.error());
    }
    const Eigen::MatrixXd Q = solved->dual();
    const Eigen::VectorXd& alpha = solved->alpha();
    const Derivatives derivatives(shape, terms, theta, longPart, shortPart, Q, alpha);
    const auto count = static_cast<Index>(shape.unknowns.size());
    Likelihood result;
    result.objective = -solved->logLikelihood();
    result.gradient.resize(count);
    Eigen::MatrixXd products(alpha.size(), count);
    for (Index a = 0; a < count; ++a) {
        const Derivative derivative = derivatives.by(shape.unknowns[static_cast<std::size_t>(a)]);
        products.col(a) = derivative.timesAlpha;
        result.gradient[a] = 0.5 * derivative.trace - 0.5 * alpha.dot(derivative.timesAlpha);
    }
    const Eigen::MatrixXd solvedProducts = Q.selfadjointView<Eigen::Lower>() * products;
    result.information = 0.5 * products.transpose() * solvedProducts;
    return result;
}

void addPrior(const BedShape& shape, const BedTheta& theta, Likelihood& sum) {
    sum.objective += priorPenalty(shape, theta);
    for (std::size_t a = 0; a < shape.unknowns.size(); ++a) {
        const auto row = static_cast<Index>(a);
        const BedUnknown unknown = shape.unknowns[a];
        const LogNormalPrior& prior = shape.priors[unknown];
        const double precision = 1.0 / (prior.spread * prior.spread);
        sum.gradient[row] += (theta[unknown] - std::log(prior.median)) * precision;
        sum.information(row, row) += precision;
    }
}

} // namespace

Result<Likelihood> likelihood(
    const BedShape& shape,
    std::span<const LikelihoodTerms> parts,
    const BedTheta& theta,
    const Progress& progress) {
    BEDLORE_EXPECTS(!parts.empty());
    std::vector<std::optional<Result<Likelihood>>> each(parts.size());
    if (parts.size() == 1) {
        each[0].emplace(likelihoodOf(shape, parts[0], theta, progress));
    } else if (!inParallel(parts.size(), usualThreads(), progress, [&](std::size_t i) {
                   each[i].emplace(likelihoodOf(shape, parts[i], theta, {}));
               })) {
        return fail(cancelledError());
    }
    // Summed in their order, whichever was done first.
    std::optional<Likelihood> sum;
    for (const std::optional<Result<Likelihood>>& one : each) {
        if (!*one) {
            return fail(one->error());
        }
        if (!sum) {
            sum = **one;
        } else {
            sum->objective += (*one)->objective;
            sum->gradient += (*one)->gradient;
            sum->information += (*one)->information;
        }
    }
    addPrior(shape, theta, *sum);
    return *std::move(sum);
}

} // namespace bedlore
