// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"

#include "core/base/parallel.hpp"
#include "core/bed/bed_data.hpp"
#include "core/bed/bed_fit.hpp"
#include "core/bed/gathered_fixes.hpp"
#include "core/bed/prediction.hpp"
#include "core/bed/shared_errors.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <mutex>
#include <optional>
#include <utility>

namespace bedlore {

namespace {

// Nothing is known farther than this from every sounding, or than the bed's own longest range.
constexpr double farthestKnown = 25.0; // m
// Half a foot: an error this small is good enough to fish by, however flat the bed is [M].
constexpr double alwaysKnownSigma = 0.15; // m
// What the level of an unsounded bed is worth: about the depth of the waters fished from a bank.
constexpr double unsoundedSigma = 5.0; // m

constexpr std::size_t blockOfPlaces = 128;
// What a bed is solved for at once: a second or two on a machine of the day.
constexpr std::size_t mostAtOnce = 1200;

} // namespace

/// A predictor copies the solved system, which costs as much as a grid may save: made at its first
/// use, by whichever thread comes first.
template <class T>
class LateMade {
public:
    explicit LateMade(std::function<T()> make)
        : make_(std::move(make)) {}
    [[nodiscard]] const T& get() const {
        std::call_once(once_, [this] { value_.emplace(make_()); });
        return *value_;
    }

private:
    std::function<T()> make_;
    mutable std::once_flag once_;
    mutable std::optional<T> value_;
};

class BedSurface::Fitted {
public:
    std::size_t soundingCount = 0;
    std::vector<std::string> notes;
    BedParameters parameters;
    std::vector<double> aimErrors;
    std::optional<BedFit> fit;
    std::vector<BedDatum> data;
    std::vector<Point> recorded;
    double processVariance = 0.0;
    double reach = 0.0;
    int threads = 1;
    std::optional<LateMade<Predictor<double>>> wide;  ///< for points; none without soundings
    std::optional<LateMade<Predictor<float>>> narrow; ///< for grids

    [[nodiscard]] static std::shared_ptr<Fitted>
    of(const Reduction& reduction,
       BedFit fit,
       std::vector<BedDatum> data,
       const BedOptions& options);

    [[nodiscard]] bool isKnown(double sigma, double nearest) const {
        return nearest <= reach &&
               (sigma * sigma <= 0.5 * processVariance || sigma <= alwaysKnownSigma);
    }

    template <class Scalar, class Store>
    [[nodiscard]] bool predict(
        const Predictor<Scalar>& predictor,
        std::size_t count,
        const std::function<Point(std::size_t)>& placeOf,
        const Store& store,
        const Progress& progress) const {
        const std::size_t blocks = (count + blockOfPlaces - 1) / blockOfPlaces;
        return inParallel(blocks, threads, progress, [&](std::size_t block) {
            const std::size_t begin = block * blockOfPlaces;
            const std::size_t end = std::min(begin + blockOfPlaces, count);
            std::vector<Point> places;
            for (std::size_t i = begin; i < end; ++i) {
                places.push_back(placeOf(i));
            }
            const BlockPrediction got = predictor.at(places);
            for (std::size_t i = begin; i < end; ++i) {
                const auto row = static_cast<Eigen::Index>(i - begin);
                store(
                    i,
                    BedEstimate{
                        .level = got.level[row],
                        .sigma = got.sigma[row],
                        .known = isKnown(got.sigma[row], got.nearest[row])});
            }
        });
    }
};

namespace {

BedParameters parametersOf(const BedFit& fit) {
    const BedNode& best = *std::max_element(
        fit.nodes.begin(), fit.nodes.end(), [](const BedNode& a, const BedNode& b) {
            return a.weight < b.weight;
        });
    return {
        .longSigma = std::sqrt(fit.shape.longPart(best.theta).variance),
        .longRange = fit.shape.longPart(best.theta).range,
        .shortSigma = std::sqrt(fit.shape.shortPart(best.theta).variance),
        .shortRange = fit.shape.hasShort ? fit.shape.shortPart(best.theta).range : 0.0,
        .nuggetSigma = std::sqrt(fit.shape.nuggetVariance(best.theta)),
        .noiseFactor = std::exp(best.theta[NoiseFactor])};
}

std::vector<double>
aimErrorsOf(const BedFit& fit, const SharedErrors& errors, std::size_t castCount) {
    std::vector<double> result(castCount, 0.0);
    for (Eigen::Index i = 0; i < errors.size(); ++i) {
        const SharedError& error = errors.errors()[static_cast<std::size_t>(i)];
        if (error.kind == SharedErrorKind::Aim) {
            result[error.index] = fit.zeta[i] * error.sigma;
        }
    }
    return result;
}

} // namespace

std::shared_ptr<BedSurface::Fitted> BedSurface::Fitted::of(
    const Reduction& reduction, BedFit fit, std::vector<BedDatum> data, const BedOptions& options) {
    auto fitted = std::make_shared<Fitted>();
    fitted->threads = options.threads > 0 ? options.threads : usualThreads();
    fitted->soundingCount = data.size();
    for (const BedDatum& datum : data) {
        fitted->recorded.push_back(datum.recorded);
    }
    fitted->parameters = parametersOf(fit);
    fitted->aimErrors = aimErrorsOf(fit, SharedErrors(reduction, data), reduction.casts.size());
    for (const BedNode& node : fit.nodes) {
        fitted->processVariance += node.weight * fit.shape.processVariance(node.theta);
    }
    fitted->reach = std::min(
        farthestKnown, std::max(fitted->parameters.longRange, fitted->parameters.shortRange));
    fitted->fit = std::move(fit);
    const Fitted& made = *fitted;
    fitted->wide.emplace([&made] { return Predictor<double>(*made.fit, made.recorded); });
    fitted->narrow.emplace([&made] { return Predictor<float>(*made.fit, made.recorded); });
    fitted->data = std::move(data);
    return fitted;
}

BedSurface BedSurface::made(
    const Reduction& reduction, BedFit fit, std::vector<BedDatum> data, const BedOptions& options) {
    BedSurface surface;
    surface.fitted_ = Fitted::of(reduction, std::move(fit), std::move(data), options);
    return surface;
}

namespace {

std::vector<std::string> notesOn(const BedData& data, const GatheredFixes& gathered) {
    std::vector<std::string> notes;
    if (data.leftOut > 0) {
        notes.push_back(
            std::to_string(data.leftOut) + " depths without a usable place were left out.");
    }
    if (gathered.from > 0) {
        notes.push_back(
            std::to_string(gathered.from) + " depths from elsewhere were gathered in squares of " +
            printNumber(gathered.cell) + " m for the map.");
    }
    return notes;
}

} // namespace

Result<BedSurface>
BedSurface::fit(const Reduction& reduction, const Progress& progress, const BedOptions& options) {
    BedData data = bedData(reduction);
    const std::size_t soundingCount = data.soundings.size();
    GatheredFixes gathered = gatheredFixes(std::move(data.soundings), mostAtOnce);
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    auto fitted = std::make_shared<Fitted>();
    if (!gathered.soundings.empty()) {
        const SharedErrors errors(reduction, gathered.soundings);
        auto fit = fitBed(gathered.soundings, errors, progress.part(0.0, 0.95));
        if (!fit) {
            return tl::unexpected(fit.error());
        }
        fitted = Fitted::of(reduction, *std::move(fit), std::move(gathered.soundings), options);
    }
    fitted->aimErrors.resize(reduction.casts.size(), 0.0);
    fitted->soundingCount = soundingCount;
    fitted->notes = notesOn(data, gathered);
    BedSurface surface;
    surface.fitted_ = std::move(fitted);
    progress.at(1.0);
    return surface;
}

std::size_t BedSurface::soundingCount() const {
    return fitted_->soundingCount;
}

BedParameters BedSurface::parameters() const {
    return fitted_->parameters;
}

const std::vector<std::string>& BedSurface::notes() const {
    return fitted_->notes;
}

BedEstimate BedSurface::at(Point place) const {
    if (!fitted_->wide || !std::isfinite(place.east) || !std::isfinite(place.north)) {
        return {.sigma = unsoundedSigma};
    }
    const BlockPrediction got = fitted_->wide->get().at({&place, 1});
    return {
        .level = got.level[0],
        .sigma = got.sigma[0],
        .known = fitted_->isKnown(got.sigma[0], got.nearest[0])};
}

Result<std::vector<BedEstimate>>
BedSurface::at(std::span<const Point> places, const Progress& progress) const {
    std::vector<BedEstimate> result(places.size(), {.sigma = unsoundedSigma});
    if (!fitted_->wide) {
        return result;
    }
    const bool done = fitted_->predict(
        fitted_->wide->get(),
        places.size(),
        [&](std::size_t i) { return places[i]; },
        [&](std::size_t i, const BedEstimate& estimate) { result[i] = estimate; },
        progress);
    if (!done) {
        return fail(cancelledError());
    }
    return result;
}

Result<BedGrid> BedSurface::grid(const GridFrame& frame, const Progress& progress) const {
    BedGrid grid{
        .level = {frame, 0.0F},
        .sigma = {frame, static_cast<float>(unsoundedSigma)},
        .known = {frame, std::uint8_t{0}}};
    if (!fitted_->narrow || frame.size() == 0) {
        return grid;
    }
    const auto columns = static_cast<std::size_t>(frame.columns);
    const bool done = fitted_->predict(
        fitted_->narrow->get(),
        frame.size(),
        [&](std::size_t i) {
            return frame.centre(static_cast<int>(i / columns), static_cast<int>(i % columns));
        },
        [&](std::size_t i, const BedEstimate& estimate) {
            grid.level.values[i] = static_cast<float>(estimate.level);
            grid.sigma.values[i] = static_cast<float>(estimate.sigma);
            grid.known.values[i] = estimate.known ? 1 : 0;
        },
        progress);
    if (!done) {
        return fail(cancelledError());
    }
    return grid;
}

GridFrame BedSurface::frameFor(double cell) const {
    GridFrame frame{.cell = cell};
    if (fitted_->recorded.empty()) {
        return frame;
    }
    Point least = fitted_->recorded.front();
    Point most = least;
    for (const Point& p : fitted_->recorded) {
        least = {std::min(least.east, p.east), std::min(least.north, p.north)};
        most = {std::max(most.east, p.east), std::max(most.north, p.north)};
    }
    const double reach = fitted_->reach;
    const double west = std::floor((least.east - reach) / cell);
    const double east = std::ceil((most.east + reach) / cell);
    const double south = std::floor((least.north - reach) / cell);
    const double north = std::ceil((most.north + reach) / cell);
    frame.west = west * cell;
    frame.north = north * cell;
    frame.rows = static_cast<int>(north - south);
    frame.columns = static_cast<int>(east - west);
    return frame;
}

bool BedSurface::isKnown(double sigma, double nearest) const {
    return fitted_->isKnown(sigma, nearest);
}

double BedSurface::reach() const {
    return fitted_->reach;
}

const BedFit* BedSurface::fitted() const {
    return fitted_->fit ? &*fitted_->fit : nullptr;
}

std::span<const BedDatum> BedSurface::data() const {
    return fitted_->data;
}

std::vector<double> BedSurface::aimErrors() const {
    return fitted_->aimErrors;
}

} // namespace bedlore
