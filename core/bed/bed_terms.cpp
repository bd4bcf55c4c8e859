// SPDX-License-Identifier: MIT
#include "core/bed/bed_terms.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

using Index = Eigen::Index;
using Effects = std::vector<std::vector<SharedEffect>>;

// A line that falls steeply says little about the distance; the first-order terms are kept from
// running away there.
constexpr double steepestDrop = 3.0;     // drop / range
constexpr double steepestStretch = 10.0; // line / range

/// Errors of place that belong to one sounding alone [m²].
struct OwnErrors {
    double alongVariance = 0.0;
    double acrossVariance = 0.0;
};

OwnErrors ownErrors(const BedDatum& datum) {
    if (!datum.thrown) {
        const double variance = datum.placeSigma * datum.placeSigma;
        return {.alongVariance = variance, .acrossVariance = variance};
    }
    const ThrowGeometry& t = *datum.thrown;
    const double stretch = std::min(t.line / std::max(t.range, 1e-3), steepestStretch);
    const double sigma = stretch * t.lineSigma;
    return {.alongVariance = sigma * sigma};
}

/// The part of a place's error that sets one cast against another: its aim.
SharedEffect aimEffect(const std::vector<SharedEffect>& effects, const SharedErrors& errors) {
    for (const SharedEffect& effect : effects) {
        if (errors.errors()[static_cast<std::size_t>(effect.error)].kind == SharedErrorKind::Aim) {
            return effect;
        }
    }
    return {.error = -1};
}

void fillDistances(const std::vector<SoundingTerms>& each, BedTerms& terms) {
    const auto n = static_cast<Index>(each.size());
    terms.placeSpread.resize(n);
    LikelihoodTerms& out = terms.likelihood;
    out.distance.resize(n, n);
    out.shortDistance.resize(n, n);
    for (Index j = 0; j < n; ++j) {
        const auto t = static_cast<std::size_t>(j);
        terms.placeSpread[j] = each[t].spread;
        out.distance(j, j) = 0.0;
        out.shortDistance(j, j) = 0.0;
        for (Index i = j + 1; i < n; ++i) {
            const auto s = static_cast<std::size_t>(i);
            const double east = terms.places[s].east - terms.places[t].east;
            const double north = terms.places[s].north - terms.places[t].north;
            const double square = east * east + north * north;
            out.distance(i, j) = std::sqrt(square);
            out.shortDistance(i, j) = std::sqrt(square + spreadBetween(each[s], each[t]));
        }
    }
}

void fillNoise(const std::vector<SoundingTerms>& each, LikelihoodTerms& out) {
    const auto n = static_cast<Index>(each.size());
    out.depthNoise.resize(n);
    out.placeNoise.resize(n);
    for (Index i = 0; i < n; ++i) {
        out.depthNoise[i] = each[static_cast<std::size_t>(i)].depthNoise;
        out.placeNoise[i] = each[static_cast<std::size_t>(i)].placeNoise;
    }
}

std::vector<ErrorColumn>
errorColumns(const Effects& effects, const Slopes& slopes, Index errorCount) {
    std::vector<ErrorColumn> columns(static_cast<std::size_t>(errorCount));
    for (std::size_t i = 0; i < effects.size(); ++i) {
        const auto row = static_cast<Index>(i);
        for (const SharedEffect& effect : effects[i]) {
            ErrorColumn& column = columns[static_cast<std::size_t>(effect.error)];
            column.soundings.push_back(row);
            column.effects.push_back(effectOnLevel(effect, slopes.row(row)));
        }
    }
    return columns;
}

Eigen::MatrixXd sharedCovariance(const std::vector<ErrorColumn>& columns, Index n) {
    Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(n, n);
    for (const ErrorColumn& column : columns) {
        for (std::size_t b = 0; b < column.soundings.size(); ++b) {
            for (std::size_t a = b; a < column.soundings.size(); ++a) {
                sum(column.soundings[a], column.soundings[b]) +=
                    column.effects[a] * column.effects[b];
            }
        }
    }
    return sum;
}

} // namespace

SoundingTerms soundingTerms(
    const BedDatum& datum,
    const std::vector<SharedEffect>& effects,
    const SharedErrors& errors,
    const Eigen::RowVector2d& slope) {
    const OwnErrors alone = ownErrors(datum);
    SoundingTerms terms;
    terms.aim = aimEffect(effects, errors);
    terms.ownSpread = alone.alongVariance + alone.acrossVariance;
    terms.spread =
        terms.ownSpread + terms.aim.east * terms.aim.east + terms.aim.north * terms.aim.north;
    const double variance = datum.noise * datum.noise;
    if (!datum.thrown) {
        terms.depthNoise = variance;
        terms.placeNoise = alone.alongVariance * slope.squaredNorm();
        return terms;
    }
    const ThrowGeometry& t = *datum.thrown;
    const double outward = slope[0] * std::sin(t.direction) + slope[1] * std::cos(t.direction);
    // A depth read too deep also brings the place nearer: both follow from one error.
    const double drop = std::min(t.drop / std::max(t.range, 1e-3), steepestDrop);
    const double both = 1.0 - outward * drop;
    terms.depthNoise = variance * std::max(both * both, 0.25);
    terms.placeNoise = alone.alongVariance * outward * outward;
    return terms;
}

double spreadBetween(const SoundingTerms& a, const SoundingTerms& b) {
    if (a.aim.error < 0 || a.aim.error != b.aim.error) {
        return a.spread + b.spread;
    }
    const double east = a.aim.east - b.aim.east;
    const double north = a.aim.north - b.aim.north;
    return a.ownSpread + b.ownSpread + east * east + north * north;
}

double effectOnLevel(const SharedEffect& effect, const Eigen::RowVector2d& slope) {
    return slope[0] * effect.east + slope[1] * effect.north + effect.level;
}

BedTerms bedTerms(
    std::span<const BedDatum> data,
    const SharedErrors& errors,
    const Linearised& about,
    const KnownDrift& drift,
    const Eigen::VectorXd& levels) {
    const auto n = static_cast<Index>(data.size());
    BedTerms terms;
    terms.places = errors.places(data, about.zeta);
    const Effects effects = errors.effects(data, about.zeta);
    std::vector<SoundingTerms> each;
    each.reserve(data.size());
    for (std::size_t i = 0; i < data.size(); ++i) {
        each.push_back(
            soundingTerms(data[i], effects[i], errors, about.slopes.row(static_cast<Index>(i))));
    }
    fillDistances(each, terms);
    LikelihoodTerms& out = terms.likelihood;
    fillNoise(each, out);
    terms.columns = errorColumns(effects, about.slopes, errors.size());
    out.sharedErrors = sharedCovariance(terms.columns, n);
    out.drift = drift.drift.at(terms.places);
    out.driftPrecision = drift.precision;
    out.values = levels;
    for (std::size_t i = 0; i < effects.size(); ++i) {
        const auto row = static_cast<Index>(i);
        for (const SharedEffect& effect : effects[i]) {
            const double byPlace =
                about.slopes(row, 0) * effect.east + about.slopes(row, 1) * effect.north;
            out.values[row] += byPlace * about.zeta[effect.error];
        }
    }
    return terms;
}

Slopes broadSlopes(
    const CovariancePart& longPart,
    const Drift& drift,
    std::span<const Point> places,
    const Eigen::MatrixXd& distance,
    const Kriging& solved) {
    const auto n = static_cast<Index>(places.size());
    Slopes slopes(n, 2);
    for (Index i = 0; i < n; ++i) {
        slopes.row(i) =
            (drift.gradient(places[static_cast<std::size_t>(i)]).transpose() * solved.beta())
                .transpose();
    }
    const Eigen::VectorXd& alpha = solved.alpha();
    for (Index j = 0; j < n; ++j) {
        const Point b = places[static_cast<std::size_t>(j)];
        for (Index i = j + 1; i < n; ++i) {
            const Point a = places[static_cast<std::size_t>(i)];
            const double s = slopeOverDistance(longPart, distance(i, j));
            const double east = s * (a.east - b.east);
            const double north = s * (a.north - b.north);
            slopes(i, 0) += east * alpha[j];
            slopes(i, 1) += north * alpha[j];
            slopes(j, 0) -= east * alpha[i];
            slopes(j, 1) -= north * alpha[i];
        }
    }
    return slopes;
}

Eigen::VectorXd
mostLikelyErrors(const std::vector<ErrorColumn>& columns, const Eigen::VectorXd& alpha) {
    Eigen::VectorXd zeta = Eigen::VectorXd::Zero(static_cast<Index>(columns.size()));
    for (std::size_t e = 0; e < columns.size(); ++e) {
        for (std::size_t a = 0; a < columns[e].soundings.size(); ++a) {
            zeta[static_cast<Index>(e)] += columns[e].effects[a] * alpha[columns[e].soundings[a]];
        }
    }
    return zeta;
}

} // namespace bedlore
