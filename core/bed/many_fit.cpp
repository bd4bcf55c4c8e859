// SPDX-License-Identifier: MIT
#include "core/bed/many_fit.hpp"

#include "core/bed/bed_fit.hpp"
#include "core/bed/bed_terms.hpp"
#include "core/bed/parameter_search.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <numeric>
#include <optional>
#include <set>
#include <utility>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// Parts of the soundings that the unknowns are found from: how many there are of a kind, and how
// large each is.
constexpr std::size_t closeParts = 8;
constexpr std::size_t widerParts = 5;
constexpr std::size_t smallPart = 96;
constexpr std::size_t wholePart = 240;
// What slopes are found from.
constexpr std::size_t slopePart = 600;
// The slope is taken as one over squares so wide: less than what a bar is wide.
constexpr double slopeSquare = 8.0; // m
// Casts whose aims are found together, and what is gathered round them.
constexpr std::size_t mostTogether = 800;
constexpr std::size_t mostRound = 300;

BedDatum asDatum(const LocalDatum& fix, double meanLevel) {
    BedDatum datum;
    datum.recorded = fix.place;
    datum.level = fix.value + meanLevel;
    datum.noise = std::sqrt(fix.noise);
    datum.placeSigma = std::sqrt(0.5 * fix.spread);
    return datum;
}

LocalDatum asFix(const BedDatum& datum, double meanLevel) {
    return {
        .place = datum.recorded,
        .value = datum.level - meanLevel,
        .noise = datum.noise * datum.noise,
        .spread = 2.0 * datum.placeSigma * datum.placeSigma};
}

/// Every so-and-so-many-th of a list, from a start.
struct Stride {
    std::size_t begin = 0;
    double step = 1.0;
    std::size_t count = 0;

    [[nodiscard]] std::size_t operator[](std::size_t i) const {
        return begin + static_cast<std::size_t>(step * static_cast<double>(i));
    }
};

/// Over `n` soundings in their order along a curve, where neighbours in the list are neighbours in
/// the plane: close ones, wider ones, one over all.
std::vector<Stride> partsOf(std::size_t n) {
    std::vector<Stride> parts;
    const auto all = static_cast<double>(n);
    const auto add = [&](std::size_t count, double step) {
        const std::size_t size = std::min(smallPart, n);
        const auto length = static_cast<std::size_t>(std::ceil(step * static_cast<double>(size)));
        const std::size_t room = n > length ? n - length : 0;
        for (std::size_t i = 0; i < count; ++i) {
            parts.push_back(
                {.begin = room * (2 * i + 1) / (2 * count), .step = step, .count = size});
        }
    };
    add(closeParts, 1.0);
    const double wide = std::max(1.0, all / static_cast<double>(wholePart));
    if (wide > 3.0) {
        add(widerParts, std::sqrt(wide));
    }
    parts.push_back({.begin = 0, .step = wide, .count = std::min(wholePart, n)});
    return parts;
}

/// Finds unknowns and slopes from parts of soundings that stand along a curve.
class PartsFitter {
public:
    /// `datumOf` gives a sounding by its number along the curve.
    PartsFitter(
        const SharedErrors& errors,
        std::size_t count,
        std::function<BedDatum(std::size_t)> datumOf,
        double meanLevel,
        double variance,
        UsualDrift drift)
        : errors_(errors)
        , count_(count)
        , datumOf_(std::move(datumOf))
        , meanLevel_(meanLevel)
        , shape_(usualShape(variance))
        , drift_(std::move(drift))
        , theta_(shape_.medians()) {}

    /// Twice: without slopes, then with those of the first outcome.
    Result<void> run(const Progress& progress) {
        for (int pass = 0; pass < 2; ++pass) {
            std::vector<LikelihoodTerms> parts;
            for (const Stride& stride : partsOf(count_)) {
                parts.push_back(termsOf(dataOf(stride)).likelihood);
            }
            auto found =
                mostLikely(shape_, parts, theta_, {.evaluations = pass == 0 ? 20 : 8}, progress);
            if (!found) {
                return fail(found.error());
            }
            theta_ = found->theta;
            if (const auto solved = solveForSlopes(progress); !solved) {
                return fail(solved.error());
            }
        }
        return {};
    }

    [[nodiscard]] const BedShape& shape() const { return shape_; }
    [[nodiscard]] const BedTheta& theta() const { return theta_; }
    [[nodiscard]] const UsualDrift& drift() const { return drift_; }

    /// Of the broad shape and the drift at a place (east, north).
    [[nodiscard]] Eigen::RowVector2d slopeAt(Point place) const {
        if (!solved_) {
            return Eigen::RowVector2d::Zero();
        }
        const CovariancePart broad = shape_.longPart(theta_);
        Eigen::RowVector2d slope =
            (drift_.drift.gradient(place).transpose() * solved_->beta()).transpose();
        for (std::size_t j = 0; j < solvedPlaces_.size(); ++j) {
            const double east = place.east - solvedPlaces_[j].east;
            const double north = place.north - solvedPlaces_[j].north;
            const double s = slopeOverDistance(broad, std::hypot(east, north)) *
                             solved_->alpha()[static_cast<Index>(j)];
            slope += s * Eigen::RowVector2d(east, north);
        }
        return slope;
    }

private:
    [[nodiscard]] std::vector<BedDatum> dataOf(const Stride& stride) const {
        std::vector<BedDatum> data;
        data.reserve(stride.count);
        for (std::size_t i = 0; i < stride.count; ++i) {
            data.push_back(datumOf_(stride[i]));
        }
        return data;
    }

    [[nodiscard]] BedTerms termsOf(const std::vector<BedDatum>& data) const {
        const auto n = static_cast<Index>(data.size());
        Linearised about{
            .zeta = Eigen::VectorXd::Zero(errors_.size()), .slopes = Slopes::Zero(n, 2)};
        Eigen::VectorXd levels(n);
        for (Index i = 0; i < n; ++i) {
            const BedDatum& datum = data[static_cast<std::size_t>(i)];
            about.slopes.row(i) = slopeAt(datum.recorded);
            levels[i] = datum.level - meanLevel_;
        }
        return bedTerms(data, errors_, about, {drift_.drift, drift_.precision}, levels);
    }

    Result<void> solveForSlopes(const Progress& progress) {
        const std::size_t size = std::min(slopePart, count_);
        const double step = static_cast<double>(count_) / static_cast<double>(size);
        const BedTerms terms = termsOf(dataOf({.begin = 0, .step = step, .count = size}));
        auto solved = solveBed(shape_, terms.likelihood, theta_, progress);
        if (!solved) {
            return fail(solved.error());
        }
        solved_ = *std::move(solved);
        solvedPlaces_ = terms.places;
        return {};
    }

    const SharedErrors& errors_;
    std::size_t count_;
    std::function<BedDatum(std::size_t)> datumOf_;
    double meanLevel_;
    BedShape shape_;
    UsualDrift drift_;
    BedTheta theta_;
    std::optional<Kriging> solved_;
    std::vector<Point> solvedPlaces_;
};

/// Mean and variance of levels about it, each sounding counting once.
struct Levels {
    double mean = 0.0;
    double variance = 0.0;
};

template <class LevelOf>
Levels levelsOf(std::size_t count, const LevelOf& levelOf) {
    Levels levels;
    for (std::size_t i = 0; i < count; ++i) {
        levels.mean += levelOf(i) / static_cast<double>(count);
    }
    double squares = 0.0;
    for (std::size_t i = 0; i < count; ++i) {
        const double off = levelOf(i) - levels.mean;
        squares += off * off;
    }
    levels.variance = levelVariance(squares, count);
    return levels;
}

UsualDrift driftOver(std::span<const LocalDatum> data, std::size_t casts, double variance) {
    std::vector<Point> places;
    places.reserve(data.size());
    for (const LocalDatum& datum : data) {
        places.push_back(datum.place);
    }
    return usualDrift(places, casts, variance);
}

std::size_t castsOf(std::span<const BedDatum> readings) {
    std::set<std::size_t> casts;
    for (const BedDatum& reading : readings) {
        casts.insert(reading.thrown->cast);
    }
    return casts.size();
}

/// The whole of a large fit, step by step.
class ManyFitter {
public:
    ManyFitter(const Reduction& reduction, int threads, const Progress& progress)
        : reduction_(reduction)
        , threads_(threads)
        , progress_(progress) {}

    Result<ManyFit> run() {
        takeIn();
        if (progress_.cancelled()) {
            return fail(cancelledError());
        }
        if (all_.empty()) {
            return std::move(fit_);
        }
        const SharedErrors errors(reduction_, readings_);
        PartsFitter parts(
            errors,
            all_.size(),
            [this](std::size_t i) { return datumOf(i); },
            fit_.meanLevel,
            variance_,
            driftOver(all_, castsOf(readings_) + all_.size() - readings_.size(), variance_));
        if (const auto done = parts.run(progress_.part(0.1, 0.4)); !done) {
            return fail(done.error());
        }
        progress_.at(0.4);
        fit_.shape = parts.shape();
        fit_.theta = parts.theta();
        fit_.aimErrors.assign(reduction_.casts.size(), 0.0);
        LocalModel model{
            .longPart = fit_.shape.longPart(fit_.theta),
            .shortPart = fit_.shape.shortPart(fit_.theta),
            .processVariance = fit_.shape.processVariance(fit_.theta),
            .drift = parts.drift().drift,
            .driftPrecision = parts.drift().precision};
        if (!readings_.empty()) {
            if (const auto done = placeReadings(errors, model); !done) {
                return fail(done.error());
            }
        }
        setNoise(parts);
        model.data = std::move(all_);
        auto bed = LocalBed::of(std::move(model), threads_, progress_);
        if (!bed) {
            return fail(bed.error());
        }
        fit_.bed = *std::move(bed);
        progress_.at(1.0);
        return std::move(fit_);
    }

private:
    void takeIn() {
        all_.reserve(reduction_.soundings.size());
        for (const Sounding& sounding : reduction_.soundings) {
            const auto datum = bedDatum(reduction_, sounding);
            if (!datum) {
                ++fit_.leftOut;
                continue;
            }
            LocalDatum local = asFix(*datum, 0.0);
            if (datum->thrown) {
                local.shared = static_cast<std::int32_t>(readings_.size());
                readings_.push_back(*datum);
            }
            all_.push_back(local);
        }
        std::vector<std::uint64_t> codes;
        sortAlongCurve(all_, squareRound(all_), codes);
        renumberReadings();
        const Levels levels = levelsOf(all_.size(), [&](std::size_t i) { return all_[i].value; });
        fit_.meanLevel = levels.mean;
        variance_ = levels.variance;
        for (LocalDatum& datum : all_) {
            datum.value -= levels.mean;
        }
    }

    /// In the order along the curve, so that nothing hangs on the order of the notes.
    void renumberReadings() {
        std::vector<BedDatum> ordered;
        ordered.reserve(readings_.size());
        for (LocalDatum& datum : all_) {
            if (datum.shared >= 0) {
                ordered.push_back(readings_[static_cast<std::size_t>(datum.shared)]);
                datum.shared = static_cast<std::int32_t>(ordered.size()) - 1;
            }
        }
        readings_ = std::move(ordered);
    }

    [[nodiscard]] BedDatum datumOf(std::size_t i) const {
        const LocalDatum& datum = all_[i];
        return datum.shared >= 0 ? readings_[static_cast<std::size_t>(datum.shared)]
                                 : asDatum(datum, fit_.meanLevel);
    }

    /// His casts in lots that can be solved for together, visit by visit.
    [[nodiscard]] std::vector<std::vector<std::size_t>> lots() const {
        std::vector<std::size_t> order(readings_.size());
        std::iota(order.begin(), order.end(), 0U);
        const auto castOf = [&](std::size_t i) { return readings_[i].thrown->cast; };
        std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
            const std::size_t visitA = reduction_.casts[castOf(a)].visit;
            const std::size_t visitB = reduction_.casts[castOf(b)].visit;
            return std::pair(visitA, castOf(a)) < std::pair(visitB, castOf(b));
        });
        std::vector<std::vector<std::size_t>> lots;
        for (std::size_t i = 0; i < order.size(); ++i) {
            const bool newCast = i == 0 || castOf(order[i]) != castOf(order[i - 1]);
            if (lots.empty() || (newCast && lots.back().size() >= mostTogether)) {
                lots.emplace_back();
            }
            lots.back().push_back(order[i]);
        }
        return lots;
    }

    /// What lies round a lot: everything else, gathered.
    [[nodiscard]] std::vector<BedDatum>
    gatheredWithout(const std::vector<std::size_t>& lot, const LocalModel& model) const {
        std::vector<char> inLot(readings_.size(), 0);
        for (const std::size_t reading : lot) {
            inLot[reading] = 1;
        }
        std::vector<LocalDatum> others;
        for (const LocalDatum& datum : all_) {
            if (datum.shared < 0) {
                others.push_back(datum);
            } else if (inLot[static_cast<std::size_t>(datum.shared)] == 0) {
                // Its shared errors as if they were its own: a degree of aim is metres.
                LocalDatum other = datum;
                const ThrowGeometry& thrown =
                    *readings_[static_cast<std::size_t>(datum.shared)].thrown;
                const double aim = reduction_.casts[thrown.cast].aimSigma.si() * thrown.range;
                other.spread = aim * aim + thrown.lineSigma * thrown.lineSigma;
                other.shared = -1;
                others.push_back(other);
            }
        }
        std::vector<BedDatum> gathered;
        if (others.empty()) {
            return gathered;
        }
        const SoundingTree tree(
            std::move(others), {}, WithinSquare(model.longPart, model.shortPart), mostRound);
        for (const std::uint32_t number : tree.cut(mostRound)) {
            const SoundingTree::Node& node = tree.nodes()[number];
            gathered.push_back(asDatum(
                {.place = node.place,
                 .value = node.value,
                 .noise = static_cast<double>(node.noise) + static_cast<double>(node.within),
                 .spread = static_cast<double>(node.spread)},
                fit_.meanLevel));
        }
        return gathered;
    }

    /// Shared errors, and what follows from them for each reading.
    Result<void> placeReadings(const SharedErrors& errors, LocalModel& model) {
        model.shared.resize(readings_.size());
        std::vector<LocalDatum*> datumOfReading(readings_.size(), nullptr);
        for (LocalDatum& datum : all_) {
            if (datum.shared >= 0) {
                datumOfReading[static_cast<std::size_t>(datum.shared)] = &datum;
            }
        }
        // Found from the notes as they stand, whatever lot comes first.
        std::vector<LocalDatum> placed(readings_.size());
        for (const std::vector<std::size_t>& lot : lots()) {
            std::vector<BedDatum> data = gatheredWithout(lot, model);
            std::vector<BedDatum> own;
            own.reserve(lot.size() + data.size());
            for (const std::size_t reading : lot) {
                own.push_back(readings_[reading]);
            }
            data.insert(data.begin(), own.begin(), own.end());
            auto fitted = fitBed(data, errors, progress_.part(0.4, 0.9), fit_.theta);
            if (!fitted) {
                return fail(fitted.error());
            }
            takePlaces(*fitted, errors, lot, placed, model.shared);
            takeAims(*fitted, errors, lot);
        }
        for (std::size_t i = 0; i < placed.size(); ++i) {
            placed[i].shared = static_cast<std::int32_t>(i);
            *datumOfReading[i] = placed[i];
        }
        return {};
    }

    /// `lot` are the first that `fitted` was fitted to.
    void takePlaces(
        const BedFit& fitted,
        const SharedErrors& errors,
        const std::vector<std::size_t>& lot,
        std::vector<LocalDatum>& placed,
        std::vector<SharedLoads>& shared) const {
        std::vector<BedDatum> data;
        data.reserve(lot.size());
        for (const std::size_t reading : lot) {
            data.push_back(readings_[reading]);
        }
        const auto effects = errors.effects(data, fitted.about.zeta);
        const double factor = std::exp(2.0 * fit_.theta[NoiseFactor]);
        for (std::size_t i = 0; i < lot.size(); ++i) {
            const Eigen::RowVector2d slope = fitted.about.slopes.row(static_cast<Index>(i));
            const SoundingTerms terms = soundingTerms(data[i], effects[i], errors, slope);
            LocalDatum& datum = placed[lot[i]];
            datum.place = fitted.places[i];
            datum.value = data[i].level - fit_.meanLevel;
            datum.noise = factor * terms.depthNoise + terms.placeNoise;
            datum.spread = terms.spread;
            for (const SharedEffect& effect : effects[i]) {
                datum.value += (slope[0] * effect.east + slope[1] * effect.north) *
                               fitted.about.zeta[effect.error];
                shared[lot[i]].emplace_back(
                    static_cast<std::int32_t>(effect.error), effectOnLevel(effect, slope));
            }
        }
    }

    void takeAims(
        const BedFit& fitted, const SharedErrors& errors, const std::vector<std::size_t>& lot) {
        std::set<std::size_t> casts;
        for (const std::size_t reading : lot) {
            casts.insert(readings_[reading].thrown->cast);
        }
        for (std::size_t e = 0; e < errors.errors().size(); ++e) {
            const SharedError& error = errors.errors()[e];
            if (error.kind == SharedErrorKind::Aim && casts.count(error.index) > 0) {
                fit_.aimErrors[error.index] = fitted.zeta[static_cast<Index>(e)] * error.sigma;
            }
        }
    }

    /// An error of place is one of depth where the bed slopes. One slope serves a small square.
    void setNoise(const PartsFitter& parts) {
        const double factor = std::exp(2.0 * fit_.theta[NoiseFactor]);
        std::pair<std::int64_t, std::int64_t> at{};
        double steepness = 0.0; // its square
        bool none = true;
        for (LocalDatum& datum : all_) {
            if (datum.shared >= 0) {
                continue;
            }
            const std::pair square(
                static_cast<std::int64_t>(std::floor(datum.place.east / slopeSquare)),
                static_cast<std::int64_t>(std::floor(datum.place.north / slopeSquare)));
            if (datum.spread > 0.0 && (none || square != at)) {
                at = square;
                none = false;
                const auto middle = [](std::int64_t index) {
                    return (static_cast<double>(index) + 0.5) * slopeSquare;
                };
                steepness =
                    parts.slopeAt({middle(square.first), middle(square.second)}).squaredNorm();
            }
            datum.noise =
                factor * datum.noise + (datum.spread > 0.0 ? 0.5 * datum.spread * steepness : 0.0);
        }
    }

    const Reduction& reduction_;
    int threads_;
    const Progress& progress_;
    std::vector<LocalDatum> all_; ///< along the curve; values about the mean level
    std::vector<BedDatum> readings_;
    double variance_ = 0.0;
    ManyFit fit_;
};

} // namespace

Result<BedTheta> unknownsFromParts(
    const Reduction& reduction, std::span<const BedDatum> data, const Progress& progress) {
    std::vector<LocalDatum> order;
    std::vector<BedDatum> readings;
    order.reserve(data.size());
    for (std::size_t i = 0; i < data.size(); ++i) {
        LocalDatum local = asFix(data[i], 0.0);
        local.shared = static_cast<std::int32_t>(i);
        order.push_back(local);
        if (data[i].thrown) {
            readings.push_back(data[i]);
        }
    }
    std::vector<std::uint64_t> codes;
    sortAlongCurve(order, squareRound(order), codes);
    const Levels levels = levelsOf(data.size(), [&](std::size_t i) { return data[i].level; });
    const SharedErrors errors(reduction, data);
    PartsFitter parts(
        errors,
        data.size(),
        [&](std::size_t i) { return data[static_cast<std::size_t>(order[i].shared)]; },
        levels.mean,
        levels.variance,
        driftOver(order, castsOf(readings) + data.size() - readings.size(), levels.variance));
    if (const auto done = parts.run(progress); !done) {
        return fail(done.error());
    }
    return parts.theta();
}

Result<ManyFit> fitMany(const Reduction& reduction, int threads, const Progress& progress) {
    return ManyFitter(reduction, threads, progress).run();
}

} // namespace bedlore
