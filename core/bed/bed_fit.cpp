// SPDX-License-Identifier: MIT
#include "core/bed/bed_fit.hpp"

#include "core/bed/bed_terms.hpp"
#include "core/bed/parameter_search.hpp"
#include "core/bed/repeated_readings.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <set>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// A drift is scaled by no less than this, so that a few close readings do not tilt a whole lake.
constexpr double leastScale = 25.0; // m
// What beds vary by (variance, m²), and how many readings that belief is worth [M].
constexpr double usualVariance = 0.5;
constexpr double usualVarianceWorth = 3.0;
constexpr int mostPasses = 3;
constexpr double settledChange = 0.01;
// Aims are not bent further than this many standard deviations.
constexpr double farthestError = 3.5;
// A set of unknowns in the average counts at most this much more or less than its plain share.
constexpr double weightLimit = 1.5;

DriftKind driftKindFor(std::size_t casts, std::size_t readings) {
    if (casts < 3 || readings < 6) {
        return DriftKind::Constant;
    }
    return readings < 12 ? DriftKind::Linear : DriftKind::Quadratic;
}

/// A fix counts as a cast of its own.
std::size_t castsOf(std::span<const BedDatum> data) {
    std::set<std::size_t> casts;
    std::size_t fixes = 0;
    for (const BedDatum& datum : data) {
        if (datum.thrown) {
            casts.insert(datum.thrown->cast);
        } else {
            ++fixes;
        }
    }
    return casts.size() + fixes;
}

/// How far a drift's coefficients may be from zero. Source: `bed-model`, a start found to do on
/// real lakebeds: three times what the readings vary by for the level, twice for slope and bowl.
Eigen::VectorXd driftPrecision(const Drift& drift, double variance) {
    const double level = std::max(3.0 * std::sqrt(variance), 3.0);
    const double slope = std::max(2.0 * std::sqrt(variance), 1.0);
    Eigen::VectorXd precision = Eigen::VectorXd::Constant(drift.size(), 1.0 / (slope * slope));
    precision[0] = 1.0 / (level * level);
    return precision;
}

class Fitter {
public:
    Fitter(
        std::span<const BedDatum> data,
        const SharedErrors& errors,
        const Progress& progress,
        const std::optional<BedTheta>& known = std::nullopt)
        : data_(data)
        , errors_(errors)
        , progress_(progress)
        , known_(known) {
        takeLevels();
        fit_.meanLevel = levels_.mean();
        levels_.array() -= fit_.meanLevel;
        const double variance = levelVariance(levels_.squaredNorm(), data.size());
        fit_.shape = usualShape(variance);
        fit_.zeta = Eigen::VectorXd::Zero(errors.size());
        const UsualDrift usual =
            usualDrift(errors.places(data, fit_.zeta), castsOf(data), variance);
        fit_.drift = usual.drift;
        fit_.driftPrecision = usual.precision;
    }

    /// What is unknown of the bed is that of `learnt`, from some of `data`.
    Fitter(
        std::span<const BedDatum> data,
        const SharedErrors& errors,
        const BedFit& learnt,
        const Progress& progress)
        : data_(data)
        , errors_(errors)
        , learnt_(&learnt)
        , progress_(progress) {
        takeLevels();
        levels_.array() -= learnt.meanLevel;
        fit_.meanLevel = learnt.meanLevel;
        fit_.shape = learnt.shape;
        fit_.zeta = learnt.zeta;
        fit_.drift = learnt.drift;
        fit_.driftPrecision = learnt.driftPrecision;
    }

    Result<BedFit> run() {
        Linearised about{
            .zeta = fit_.zeta, .slopes = Slopes::Zero(static_cast<Index>(data_.size()), 2)};
        fit_.mode = learnt_ != nullptr ? learnt_->mode : known_.value_or(fit_.shape.medians());
        setTerms(about);
        auto rough = solveBed(fit_.shape, terms_.likelihood, fit_.mode, progress_);
        if (!rough) {
            return fail(rough.error());
        }
        Slopes slopes = slopesUnder(fit_.mode, *rough);
        Likelihood at;
        for (fit_.passes = 1; fit_.passes <= mostPasses; ++fit_.passes) {
            about = {.zeta = fit_.zeta, .slopes = slopes};
            setTerms(about);
            if (learnt_ == nullptr && !known_) {
                auto found = search();
                if (!found) {
                    return fail(found.error());
                }
                at = *std::move(found);
            }
            auto solved = solveBed(fit_.shape, terms_.likelihood, fit_.mode, progress_);
            if (!solved) {
                return fail(solved.error());
            }
            rough = std::move(solved);
            const Slopes before = slopes;
            slopes = slopesUnder(fit_.mode, *rough);
            fit_.zeta = mostLikelyErrors(terms_.columns, rough->alpha())
                            .cwiseMax(-farthestError)
                            .cwiseMin(farthestError);
            progress_.at(static_cast<double>(fit_.passes) / mostPasses);
            if ((slopes - before).norm() <= settledChange * before.norm()) {
                break;
            }
        }
        fit_.about = std::move(about);
        fit_.places = terms_.places;
        fit_.placeSpread = terms_.placeSpread;
        return learnt_ != nullptr ? withLearntNodes() : withNodes(at, *std::move(rough));
    }

private:
    void takeLevels() {
        levels_.resize(static_cast<Index>(data_.size()));
        for (Index i = 0; i < levels_.size(); ++i) {
            levels_[i] = data_[static_cast<std::size_t>(i)].level;
        }
    }
    void setTerms(const Linearised& about) {
        terms_ = bedTerms(data_, errors_, about, {fit_.drift, fit_.driftPrecision}, levels_);
    }
    [[nodiscard]] Slopes slopesUnder(const BedTheta& theta, const Kriging& solved) const {
        return broadSlopes(
            fit_.shape.longPart(theta),
            fit_.drift,
            terms_.places,
            terms_.likelihood.distance,
            solved);
    }

    /// From the mode of before to that under the terms as they are.
    Result<Likelihood> search() {
        auto found = mostLikely(
            fit_.shape,
            {&terms_.likelihood, 1},
            fit_.mode,
            {.evaluations = fit_.passes == 1 ? 20 : 8},
            progress_);
        if (!found) {
            return fail(found.error());
        }
        fit_.evaluations += found->evaluations;
        fit_.mode = found->theta;
        return std::move(found->at);
    }

    Result<BedFit> withLearntNodes() {
        for (const BedNode& node : learnt_->nodes) {
            auto solved = solveBed(fit_.shape, terms_.likelihood, node.theta, progress_);
            if (!solved) {
                return fail(solved.error());
            }
            fit_.nodes.push_back(
                {.weight = node.weight, .theta = node.theta, .solved = *std::move(solved)});
        }
        return std::move(fit_);
    }

    Result<BedFit> withNodes(const Likelihood& at, Kriging solved) {
        if (known_ || data_.size() >= fewReadings) {
            fit_.nodes.push_back({.theta = fit_.mode, .solved = std::move(solved)});
            return std::move(fit_);
        }
        const std::vector<BedTheta> thetas = designAround(fit_.mode, at);
        double sum = 0.0;
        const auto dimension = static_cast<double>(fit_.shape.unknowns.size());
        for (const BedTheta& theta : thetas) {
            auto node = solveBed(fit_.shape, terms_.likelihood, theta, progress_);
            ++fit_.evaluations;
            if (!node && node.error().fault == Fault::Cancelled) {
                return fail(node.error());
            }
            if (!node) {
                continue;
            }
            const double objective = priorPenalty(fit_.shape, theta) - node->logLikelihood();
            const double excess = at.objective + 0.5 * dimension - objective;
            const double weight = std::exp(std::clamp(excess, -weightLimit, weightLimit));
            sum += weight;
            fit_.nodes.push_back({.weight = weight, .theta = theta, .solved = *std::move(node)});
        }
        if (fit_.nodes.empty()) {
            fit_.nodes.push_back({.theta = fit_.mode, .solved = std::move(solved)});
            return std::move(fit_);
        }
        for (BedNode& node : fit_.nodes) {
            node.weight /= sum;
        }
        return std::move(fit_);
    }

    /// Sixteen corners of the box whose mean and covariance are those of the unknowns about the
    /// mode: a half fraction of 2⁵ (the last sign is the product of the others). Every corner is as
    /// likely as the next under the normal approximation, so its weight is what the approximation
    /// gets wrong. Source: Box & Hunter (1961), Technometrics 3(3), for the fraction.
    [[nodiscard]] std::vector<BedTheta>
    designAround(const BedTheta& mode, const Likelihood& at) const {
        const auto count = static_cast<Index>(fit_.shape.unknowns.size());
        const Eigen::LLT<Eigen::MatrixXd> factor(at.information);
        std::vector<BedTheta> thetas;
        for (unsigned corner = 0; corner < 16; ++corner) {
            Eigen::VectorXd signs(count);
            double product = 1.0;
            for (Index a = 0; a < count; ++a) {
                const double sign = (corner >> static_cast<unsigned>(a) & 1U) != 0 ? 1.0 : -1.0;
                signs[a] = a < 4 ? sign : product;
                product *= signs[a];
            }
            const Eigen::VectorXd step = factor.matrixU().solve(signs);
            BedTheta theta = mode;
            for (Index a = 0; a < count; ++a) {
                const BedUnknown unknown = fit_.shape.unknowns[static_cast<std::size_t>(a)];
                const LogNormalPrior& prior = fit_.shape.priors[unknown];
                theta[unknown] = std::clamp(
                    mode[unknown] + step[a], std::log(prior.least), std::log(prior.most));
            }
            thetas.push_back(theta);
        }
        return thetas;
    }

    std::span<const BedDatum> data_;
    const SharedErrors& errors_;
    const BedFit* learnt_ = nullptr;
    const Progress& progress_;
    std::optional<BedTheta> known_;
    Eigen::VectorXd levels_;
    BedTerms terms_;
    BedFit fit_;
};

} // namespace

UsualDrift usualDrift(std::span<const Point> places, std::size_t casts, double variance) {
    const Drift drift = Drift::over(places, driftKindFor(casts, places.size()), leastScale);
    return {.drift = drift, .precision = driftPrecision(drift, variance)};
}

double levelVariance(double sumOfSquares, std::size_t count) {
    return (sumOfSquares + usualVarianceWorth * usualVariance) /
           (static_cast<double>(count) - 1.0 + usualVarianceWorth);
}

Result<BedFit> fitBed(
    std::span<const BedDatum> data,
    const SharedErrors& errors,
    const Progress& progress,
    const std::optional<BedTheta>& known) {
    const std::vector<BedDatum> telling = withoutRepeats(data);
    auto fit = Fitter(telling, errors, progress, known).run();
    if (!fit || telling.size() == data.size()) {
        return fit;
    }
    return Fitter(data, errors, *fit, progress).run();
}

} // namespace bedlore
