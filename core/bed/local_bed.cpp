// SPDX-License-Identifier: MIT
#include "core/bed/local_bed.hpp"

#include "core/base/contract.hpp"
#include "core/base/parallel.hpp"
#include "core/bed/kriging.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>
#include <utility>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// More than these are gathered, so that a million soundings are a matter of seconds.
constexpr std::size_t mostItemsAtAll = 200'000;
// The drift is found from no more than these.
constexpr std::size_t mostForWhole = 1500;
// Nothing farther off than so many of the longest range is taken in.
constexpr double farRanges = 3.0;
// Beyond the outermost soundings the patches go on so far [m]; farther out their last values hold.
constexpr double beyond = 30.0;
constexpr std::size_t placesAtOnce = 128;
constexpr unsigned mostSplits = 24;

/// From 1 well inside to 0 at the margin's end, without a corner.
double falloff(double along, double length, double margin) {
    const auto rise = [margin](double inside) {
        const double t = std::clamp(0.5 + 0.5 * inside / margin, 0.0, 1.0);
        return t * t * (3.0 - 2.0 * t);
    };
    return rise(along) * rise(length - along);
}

} // namespace

// By trial against the dense answer (see the tests): with the first, a patch's mean is within a
// tenth of its error at 99 places in 100 where soundings are 5 m apart. The second costs a third of
// it, for soundings that lie so close that an error matters less than its price.
LocalBed::Neighbourhood LocalBed::neighbourhoodFor(std::size_t items) {
    constexpr std::size_t few = 20'000;
    if (items <= few) {
        return {.openness = 0.5, .growth = 0.0, .margin = 0.25, .mostInside = 40, .mostItems = 700};
    }
    return {.openness = 1.4, .growth = 0.4, .margin = 0.12, .mostInside = 130, .mostItems = 600};
}

Result<LocalBed> LocalBed::of(LocalModel model, int threads, const Progress& progress) {
    BEDLORE_EXPECTS(!model.data.empty());
    LocalBed bed;
    bed.threads_ = threads;
    bed.model_ = std::move(model);
    std::vector<double> sharedVariance;
    sharedVariance.reserve(bed.model_.shared.size());
    for (const SharedLoads& loads : bed.model_.shared) {
        double sum = 0.0;
        for (const auto& [error, load] : loads) {
            sum += load * load;
        }
        sharedVariance.push_back(sum);
    }
    bed.tree_ = SoundingTree(
        std::exchange(bed.model_.data, {}),
        sharedVariance,
        WithinSquare(bed.model_.longPart, bed.model_.shortPart),
        mostItemsAtAll);
    bed.near_ = neighbourhoodFor(bed.tree_.itemCount());
    if (const auto solved = bed.solveWhole(progress); !solved) {
        return fail(solved.error());
    }
    bed.part();
    return bed;
}

/// Lower triangle, of the items with their noise.
Eigen::MatrixXd LocalBed::covarianceOf(const std::vector<std::uint32_t>& items) const {
    const auto n = static_cast<Index>(items.size());
    const CovariancePart& broad = model_.longPart;
    const CovariancePart& fine = model_.shortPart;
    Eigen::ArrayXd east(n);
    Eigen::ArrayXd north(n);
    Eigen::ArrayXd spread(n);
    for (Index i = 0; i < n; ++i) {
        const SoundingTree::Node& node = tree_.nodes()[items[static_cast<std::size_t>(i)]];
        east[i] = node.place.east - tree_.square().corner.east;
        north[i] = node.place.north - tree_.square().corner.north;
        spread[i] = static_cast<double>(node.spread);
    }
    Eigen::MatrixXd K(n, n);
    Eigen::ArrayXd square(n);
    Eigen::ArrayXd h(n);
    for (Index j = 0; j < n; ++j) {
        const Index rest = n - j;
        const SoundingTree::Node& node = tree_.nodes()[items[static_cast<std::size_t>(j)]];
        square.head(rest) =
            (east.tail(rest) - east[j]).square() + (north.tail(rest) - north[j]).square();
        h.head(rest) = square.head(rest).sqrt() / broad.range;
        correlate(broad.family, h.head(rest));
        K.col(j).tail(rest) = broad.variance * h.head(rest);
        if (fine.variance > 0.0) {
            h.head(rest) = (square.head(rest) + spread.tail(rest) + spread[j]).sqrt() / fine.range;
            // Places that are not sure lie apart from themselves only where there are several.
            const double others = 1.0 - 1.0 / static_cast<double>(node.count);
            h[0] = std::sqrt(2.0 * spread[j] * others) / fine.range;
            correlate(fine.family, h.head(rest));
            K.col(j).tail(rest).array() += fine.variance * h.head(rest);
        }
        K(j, j) += static_cast<double>(node.noise) + static_cast<double>(node.within);
    }
    addShared(items, K);
    return K;
}

namespace {

/// Of the errors that two soundings share [m²].
double sharedBetween(const SharedLoads& one, const SharedLoads& two) {
    double sum = 0.0;
    for (const auto& [error, load] : one) {
        for (const auto& [other, effect] : two) {
            sum += error == other ? load * effect : 0.0;
        }
    }
    return sum;
}

} // namespace

/// J Jᵀ between soundings by themselves; squares of several have it as noise of their own.
void LocalBed::addShared(
    const std::vector<std::uint32_t>& items, Eigen::MatrixXd& covariance) const {
    std::vector<std::pair<Index, const SharedLoads*>> bearers;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const SoundingTree::Node& node = tree_.nodes()[items[i]];
        const std::int32_t shared = tree_.data()[node.begin].shared;
        const auto row = static_cast<Index>(i);
        if (node.count > 1) {
            covariance(row, row) += static_cast<double>(node.shared);
        } else if (shared >= 0) {
            bearers.emplace_back(row, &model_.shared[static_cast<std::size_t>(shared)]);
        }
    }
    for (std::size_t b = 0; b < bearers.size(); ++b) {
        for (std::size_t a = b; a < bearers.size(); ++a) {
            covariance(bearers[a].first, bearers[b].first) +=
                sharedBetween(*bearers[a].second, *bearers[b].second);
        }
    }
}

/// The drift, from a cut through everything.
Result<void> LocalBed::solveWhole(const Progress& progress) {
    const std::vector<std::uint32_t> items = tree_.cut(mostForWhole);
    std::vector<Point> places;
    KrigingSystem system;
    system.covariance = covarianceOf(items);
    system.values.resize(static_cast<Index>(items.size()));
    for (std::size_t i = 0; i < items.size(); ++i) {
        places.push_back(tree_.nodes()[items[i]].place);
        system.values[static_cast<Index>(i)] = tree_.nodes()[items[i]].value;
    }
    system.drift = model_.drift.at(places);
    system.driftPrecision = model_.driftPrecision;
    const auto solved = Kriging::solve(system, progress);
    if (!solved) {
        return fail(solved.error());
    }
    beta_ = solved->beta();
    driftCovariance_ = solved->driftCovariance();
    return {};
}

/// All that tells of a square, what lies farther off in larger ones; given up beyond `most`.
std::vector<LocalBed::Item> LocalBed::itemsFor(const PlaneSquare& round, std::size_t most) const {
    struct Open {
        std::uint32_t node;
        PlaneSquare square;
    };
    const double longest = std::max(model_.longPart.range, model_.shortPart.range);
    const double far = farRanges * longest + round.side;
    std::vector<Item> items;
    std::vector<Open> open{{0, tree_.square()}};
    while (!open.empty() && items.size() <= most) {
        const Open at = open.back();
        open.pop_back();
        const SoundingTree::Node& node = tree_.nodes()[at.node];
        const double distance = at.square.distanceTo(round);
        if (node.count == 0 || distance > far) {
            continue;
        }
        const double whole =
            near_.openness * distance * (1.0 + near_.growth * distance / model_.shortPart.range);
        if (node.children == 0 || at.square.side <= whole) {
            items.push_back({.node = at.node, .side = at.square.side});
            continue;
        }
        for (unsigned which = 0; which < 4; ++which) {
            open.push_back({node.children + which, at.square.quarter(which)});
        }
    }
    return items;
}

bool LocalBed::isPatch(const PlaneSquare& square) const {
    const PlaneSquare round = withMargin(square);
    const std::vector<Item> items = itemsFor(round, 2 * near_.mostItems);
    const auto inside =
        static_cast<std::size_t>(std::count_if(items.begin(), items.end(), [&](const Item& item) {
            return round.distanceTo(tree_.nodes()[item.node].place) == 0.0;
        }));
    // Parting does not help where there is hardly anything inside.
    constexpr std::size_t few = 2;
    return (items.size() <= near_.mostItems && inside <= near_.mostInside) || inside <= few;
}

void LocalBed::part() {
    struct Open {
        std::uint32_t split;
        unsigned depth;
    };
    splits_.assign(1, {.square = tree_.square().grown(beyond)});
    std::vector<Open> open{{0, 0}};
    while (!open.empty()) {
        const Open at = open.back();
        open.pop_back();
        const PlaneSquare square = splits_[at.split].square;
        if (at.depth == mostSplits || isPatch(square)) {
            splits_[at.split].patch = static_cast<std::uint32_t>(patches_.size());
            patches_.push_back(square);
            continue;
        }
        const auto first = static_cast<std::uint32_t>(splits_.size());
        splits_[at.split].children = first;
        for (unsigned which = 0; which < 4; ++which) {
            splits_.push_back({.square = square.quarter(which)});
            open.push_back({first + which, at.depth + 1});
        }
    }
}

double LocalBed::weightAt(const PlaneSquare& patch, Point place) const {
    const double margin = near_.margin * patch.side;
    return falloff(place.east - patch.corner.east, patch.side, margin) *
           falloff(place.north - patch.corner.north, patch.side, margin);
}

/// The patches that have a say at a place, with their weights; at least one.
void LocalBed::findPatches(
    Point place, std::vector<std::pair<std::uint32_t, double>>& found) const {
    const PlaneSquare& whole = splits_.front().square;
    const Point inside{
        std::clamp(place.east, whole.corner.east, whole.corner.east + whole.side),
        std::clamp(place.north, whole.corner.north, whole.corner.north + whole.side)};
    found.clear();
    thread_local std::vector<std::uint32_t> open;
    open.assign(1, 0);
    while (!open.empty()) {
        const Split& split = splits_[open.back()];
        open.pop_back();
        if (withMargin(split.square).distanceTo(inside) > 0.0) {
            continue;
        }
        if (split.children == 0) {
            const double weight = weightAt(split.square, inside);
            if (weight > 0.0) {
                found.emplace_back(split.patch, weight);
            }
            continue;
        }
        for (std::uint32_t which = 0; which < 4; ++which) {
            open.push_back(split.children + which);
        }
    }
}

/// One patch, solved. Its factor is narrow (for the error), its weights are wide: found with the
/// narrow factor and mended until nothing is left.
/// Source of the mending: Higham (2002), Accuracy and Stability of Numerical Algorithms,
/// chapter 12.
class LocalBed::Patch {
public:
    Patch(const LocalBed& bed, const PlaneSquare& square)
        : bed_(bed)
        , origin_(square.corner) {
        std::vector<Item> taken =
            bed.itemsFor(bed.withMargin(square), std::numeric_limits<std::size_t>::max());
        std::sort(taken.begin(), taken.end(), [](const Item& a, const Item& b) {
            return a.node < b.node;
        });
        std::vector<std::uint32_t> items;
        items.reserve(taken.size());
        slack_.reserve(taken.size());
        for (const Item& item : taken) {
            items.push_back(item.node);
            // No two places of a square are farther apart than its diagonal.
            const bool alone = bed.tree_.nodes()[item.node].count == 1;
            slack_.push_back(alone ? 0.0 : std::numbers::sqrt2 * item.side);
        }
        takePlaces(items);
        Eigen::MatrixXd K = bed.covarianceOf(items);
        const Eigen::MatrixXd f = bed.model_.drift.at(places_);
        Eigen::VectorXd values(K.rows());
        for (Index i = 0; i < values.size(); ++i) {
            values[i] = bed.tree_.nodes()[items[static_cast<std::size_t>(i)]].value;
        }
        values -= f * bed.beta_;
        factor(K);
        driftRoot_ = f.cast<float>();
        lower_.triangularView<Eigen::Lower>().solveInPlace(driftRoot_);
        solve(K, values);
    }

    void at(std::span<const Point> places, double reach, LocalEstimate* out) const {
        const auto count = static_cast<Index>(places.size());
        Eigen::MatrixXd k(east_.size(), count);
        for (Index j = 0; j < count; ++j) {
            out[j].near = fill(places[static_cast<std::size_t>(j)], reach, k.col(j));
        }
        const Eigen::MatrixXd f = bed_.model_.drift.at(places);
        const Eigen::VectorXd value = k.transpose() * alpha_ + f * bed_.beta_;
        Eigen::MatrixXf v = k.cast<float>();
        lower_.triangularView<Eigen::Lower>().solveInPlace(v);
        const Eigen::MatrixXd u = f.transpose() - (driftRoot_.transpose() * v).cast<double>();
        const Eigen::ArrayXd drifting =
            u.cwiseProduct(bed_.driftCovariance_ * u).colwise().sum().transpose().array();
        const Eigen::ArrayXd explained =
            v.colwise().squaredNorm().transpose().cast<double>().array();
        const Eigen::ArrayXd sigma =
            (bed_.model_.processVariance - explained + drifting).max(0.0).sqrt();
        for (Index j = 0; j < count; ++j) {
            out[j].value = value[j];
            out[j].sigma = sigma[j];
        }
    }

private:
    void takePlaces(const std::vector<std::uint32_t>& items) {
        const auto n = static_cast<Index>(items.size());
        east_.resize(n);
        north_.resize(n);
        spread_.resize(n);
        for (Index i = 0; i < n; ++i) {
            const SoundingTree::Node& node = bed_.tree_.nodes()[items[static_cast<std::size_t>(i)]];
            places_.push_back(node.place);
            east_[i] = node.place.east - origin_.east;
            north_[i] = node.place.north - origin_.north;
            spread_[i] = static_cast<double>(node.spread);
        }
    }

    /// Narrow numbers may find a matrix not positive that is: a hair is added until it is.
    void factor(Eigen::MatrixXd& K) {
        const double mean = K.rows() > 0 ? K.diagonal().mean() : 1.0;
        for (double jitter = 1e-7;; jitter *= 10.0) {
            lower_ = K.cast<float>();
            const Eigen::LLT<Eigen::Ref<Eigen::MatrixXf>> outcome(lower_);
            if (outcome.info() == Eigen::Success || jitter > 1e-2) {
                return;
            }
            K.diagonal().array() += jitter * mean;
        }
    }

    void solve(const Eigen::MatrixXd& K, const Eigen::VectorXd& values) {
        constexpr int mostSteps = 6;
        constexpr double enough = 1e-10;
        alpha_ = Eigen::VectorXd::Zero(values.size());
        Eigen::VectorXd rest = values;
        double last = std::numeric_limits<double>::infinity();
        for (int step = 0; step < mostSteps; ++step) {
            const double size = rest.norm();
            if (!(size < 0.5 * last) || size <= enough * values.norm()) {
                return;
            }
            last = size;
            Eigen::VectorXf part = rest.cast<float>();
            lower_.triangularView<Eigen::Lower>().solveInPlace(part);
            lower_.transpose().triangularView<Eigen::Upper>().solveInPlace(part);
            alpha_ += part.cast<double>();
            rest = values - K.selfadjointView<Eigen::Lower>() * alpha_;
        }
    }

    /// Covariances of a place with the items; whether a sounding is within reach.
    [[nodiscard]] bool fill(Point place, double reach, Eigen::Ref<Eigen::VectorXd> k) const {
        const CovariancePart& broad = bed_.model_.longPart;
        const CovariancePart& fine = bed_.model_.shortPart;
        const Eigen::ArrayXd square = (east_ - (place.east - origin_.east)).square() +
                                      (north_ - (place.north - origin_.north)).square();
        Eigen::ArrayXd h = square.sqrt() / broad.range;
        correlate(broad.family, h);
        k = broad.variance * h;
        if (fine.variance > 0.0) {
            h = (square + spread_).sqrt() / fine.range;
            correlate(fine.family, h);
            k.array() += fine.variance * h;
        }
        if (square.size() > 0) {
            Index nearest = 0;
            const double least = square.minCoeff(&nearest);
            if (std::sqrt(least) + slack_[static_cast<std::size_t>(nearest)] <= reach) {
                return true;
            }
        }
        return bed_.tree_.nearest(place, reach * (1.0 + 1e-12)) <= reach;
    }

    const LocalBed& bed_;
    Point origin_;
    std::vector<Point> places_;
    std::vector<double> slack_; ///< how much farther off an item's nearest sounding may be [m]
    Eigen::ArrayXd east_, north_, spread_;
    Eigen::MatrixXf lower_;
    Eigen::MatrixXf driftRoot_;
    Eigen::VectorXd alpha_;
};

/// Which places each patch answers for, patch by patch.
struct LocalBed::Shares {
    struct Share {
        std::uint32_t place;
        float weight;
    };
    std::vector<std::size_t> begins; ///< of each patch, and the end
    std::vector<Share> shares;
};

std::optional<LocalBed::Shares> LocalBed::share(
    std::size_t count,
    const std::function<Point(std::size_t)>& placeOf,
    const Progress& progress) const {
    constexpr std::size_t block = 4096;
    struct Found {
        std::uint32_t patch;
        Shares::Share share;
    };
    std::vector<std::vector<Found>> blocks((count + block - 1) / block);
    const bool done = inParallel(blocks.size(), threads_, progress, [&](std::size_t b) {
        std::vector<std::pair<std::uint32_t, double>> patches;
        blocks[b].reserve(2 * block);
        for (std::size_t i = b * block; i < std::min(count, (b + 1) * block); ++i) {
            findPatches(placeOf(i), patches);
            for (const auto& [patch, weight] : patches) {
                const auto narrow = static_cast<float>(weight);
                blocks[b].push_back({patch, {static_cast<std::uint32_t>(i), narrow}});
            }
        }
    });
    if (!done) {
        return std::nullopt;
    }
    Shares result;
    result.begins.assign(patches_.size() + 1, 0);
    for (const std::vector<Found>& found : blocks) {
        for (const Found& one : found) {
            ++result.begins[one.patch + 1];
        }
    }
    for (std::size_t b = 1; b < result.begins.size(); ++b) {
        result.begins[b] += result.begins[b - 1];
    }
    std::vector<std::size_t> next(result.begins.begin(), result.begins.end() - 1);
    result.shares.resize(result.begins.back());
    for (const std::vector<Found>& found : blocks) {
        for (const Found& one : found) {
            result.shares[next[one.patch]++] = one.share;
        }
    }
    return result;
}

Result<std::vector<LocalEstimate>> LocalBed::at(
    std::size_t count,
    const std::function<Point(std::size_t)>& placeOf,
    double reach,
    const Progress& progress) const {
    const std::optional<Shares> found = share(count, placeOf, progress.part(0.0, 0.05));
    if (!found) {
        return fail(cancelledError());
    }
    const Shares& shares = *found;
    std::vector<LocalEstimate> answers(shares.shares.size());
    const bool done = inParallel(patches_.size(), threads_, progress, [&](std::size_t b) {
        const std::size_t end = shares.begins[b + 1];
        if (shares.begins[b] == end) {
            return;
        }
        const Patch patch(*this, patches_[b]);
        std::vector<Point> places;
        for (std::size_t from = shares.begins[b]; from < end; from += placesAtOnce) {
            const std::size_t to = std::min(end, from + placesAtOnce);
            places.clear();
            for (std::size_t i = from; i < to; ++i) {
                places.push_back(placeOf(shares.shares[i].place));
            }
            patch.at(places, reach, &answers[from]);
        }
    });
    if (!done) {
        return fail(cancelledError());
    }
    std::vector<LocalEstimate> result(count);
    std::vector<double> weights(count, 0.0);
    for (std::size_t i = 0; i < answers.size(); ++i) {
        const Shares::Share& one = shares.shares[i];
        const auto weight = static_cast<double>(one.weight);
        LocalEstimate& sum = result[one.place];
        weights[one.place] += weight;
        sum.value += weight * answers[i].value;
        sum.sigma += weight * answers[i].sigma;
        sum.near = answers[i].near;
    }
    for (std::size_t i = 0; i < count; ++i) {
        result[i].value /= weights[i];
        result[i].sigma /= weights[i];
    }
    return result;
}

} // namespace bedlore
