// SPDX-License-Identifier: MIT
#include "core/bed/parameter_search.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// No unknown changes by more than a factor of e in one step.
constexpr double longestStep = 1.0;

BedTheta stepped(const BedShape& shape, const BedTheta& from, const Eigen::VectorXd& step) {
    const double longest = step.cwiseAbs().maxCoeff();
    const double shrink = longest > longestStep ? longestStep / longest : 1.0;
    BedTheta to = from;
    for (std::size_t a = 0; a < shape.unknowns.size(); ++a) {
        const BedUnknown unknown = shape.unknowns[a];
        const LogNormalPrior& prior = shape.priors[unknown];
        to[unknown] = std::clamp(
            from[unknown] + shrink * step[static_cast<Index>(a)],
            std::log(prior.least),
            std::log(prior.most));
    }
    return to;
}

} // namespace

Result<SearchOutcome> mostLikely(
    const BedShape& shape,
    std::span<const LikelihoodTerms> parts,
    const BedTheta& start,
    const SearchOptions& options,
    const Progress& progress) {
    SearchOutcome best;
    best.theta = start;
    auto first = likelihood(shape, parts, start, progress);
    if (!first) {
        return fail(first.error());
    }
    best.at = *std::move(first);
    best.evaluations = 1;
    double damping = 1e-3;
    while (best.evaluations < options.evaluations) {
        Eigen::MatrixXd damped = best.at.information;
        const double gain = 0.5 * best.at.gradient.dot(damped.llt().solve(best.at.gradient));
        damped.diagonal() *= 1.0 + damping;
        const Eigen::VectorXd step = -damped.llt().solve(best.at.gradient);
        const BedTheta theta = stepped(shape, best.theta, step);
        if (gain < options.tolerance || theta == best.theta) {
            break;
        }
        auto next = likelihood(shape, parts, theta, progress);
        ++best.evaluations;
        if (!next && next.error().fault == Fault::Cancelled) {
            return fail(next.error());
        }
        if (next && next->objective < best.at.objective) {
            best.theta = theta;
            best.at = *std::move(next);
            damping = std::max(damping * 0.1, 1e-6);
        } else {
            damping = std::max(damping * 10.0, 0.1);
            if (damping > 1e6) {
                break;
            }
        }
    }
    return best;
}

} // namespace bedlore
