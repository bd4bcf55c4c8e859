// SPDX-License-Identifier: MIT
#include "core/bed/live_bed.hpp"

#include "core/base/parallel.hpp"
#include "core/bed/triangular.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// More changes than this at once are a page pasted or a visit changed: a fit is as quick.
constexpr std::size_t mostChanges = 12;

std::vector<Point> nodesOf(const GridFrame& frame) {
    std::vector<Point> nodes;
    nodes.reserve(frame.size());
    for (int row = 0; row < frame.rows; ++row) {
        for (int column = 0; column < frame.columns; ++column) {
            nodes.push_back(frame.centre(row, column));
        }
    }
    return nodes;
}

} // namespace

LiveBed::LiveBed(BedSurface surface, const GridFrame& frame, int threads)
    : from_(std::move(surface))
    , frame_(frame)
    , threads_(threads) {
    const BedFit& fit = *from_.fitted();
    longPart_ = fit.shape.longPart(fit.nodes.front().theta);
    shortPart_ = fit.shape.shortPart(fit.nodes.front().theta);
    const std::vector<Point> nodes = nodesOf(frame);
    nodeEast_.resize(static_cast<Index>(nodes.size()));
    nodeNorth_.resize(nodeEast_.size());
    for (Index i = 0; i < nodeEast_.size(); ++i) {
        nodeEast_[i] = static_cast<float>(nodes[static_cast<std::size_t>(i)].east - frame.west);
        nodeNorth_[i] = static_cast<float>(nodes[static_cast<std::size_t>(i)].north - frame.north);
    }
    nodeDrift_ = fit.drift.at(nodes);
}

std::optional<LiveBed> LiveBed::over(
    const BedSurface& surface,
    const Reduction& reduction,
    const GridFrame& frame,
    const BedOptions& options) {
    const BedFit* fit = surface.fitted();
    const bool usable = fit != nullptr && fit->nodes.size() == 1 && frame.size() > 0 &&
                        surface.data().size() == surface.soundingCount();
    if (!usable) {
        return std::nullopt;
    }
    LiveBed bed(surface, frame, options.threads > 0 ? options.threads : usualThreads());
    return bed.build(reduction) ? std::optional(std::move(bed)) : std::nullopt;
}

std::vector<LiveBed::Identity>
LiveBed::identitiesOf(const Reduction& reduction, const std::vector<BedDatum>& data) {
    std::vector<Identity> identities;
    identities.reserve(data.size());
    for (const BedDatum& datum : data) {
        const bool thrown = datum.thrown.has_value();
        identities.emplace_back(
            thrown ? reduction.casts.at(datum.thrown->cast).cast.value : 0,
            datum.recorded.east,
            datum.recorded.north,
            datum.level,
            datum.noise,
            thrown ? datum.thrown->line : datum.placeSigma,
            thrown ? datum.thrown->lineSigma : 0.0,
            thrown ? datum.thrown->drop : 0.0);
    }
    return identities;
}

LiveBed::ErrorKey LiveBed::keyOf(const Reduction& reduction, const SharedError& error) const {
    switch (error.kind) {
    case SharedErrorKind::Aim:
        return {error.kind, reduction.casts.at(error.index).cast.value};
    case SharedErrorKind::Rotation:
    case SharedErrorKind::RangeScale:
    case SharedErrorKind::RangeOffset:
    case SharedErrorKind::Level:
        return {error.kind, reduction.visits.at(error.index).visit.value};
    case SharedErrorKind::SwimEast:
    case SharedErrorKind::SwimNorth:
        break;
    }
    return {error.kind, reduction.swims.at(error.index).swim.value};
}

bool LiveBed::build(const Reduction& reduction) {
    const BedFit& fit = *from_.fitted();
    const std::vector<BedDatum> data(from_.data().begin(), from_.data().end());
    const std::vector<Identity> identities = identitiesOf(reduction, data);
    const SharedErrors errors(reduction, data);
    for (Index e = 0; e < errors.size(); ++e) {
        const SharedError& error = errors.errors()[static_cast<std::size_t>(e)];
        const ErrorKey key = keyOf(reduction, error);
        sigmas_[key] = error.sigma;
        zetas_[key] = fit.about.zeta[e];
    }
    for (std::size_t i = 0; i < data.size(); ++i) {
        entries_.push_back(
            {.identity = identities[i],
             .datum = data[i],
             .place = fit.places[i],
             .slope = fit.about.slopes.row(static_cast<Index>(i))});
    }
    const Terms terms = termsUnder(reduction);
    const auto n = static_cast<Index>(entries_.size());
    Eigen::VectorXd levels(n);
    for (Index i = 0; i < n; ++i) {
        levels[i] = data[static_cast<std::size_t>(i)].level - fit.meanLevel;
    }
    const BedTheta& theta = fit.nodes.front().theta;
    const LikelihoodTerms likelihood =
        bedTerms(data, errors, fit.about, {fit.drift, fit.driftPrecision}, levels).likelihood;
    Eigen::MatrixXd lower = dataCovariance(fit.shape, likelihood, theta);
    Eigen::MatrixXd values(n, 1 + fit.drift.size());
    values << likelihood.values, likelihood.drift;
    if (factorise(lower) != Factoring::Done) {
        return false;
    }
    const Eigen::VectorXd prior =
        Eigen::VectorXd::Constant(nodeEast_.size(), fit.shape.processVariance(theta));
    grid_ = LiveGrid(
        prior,
        std::move(lower),
        values,
        [&](Index datum, Index begin, const Eigen::Ref<Eigen::VectorXf>& out) {
            const auto i = static_cast<std::size_t>(datum);
            fillToNodes(terms.each[i], entries_[i].place, begin, out);
        },
        threads_);
    measureNearest();
    at_ = reduction;
    return true;
}

LiveBed::Terms LiveBed::termsUnder(const Reduction& reduction) const {
    std::vector<BedDatum> data;
    data.reserve(entries_.size());
    for (const Entry& entry : entries_) {
        data.push_back(entry.datum);
    }
    Terms terms;
    terms.errors = SharedErrors(reduction, data);
    terms.zeta = Eigen::VectorXd::Zero(terms.errors.size());
    for (Index e = 0; e < terms.zeta.size(); ++e) {
        const auto known =
            zetas_.find(keyOf(reduction, terms.errors.errors()[static_cast<std::size_t>(e)]));
        terms.zeta[e] = known != zetas_.end() ? known->second : 0.0;
    }
    terms.places = terms.errors.places(data, terms.zeta);
    terms.effects = terms.errors.effects(data, terms.zeta);
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        terms.each.push_back(
            soundingTerms(data[i], terms.effects[i], terms.errors, entries_[i].slope));
    }
    return terms;
}

double LiveBed::between(const Terms& terms, std::size_t a, std::size_t b) const {
    const Entry& first = entries_[a];
    const Entry& second = entries_[b];
    const double east = first.place.east - second.place.east;
    const double north = first.place.north - second.place.north;
    const double square = east * east + north * north;
    const double spread = spreadBetween(terms.each[a], terms.each[b]);
    double sum = covarianceAt(longPart_, std::sqrt(square));
    if (shortPart_.variance > 0.0) {
        sum += covarianceAt(shortPart_, std::sqrt(square + spread));
    }
    for (const SharedEffect& one : terms.effects[a]) {
        for (const SharedEffect& other : terms.effects[b]) {
            if (one.error == other.error) {
                sum += effectOnLevel(one, first.slope) * effectOnLevel(other, second.slope);
            }
        }
    }
    return sum;
}

double LiveBed::ownVariance(const Terms& terms, std::size_t entry) const {
    const BedFit& fit = *from_.fitted();
    const BedTheta& theta = fit.nodes.front().theta;
    const SoundingTerms& own = terms.each[entry];
    double sum = fit.shape.processVariance(theta) +
                 std::exp(2.0 * theta[NoiseFactor]) * own.depthNoise + own.placeNoise;
    for (const SharedEffect& effect : terms.effects[entry]) {
        const double onLevel = effectOnLevel(effect, entries_[entry].slope);
        sum += onLevel * onLevel;
    }
    return sum;
}

/// The level about the mean, the shared errors' most likely part taken out; then the drift's basis.
Eigen::RowVectorXd LiveBed::valuesOf(const Terms& terms, std::size_t entry) const {
    const Entry& at = entries_[entry];
    const BedFit& fit = *from_.fitted();
    double value = at.datum.level - fit.meanLevel;
    for (const SharedEffect& effect : terms.effects[entry]) {
        const double byPlace = at.slope[0] * effect.east + at.slope[1] * effect.north;
        value += byPlace * terms.zeta[effect.error];
    }
    Eigen::RowVectorXd values(1 + fit.drift.size());
    values << value, fit.drift.at(at.place).transpose();
    return values;
}

void LiveBed::fillToNodes(
    const SoundingTerms& terms, Point place, Index begin, Eigen::Ref<Eigen::VectorXf> out) const {
    const Index count = out.size();
    const auto east = static_cast<float>(place.east - frame_.west);
    const auto north = static_cast<float>(place.north - frame_.north);
    const Eigen::ArrayXf square = (nodeEast_.segment(begin, count).array() - east).square() +
                                  (nodeNorth_.segment(begin, count).array() - north).square();
    Eigen::ArrayXf h = square.sqrt() * static_cast<float>(1.0 / longPart_.range);
    correlate(longPart_.family, h);
    out = h * static_cast<float>(longPart_.variance);
    if (shortPart_.variance > 0.0) {
        h = (square + static_cast<float>(terms.spread)).sqrt() *
            static_cast<float>(1.0 / shortPart_.range);
        correlate(shortPart_.family, h);
        out.array() += h * static_cast<float>(shortPart_.variance);
    }
}

Eigen::RowVector2d LiveBed::slopeAt(Point place) const {
    const BedFit& fit = *from_.fitted();
    const Kriging& solved = fit.nodes.front().solved;
    Eigen::RowVector2d slope = (fit.drift.gradient(place).transpose() * solved.beta()).transpose();
    for (std::size_t j = 0; j < fit.places.size(); ++j) {
        const double east = place.east - fit.places[j].east;
        const double north = place.north - fit.places[j].north;
        const double s = slopeOverDistance(longPart_, std::hypot(east, north)) *
                         solved.alpha()[static_cast<Index>(j)];
        slope += s * Eigen::RowVector2d(east, north);
    }
    return slope;
}

bool LiveBed::holds(Point place) const {
    // Its near surroundings show at once; what it tells of the bed beyond the frame, if anything,
    // shows with the fit behind.
    const double reach = std::min(from_.reach(), 5.0);
    return place.east - reach >= frame_.west && place.north + reach <= frame_.north &&
           place.east + reach <= frame_.west + frame_.columns * frame_.cell &&
           place.north - reach >= frame_.north - frame_.rows * frame_.cell;
}

bool LiveBed::sameErrors(const Reduction& next, const SharedErrors& errors) const {
    return std::all_of(
        errors.errors().begin(), errors.errors().end(), [&](const SharedError& error) {
            const auto known = sigmas_.find(keyOf(next, error));
            return known == sigmas_.end() || known->second == error.sigma;
        });
}

bool LiveBed::addEntry(const Terms& terms, std::size_t entry) {
    LiveDatum datum;
    datum.toData.resize(static_cast<Index>(entry));
    for (std::size_t j = 0; j < entry; ++j) {
        datum.toData[static_cast<Index>(j)] = between(terms, entry, j);
    }
    datum.own = ownVariance(terms, entry);
    datum.values = valuesOf(terms, entry);
    datum.toNodes.resize(nodeEast_.size());
    fillToNodes(terms.each[entry], entries_[entry].place, 0, datum.toNodes);
    if (!grid_.add(datum)) {
        return false;
    }
    nearest_.add(fromCorner(entries_[entry].datum.recorded));
    return true;
}

bool LiveBed::follow(const Reduction& next) {
    const BedData data = bedData(next);
    const std::vector<Identity> identities = identitiesOf(next, data.soundings);
    std::multimap<Identity, std::size_t> wanted;
    for (std::size_t i = 0; i < identities.size(); ++i) {
        wanted.emplace(identities[i], i);
    }
    std::vector<std::size_t> gone;
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        const auto found = wanted.find(entries_[i].identity);
        if (found == wanted.end()) {
            gone.push_back(i);
            continue;
        }
        entries_[i].datum = data.soundings[found->second]; // its cast may be counted anew
        wanted.erase(found);
    }
    if (gone.size() + wanted.size() > mostChanges || identities.size() < fewReadings ||
        !sameErrors(next, SharedErrors(next, data.soundings))) {
        return false;
    }
    // The last first, so that the others keep their numbers.
    std::reverse(gone.begin(), gone.end());
    for (const std::size_t i : gone) {
        removeEntry(i);
    }
    const std::size_t kept = entries_.size();
    for (const auto& [identity, i] : wanted) {
        if (!holds(data.soundings[i].recorded)) {
            return false;
        }
        entries_.push_back(
            {.identity = identity, .datum = data.soundings[i], .place = {}, .slope = {}});
        entries_.back().slope.setZero();
    }
    const std::vector<Point> places = termsUnder(next).places;
    for (std::size_t i = kept; i < entries_.size(); ++i) {
        entries_[i].place = places[i];
        entries_[i].slope = slopeAt(places[i]);
    }
    const Terms terms = termsUnder(next);
    for (std::size_t i = kept; i < entries_.size(); ++i) {
        if (!addEntry(terms, i)) {
            return false;
        }
    }
    for (const SharedError& error : terms.errors.errors()) {
        sigmas_.emplace(keyOf(next, error), error.sigma);
    }
    at_ = next;
    return true;
}

NearestSquares::Place LiveBed::fromCorner(Point place) const {
    return {
        static_cast<float>(place.east - frame_.west),
        static_cast<float>(place.north - frame_.north)};
}

void LiveBed::measureNearest() {
    nearest_ = NearestSquares(nodeEast_.array(), nodeNorth_.array());
    for (const Entry& entry : entries_) {
        nearest_.add(fromCorner(entry.datum.recorded));
    }
}

void LiveBed::removeEntry(std::size_t entry) {
    grid_.remove(static_cast<Index>(entry));
    const Point recorded = entries_[entry].datum.recorded;
    entries_.erase(entries_.begin() + static_cast<std::ptrdiff_t>(entry));
    std::vector<NearestSquares::Place> others;
    others.reserve(entries_.size());
    for (const Entry& other : entries_) {
        others.push_back(fromCorner(other.datum.recorded));
    }
    nearest_.remove(fromCorner(recorded), others);
}

BedGrid LiveBed::grid() const {
    BedGrid grid{
        .level = {frame_, 0.0F}, .sigma = {frame_, 0.0F}, .known = {frame_, std::uint8_t{0}}};
    // As in `Kriging`: G = L⁻¹F, B = P + GᵀG, beta = B⁻¹Gᵀ(L⁻¹y), u = f − GᵀW.
    const BedFit& fit = *from_.fitted();
    const Index p = fit.drift.size();
    const Eigen::MatrixXd G = grid_.whitened().rightCols(p);
    Eigen::MatrixXd B = G.transpose() * G;
    B.diagonal() += fit.driftPrecision;
    const Eigen::LLT<Eigen::MatrixXd> factor(B);
    const Eigen::VectorXd beta = factor.solve(G.transpose() * grid_.whitened().col(0));
    // The factor's inverse, p × p and lower triangular: for thousands of nodes products are far
    // quicker than solving.
    const Eigen::MatrixXd inverse = factor.matrixL().solve(Eigen::MatrixXd::Identity(p, p));
    constexpr Index block = 2048;
    const Index nodes = nodeEast_.size();
    const auto blocks = static_cast<std::size_t>((nodes + block - 1) / block);
    static_cast<void>(inParallel(blocks, threads_, {}, [&](std::size_t number) {
        const Index begin = static_cast<Index>(number) * block;
        const Index count = std::min(block, nodes - begin);
        const Eigen::MatrixXd u = nodeDrift_.middleRows(begin, count) -
                                  grid_.means().middleRows(begin, count).rightCols(p);
        const Eigen::VectorXd level = grid_.means().col(0).segment(begin, count) + u * beta;
        Eigen::ArrayXd variance = grid_.variance().segment(begin, count);
        for (Index j = 0; j < p; ++j) {
            Eigen::ArrayXd drifting = inverse(j, 0) * u.col(0).array();
            for (Index k = 1; k <= j; ++k) {
                drifting += inverse(j, k) * u.col(k).array();
            }
            variance += drifting.square();
        }
        for (Index i = 0; i < count; ++i) {
            const auto s = static_cast<std::size_t>(begin + i);
            const double sigma = std::sqrt(std::max(variance[i], 0.0));
            grid.level.values[s] = static_cast<float>(level[i] + fit.meanLevel);
            grid.sigma.values[s] = static_cast<float>(sigma);
            const double nearest = std::sqrt(static_cast<double>(nearest_[begin + i]));
            grid.known.values[s] = from_.isKnown(sigma, nearest) ? 1 : 0;
        }
    }));
    return grid;
}

Result<BedSurface> LiveBed::surface() const {
    const BedFit& frozen = *from_.fitted();
    const Terms terms = termsUnder(*at_);
    const auto n = static_cast<Index>(entries_.size());
    std::vector<BedDatum> data;
    data.reserve(entries_.size());
    Slopes slopes(n, 2);
    BedFit fit{
        .shape = frozen.shape,
        .drift = frozen.drift,
        .driftPrecision = frozen.driftPrecision,
        .meanLevel = frozen.meanLevel,
        .placeSpread = Eigen::VectorXd(n),
        .zeta = terms.zeta};
    KrigingSystem system{
        .covariance = {},
        .drift = Eigen::MatrixXd(n, frozen.drift.size()),
        .driftPrecision = frozen.driftPrecision,
        .values = Eigen::VectorXd(n)};
    for (std::size_t i = 0; i < entries_.size(); ++i) {
        const auto row = static_cast<Index>(i);
        const Entry& entry = entries_[i];
        const Eigen::RowVectorXd values = valuesOf(terms, i);
        system.values[row] = values[0];
        system.drift.row(row) = values.tail(frozen.drift.size());
        data.push_back(entry.datum);
        slopes.row(row) = entry.slope;
        fit.places.push_back(entry.place);
        fit.placeSpread[row] = terms.each[i].spread;
    }
    fit.about = {.zeta = terms.zeta, .slopes = slopes};
    auto solved = Kriging::fromFactor(grid_.lower(), system);
    if (!solved) {
        return fail(solved.error());
    }
    fit.nodes.push_back({.theta = frozen.nodes.front().theta, .solved = *std::move(solved)});
    return BedSurface::made(*at_, std::move(fit), std::move(data), {.threads = threads_});
}

} // namespace bedlore
