// SPDX-License-Identifier: MIT
#include "core/bed/surface.hpp"
#include "core/geometry/triangulation.hpp"
#include "tests/bench/case_files.hpp"

#include <chrono>
#include <cmath>
#include <cstdio>
#include <limits>
#include <numbers>

// How good the bed is on simulated evenings over real lakebeds, beside straight facets through the
// same readings. Usage: bedlore_bench_cases [folder of cases]

namespace bedlore::bench {
namespace {

/// Scores over the truth points of one case.
struct Score {
    double rmse = 0.0;
    double bias = 0.0;     ///< mean of map minus truth [m of level]
    double coverage = 0.0; ///< share of the truth within ±1.96 of the stated error
    double crps = 0.0;
    double known = 0.0;
    double knownNear = 0.0; ///< among truth within 5 m of a sounding
    double facets = 0.0;    ///< RMSE of the facets
    double meanSigma = 0.0;
    double seconds = 0.0;
};

/// Continuous ranked probability score of a normal forecast.
/// Source: Gneiting & Raftery (2007), JASA 102(477), equation 21.
double crps(double error, double sigma) {
    if (!(sigma > 0.0)) {
        return std::abs(error);
    }
    const double z = error / sigma;
    const double density = std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
    const double below = 0.5 * std::erfc(-z / std::numbers::sqrt2);
    return sigma * (z * (2.0 * below - 1.0) + 2.0 * density - std::numbers::inv_sqrtpi);
}

/// Straight facets through the recorded places; the nearest level outside them.
class Facets {
public:
    explicit Facets(const std::vector<Sounding>& soundings) {
        for (const Sounding& sounding : soundings) {
            places_.push_back(sounding.place);
            levels_.push_back(sounding.level.aboveDatum.si());
        }
        surface_.emplace(places_, levels_);
    }
    [[nodiscard]] double distanceTo(Point place) const { return nearest(place).first; }
    [[nodiscard]] double at(Point place) const {
        const auto level = surface_->at(place);
        return level ? *level : levels_[nearest(place).second];
    }

private:
    [[nodiscard]] std::pair<double, std::size_t> nearest(Point place) const {
        std::pair best(std::numeric_limits<double>::infinity(), std::size_t{0});
        for (std::size_t i = 0; i < places_.size(); ++i) {
            best = std::min(
                best,
                std::pair(
                    std::hypot(places_[i].east - place.east, places_[i].north - place.north), i));
        }
        return best;
    }
    std::vector<Point> places_;
    std::vector<double> levels_;
    std::optional<TriangulatedSurface> surface_;
};

Score scoreOf(const BedCase& one, const BedSurface& surface) {
    const Facets facets(one.reduction.soundings);
    Score score;
    double near = 0.0;
    const auto n = static_cast<double>(one.truth.size());
    for (const TruthPoint& truth : one.truth) {
        const BedEstimate got = surface.at(truth.place);
        const double error = got.level + truth.depth;
        score.rmse += error * error / n;
        score.bias += error / n;
        score.meanSigma += got.sigma / n;
        score.coverage += (std::abs(error) <= 1.96 * got.sigma ? 1.0 : 0.0) / n;
        score.crps += crps(error, got.sigma) / n;
        score.known += (got.known ? 1.0 : 0.0) / n;
        const double facetError = facets.at(truth.place) + truth.depth;
        score.facets += facetError * facetError / n;
        if (facets.distanceTo(truth.place) <= 5.0) {
            near += 1.0;
            score.knownNear += got.known ? 1.0 : 0.0;
        }
    }
    score.rmse = std::sqrt(score.rmse);
    score.facets = std::sqrt(score.facets);
    score.knownNear /= near;
    return score;
}

int run(const std::filesystem::path& root) {
    std::printf(
        "%-22s %5s %7s %7s %6s %7s %6s %6s %7s %6s %7s  %s\n",
        "case",
        "n",
        "rmse",
        "bias",
        "cov %",
        "crps",
        "known",
        "near",
        "facets",
        "ratio",
        "s",
        "unknowns");
    double logs = 0.0;
    double crpsSum = 0.0;
    double coverage = 0.0;
    std::size_t count = 0;
    for (const auto& folder : caseFolders(root)) {
        const auto one = readCase(folder);
        if (!one) {
            std::fprintf(stderr, "%s: %s\n", folder.c_str(), one.error().message.c_str());
            return 1;
        }
        const auto begin = std::chrono::steady_clock::now();
        const auto surface = BedSurface::fit(one->reduction);
        if (!surface) {
            std::fprintf(stderr, "%s: %s\n", folder.c_str(), surface.error().message.c_str());
            return 1;
        }
        const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
        Score score = scoreOf(*one, *surface);
        score.seconds = taken.count();
        const double ratio = score.rmse / score.facets;
        const BedParameters p = surface->parameters();
        std::printf(
            "%-22s %5zu %7.3f %7.3f %6.1f %7.4f %6.3f %6.3f %7.3f %6.3f %7.3f  %.2f/%.0f %.2f/%.1f "
            "%.2f x%.2f\n",
            one->name.c_str(),
            surface->soundingCount(),
            score.rmse,
            score.bias,
            100.0 * score.coverage,
            score.crps,
            score.known,
            score.knownNear,
            score.facets,
            ratio,
            score.seconds,
            p.longSigma,
            p.longRange,
            p.shortSigma,
            p.shortRange,
            p.nuggetSigma,
            p.noiseFactor);
        std::fflush(stdout);
        logs += std::log(ratio);
        crpsSum += std::log(score.crps);
        coverage += score.coverage;
        ++count;
    }
    const auto n = static_cast<double>(count);
    std::printf(
        "geometric mean of ratios %.4f, of crps %.5f; mean coverage %.2f %%\n",
        std::exp(logs / n),
        std::exp(crpsSum / n),
        100.0 * coverage / n);
    return 0;
}

} // namespace
} // namespace bedlore::bench

int main(int argc, char** argv) {
    return bedlore::bench::run(argc > 1 ? argv[1] : BEDLORE_TEST_DATA_DIR "/cases");
}
