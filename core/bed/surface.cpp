// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"

#include "core/base/parallel.hpp"
#include "core/bed/bed_data.hpp"
#include "core/bed/bed_fit.hpp"
#include "core/bed/many_fit.hpp"
#include "core/bed/prediction.hpp"
#include "core/bed/shared_errors.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <mutex>
#include <optional>
#include <tuple>
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
// What a bed is solved for at once: a second or two on a machine of the day. Fixes are not typed
// line by line, so a bed of many need not be followed while it grows, and patches make its grids
// sooner.
constexpr std::size_t mostAtOnce = 2000;
constexpr std::size_t mostFixesAtOnce = 1000;
// Beyond this the unknowns are found from parts of the soundings.
constexpr std::size_t mostForUnknowns = 800;
// Places that a local model is asked for at once: a bound on memory.
constexpr std::size_t mostPlaces = std::size_t{1} << 20U;

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
    std::optional<LocalBed> local; ///< in place of `fit` and `data`, about `localMean`
    double localMean = 0.0;
    std::vector<Point> recorded;
    Point least; ///< corners round all soundings
    Point most;
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
    [[nodiscard]] static std::shared_ptr<Fitted> of(ManyFit fit, const BedOptions& options);

    [[nodiscard]] static Result<std::shared_ptr<Fitted>>
    locally(const Reduction& reduction, const Progress& progress, const BedOptions& options);
    [[nodiscard]] static Result<std::shared_ptr<Fitted>>
    atOnce(const Reduction& reduction, const Progress& progress, const BedOptions& options);

    void take(const BedShape& shape, const BedTheta& theta);

    [[nodiscard]] bool isKnown(double sigma, double nearest) const {
        return nearest <= reach &&
               (sigma * sigma <= 0.5 * processVariance || sigma <= alwaysKnownSigma);
    }

    /// By the local model.
    template <class Store>
    [[nodiscard]] bool predictLocally(
        std::size_t count,
        const std::function<Point(std::size_t)>& placeOf,
        const Store& store,
        const Progress& progress) const {
        for (std::size_t begin = 0; begin < count; begin += mostPlaces) {
            const std::size_t end = std::min(begin + mostPlaces, count);
            const auto share = [&](std::size_t i) {
                return static_cast<double>(i) / static_cast<double>(count);
            };
            const auto got = local->at(
                end - begin,
                [&](std::size_t i) { return placeOf(begin + i); },
                reach,
                progress.part(share(begin), share(end)));
            if (!got) {
                return false;
            }
            for (std::size_t i = begin; i < end; ++i) {
                const LocalEstimate& one = (*got)[i - begin];
                store(
                    i,
                    BedEstimate{
                        .level = one.value + localMean,
                        .sigma = one.sigma,
                        .known = one.near && isKnown(one.sigma, 0.0)});
            }
        }
        return true;
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

const BedTheta& likeliest(const BedFit& fit) {
    return std::max_element(
               fit.nodes.begin(),
               fit.nodes.end(),
               [](const BedNode& a, const BedNode& b) { return a.weight < b.weight; })
        ->theta;
}

BedParameters parametersOf(const BedShape& shape, const BedTheta& theta) {
    return {
        .longSigma = std::sqrt(shape.longPart(theta).variance),
        .longRange = shape.longPart(theta).range,
        .shortSigma = std::sqrt(shape.shortPart(theta).variance),
        .shortRange = shape.hasShort ? shape.shortPart(theta).range : 0.0,
        .nuggetSigma = std::sqrt(shape.nuggetVariance(theta)),
        .noiseFactor = std::exp(theta[NoiseFactor])};
}

/// South-west and north-east corner of places, of which there are some.
template <class PlaceOf>
std::pair<Point, Point> cornersOf(std::size_t count, const PlaceOf& placeOf) {
    Point least = placeOf(0);
    Point most = least;
    for (std::size_t i = 1; i < count; ++i) {
        const Point p = placeOf(i);
        least = {std::min(least.east, p.east), std::min(least.north, p.north)};
        most = {std::max(most.east, p.east), std::max(most.north, p.north)};
    }
    return {least, most};
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
    std::tie(fitted->least, fitted->most) =
        cornersOf(data.size(), [&](std::size_t i) { return data[i].recorded; });
    fitted->take(fit.shape, likeliest(fit));
    fitted->aimErrors = aimErrorsOf(fit, SharedErrors(reduction, data), reduction.casts.size());
    for (const BedNode& node : fit.nodes) {
        fitted->processVariance += node.weight * fit.shape.processVariance(node.theta);
    }
    fitted->fit = std::move(fit);
    const Fitted& made = *fitted;
    fitted->wide.emplace([&made] { return Predictor<double>(*made.fit, made.recorded); });
    fitted->narrow.emplace([&made] { return Predictor<float>(*made.fit, made.recorded); });
    fitted->data = std::move(data);
    return fitted;
}

std::shared_ptr<BedSurface::Fitted> BedSurface::Fitted::of(ManyFit fit, const BedOptions& options) {
    auto fitted = std::make_shared<Fitted>();
    const std::vector<LocalDatum>& data = fit.bed.tree().data();
    fitted->threads = options.threads > 0 ? options.threads : usualThreads();
    fitted->soundingCount = data.size();
    std::tie(fitted->least, fitted->most) =
        cornersOf(data.size(), [&](std::size_t i) { return data[i].place; });
    fitted->take(fit.shape, fit.theta);
    fitted->processVariance = fit.shape.processVariance(fit.theta);
    fitted->aimErrors = std::move(fit.aimErrors);
    fitted->localMean = fit.meanLevel;
    fitted->local = std::move(fit.bed);
    return fitted;
}

void BedSurface::Fitted::take(const BedShape& shape, const BedTheta& theta) {
    parameters = parametersOf(shape, theta);
    reach = std::min(farthestKnown, std::max(parameters.longRange, parameters.shortRange));
}

BedSurface BedSurface::made(
    const Reduction& reduction, BedFit fit, std::vector<BedDatum> data, const BedOptions& options) {
    BedSurface surface;
    surface.fitted_ = Fitted::of(reduction, std::move(fit), std::move(data), options);
    return surface;
}

namespace {

std::vector<std::string> notesOn(std::size_t leftOut, const LocalBed* local) {
    std::vector<std::string> notes;
    if (leftOut > 0) {
        notes.push_back(std::to_string(leftOut) + " depths without a usable place were left out.");
    }
    if (local != nullptr && 2 * local->tree().itemCount() < local->tree().data().size()) {
        notes.push_back(
            std::to_string(local->tree().data().size()) +
            " depths lie closer together than the bed changes: the map takes them together in " +
            std::to_string(local->tree().itemCount()) + " places.");
    }
    return notes;
}

} // namespace

Result<std::shared_ptr<BedSurface::Fitted>> BedSurface::Fitted::locally(
    const Reduction& reduction, const Progress& progress, const BedOptions& options) {
    auto fit = fitMany(reduction, options.threads > 0 ? options.threads : usualThreads(), progress);
    if (!fit) {
        return fail(fit.error());
    }
    const std::size_t leftOut = fit->leftOut;
    auto fitted =
        fit->bed.tree().data().empty() ? std::make_shared<Fitted>() : of(*std::move(fit), options);
    fitted->notes = notesOn(leftOut, fitted->local ? &*fitted->local : nullptr);
    return fitted;
}

Result<std::shared_ptr<BedSurface::Fitted>> BedSurface::Fitted::atOnce(
    const Reduction& reduction, const Progress& progress, const BedOptions& options) {
    BedData data = bedData(reduction);
    auto fitted = std::make_shared<Fitted>();
    if (!data.soundings.empty()) {
        const SharedErrors errors(reduction, data.soundings);
        std::optional<BedTheta> known;
        if (data.soundings.size() > mostForUnknowns) {
            auto found = unknownsFromParts(reduction, data.soundings, progress.part(0.0, 0.3));
            if (!found) {
                return fail(found.error());
            }
            known = *found;
        }
        auto fit = fitBed(data.soundings, errors, progress.part(0.0, 0.95), known);
        if (!fit) {
            return fail(fit.error());
        }
        fitted = of(reduction, *std::move(fit), std::move(data.soundings), options);
    }
    fitted->notes = notesOn(data.leftOut, nullptr);
    return fitted;
}

Result<BedSurface>
BedSurface::fit(const Reduction& reduction, const Progress& progress, const BedOptions& options) {
    const auto fixes = static_cast<std::size_t>(std::count_if(
        reduction.soundings.begin(), reduction.soundings.end(), [](const Sounding& sounding) {
            return !sounding.line.has_value();
        }));
    const bool many = reduction.soundings.size() > mostAtOnce || fixes > mostFixesAtOnce;
    auto fitted = many ? Fitted::locally(reduction, progress, options)
                       : Fitted::atOnce(reduction, progress, options);
    if (!fitted) {
        return fail(fitted.error());
    }
    BedSurface surface;
    (*fitted)->aimErrors.resize(reduction.casts.size(), 0.0);
    surface.fitted_ = *std::move(fitted);
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
    const bool hasSoundings = fitted_->wide || fitted_->local;
    if (!hasSoundings || !std::isfinite(place.east) || !std::isfinite(place.north)) {
        return {.sigma = unsoundedSigma};
    }
    if (fitted_->local) {
        BedEstimate result;
        static_cast<void>(fitted_->predictLocally(
            1,
            [&](std::size_t) { return place; },
            [&](std::size_t, const BedEstimate& estimate) { result = estimate; },
            {}));
        return result;
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
    if (!fitted_->wide && !fitted_->local) {
        return result;
    }
    const auto placeOf = [&](std::size_t i) { return places[i]; };
    const auto store = [&](std::size_t i, const BedEstimate& estimate) { result[i] = estimate; };
    const bool done =
        fitted_->local
            ? fitted_->predictLocally(places.size(), placeOf, store, progress)
            : fitted_->predict(fitted_->wide->get(), places.size(), placeOf, store, progress);
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
    if ((!fitted_->narrow && !fitted_->local) || frame.size() == 0) {
        return grid;
    }
    const auto columns = static_cast<std::size_t>(frame.columns);
    const auto placeOf = [&](std::size_t i) {
        return frame.centre(static_cast<int>(i / columns), static_cast<int>(i % columns));
    };
    const auto store = [&](std::size_t i, const BedEstimate& estimate) {
        grid.level.values[i] = static_cast<float>(estimate.level);
        grid.sigma.values[i] = static_cast<float>(estimate.sigma);
        grid.known.values[i] = estimate.known ? 1 : 0;
    };
    const bool done =
        fitted_->local
            ? fitted_->predictLocally(frame.size(), placeOf, store, progress)
            : fitted_->predict(fitted_->narrow->get(), frame.size(), placeOf, store, progress);
    if (!done) {
        return fail(cancelledError());
    }
    return grid;
}

GridFrame BedSurface::frameFor(double cell) const {
    GridFrame frame{.cell = cell};
    if (fitted_->soundingCount == 0) {
        return frame;
    }
    const Point least = fitted_->least;
    const Point most = fitted_->most;
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
