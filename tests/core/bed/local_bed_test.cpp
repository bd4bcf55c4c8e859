// SPDX-License-Identifier: MIT
#include "core/base/parallel.hpp"
#include "core/bed/kriging.hpp"
#include "core/bed/local_bed.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

// The local model beside the dense answer: the same covariance, drift and noise, solved for all
// soundings at once with the kernel that the published check values are for.

namespace bedlore {
namespace {

/// Soundings over a square, half of them crowded in one spot where `crowded`.
struct Scene {
    const char* name = "";
    std::size_t count = 3000;
    double side = 300.0;
    double noise = 0.1;
    double shortSigma = 0.15;
    double longRange = 40.0;
    bool crowded = false;
};

std::ostream& operator<<(std::ostream& out, const Scene& scene) {
    return out << scene.name;
}

double bedAt(Point p) {
    return std::sin(p.east / 23.0) * std::cos(p.north / 31.0) +
           0.3 * std::sin(p.east / 5.1 + p.north / 7.3) + 0.002 * p.east;
}

LocalModel modelOf(const Scene& scene) {
    std::mt19937_64 random(7);
    std::uniform_real_distribution<double> share(0.0, 1.0);
    std::normal_distribution<double> normal;
    LocalModel model;
    model.longPart = {CovarianceFamily::Matern52, 0.64, scene.longRange};
    model.shortPart = {CovarianceFamily::Exponential, scene.shortSigma * scene.shortSigma, 6.0};
    model.processVariance = model.longPart.variance + model.shortPart.variance;
    std::vector<Point> places;
    for (std::size_t i = 0; i < scene.count; ++i) {
        LocalDatum datum;
        datum.place = {share(random) * scene.side, share(random) * scene.side};
        if (scene.crowded && i % 2 == 1) {
            const double turn = 6.283 * share(random);
            const double out = 0.05 * scene.side * std::sqrt(share(random));
            datum.place = {
                0.3 * scene.side + out * std::cos(turn), 0.6 * scene.side + out * std::sin(turn)};
        }
        datum.noise = scene.noise * scene.noise;
        datum.value = bedAt(datum.place) + scene.noise * normal(random);
        model.data.push_back(datum);
        places.push_back(datum.place);
    }
    model.drift = Drift::over(places, DriftKind::Quadratic, 25.0);
    model.driftPrecision = Eigen::VectorXd::Constant(6, 0.25);
    model.driftPrecision[0] = 1.0 / 9.0;
    return model;
}

class Dense {
public:
    explicit Dense(const LocalModel& model)
        : model_(model)
        , solved_(Kriging::solve(systemOf(model)).value()) {}

    /// As `Kriging::estimate`, for many places in one go.
    [[nodiscard]] std::vector<KrigingEstimate> at(const std::vector<Point>& places) const {
        const auto count = static_cast<Eigen::Index>(places.size());
        Eigen::MatrixXd k(static_cast<Eigen::Index>(model_.data.size()), count);
        for (Eigen::Index j = 0; j < count; ++j) {
            k.col(j) = toAll(model_, places[static_cast<std::size_t>(j)]);
        }
        const Eigen::MatrixXd f = model_.drift.at(places);
        const Eigen::VectorXd value = k.transpose() * solved_.alpha() + f * solved_.beta();
        solved_.lower().triangularView<Eigen::Lower>().solveInPlace(k);
        const Eigen::MatrixXd u = f.transpose() - solved_.driftRoot().transpose() * k;
        std::vector<KrigingEstimate> result;
        for (Eigen::Index j = 0; j < count; ++j) {
            result.push_back(
                {.value = value[j],
                 .variance = model_.processVariance - k.col(j).squaredNorm() +
                             u.col(j).dot(solved_.driftCovariance() * u.col(j))});
        }
        return result;
    }

private:
    /// Covariances of a place with all soundings.
    static Eigen::VectorXd toAll(const LocalModel& model, Point place) {
        Eigen::ArrayXd distance(static_cast<Eigen::Index>(model.data.size()));
        for (Eigen::Index i = 0; i < distance.size(); ++i) {
            const Point p = model.data[static_cast<std::size_t>(i)].place;
            distance[i] = std::hypot(p.east - place.east, p.north - place.north);
        }
        Eigen::ArrayXd broad = distance / model.longPart.range;
        Eigen::ArrayXd fine = distance / model.shortPart.range;
        correlate(model.longPart.family, broad);
        correlate(model.shortPart.family, fine);
        return (model.longPart.variance * broad + model.shortPart.variance * fine).matrix();
    }
    static KrigingSystem systemOf(const LocalModel& model) {
        const auto n = static_cast<Eigen::Index>(model.data.size());
        KrigingSystem system;
        system.covariance.resize(n, n);
        system.values.resize(n);
        std::vector<Point> places;
        for (Eigen::Index j = 0; j < n; ++j) {
            const LocalDatum& one = model.data[static_cast<std::size_t>(j)];
            places.push_back(one.place);
            system.values[j] = one.value;
            system.covariance.col(j) = toAll(model, one.place);
            system.covariance(j, j) += one.noise;
        }
        system.drift = model.drift.at(places);
        system.driftPrecision = model.driftPrecision;
        return system;
    }

    const LocalModel& model_;
    Kriging solved_;
};

std::vector<LocalEstimate> along(const LocalBed& bed, const std::vector<Point>& places) {
    return bed
        .at(
            places.size(), [&](std::size_t i) { return places[i]; }, 25.0)
        .value();
}

class BesideTheDense : public ::testing::TestWithParam<Scene> {};

// The bounds are the product's own: within a tenth of the error at 99 places of 100, the error
// within a twentieth, no step from cell to cell of more than a twentieth of it beyond the dense
// one's. Ten metres beyond the soundings on all sides are looked at too.
TEST_P(BesideTheDense, IsNearlyTheSameBedWithNearlyTheSameError) {
    const LocalModel model = modelOf(GetParam());
    const Dense dense(model);
    const LocalBed bed = LocalBed::of(model, usualThreads()).value();
    std::vector<Point> places;
    const double far = GetParam().side + 10.0;
    constexpr double cell = 1.0;
    // Pairs of neighbours, on rows far apart.
    for (double north = -10.0; north <= far; north += 0.047 * far) {
        for (double east = -10.0; east <= far; east += 0.043 * far) {
            places.push_back({east, north});
            places.push_back({east + cell, north});
        }
    }
    const std::vector<LocalEstimate> got = along(bed, places);
    std::vector<double> off;
    std::vector<double> error;
    double step = 0.0;
    const std::vector<KrigingEstimate> wanted = dense.at(places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        const double sigma = std::sqrt(wanted[i].variance);
        off.push_back(std::abs(got[i].value - wanted[i].value) / sigma);
        error.push_back(std::abs(got[i].sigma / sigma - 1.0));
        if (i % 2 == 1) {
            const double jump = std::abs(got[i].value - got[i - 1].value) -
                                std::abs(wanted[i].value - wanted[i - 1].value);
            step = std::max(step, jump / sigma);
        }
    }
    const auto share = static_cast<std::ptrdiff_t>(0.99 * static_cast<double>(off.size()));
    std::nth_element(off.begin(), off.begin() + share, off.end());
    EXPECT_LE(off[static_cast<std::size_t>(share)], 0.1);
    EXPECT_LE(*std::max_element(error.begin(), error.end()), 0.05);
    EXPECT_LE(step, 0.05);
}

INSTANTIATE_TEST_SUITE_P(
    Scenes,
    BesideTheDense,
    ::testing::Values(
        Scene{.name = "FiveMetresApart"},
        Scene{.name = "RoughAndWide", .count = 2100, .shortSigma = 0.3, .longRange = 80.0},
        Scene{.name = "Exact", .count = 2100, .noise = 0.02},
        Scene{.name = "HalfOfThemCrowded", .count = 2100, .crowded = true}),
    [](const ::testing::TestParamInfo<Scene>& scene) { return std::string(scene.param.name); });

TEST(LocalBed, IsTheSameToTheByteForAnyOrderAndAnyNumberOfThreads) {
    LocalModel model = modelOf({.count = 2500});
    LocalModel other = model;
    std::shuffle(other.data.begin(), other.data.end(), std::mt19937_64(2));
    const LocalBed one = LocalBed::of(model, 1).value();
    const LocalBed two = LocalBed::of(other, 3).value();
    std::vector<Point> places;
    for (int i = 0; i < 400; ++i) {
        places.push_back({0.75 * i, 300.0 - 0.6 * i});
    }
    const auto a = along(one, places);
    const auto b = along(two, places);
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_EQ(a[i].value, b[i].value);
        EXPECT_EQ(a[i].sigma, b[i].sigma);
    }
}

TEST(LocalBed, SaysTheSameOfAPlaceAskedAloneOrAmongMany) {
    const LocalBed bed = LocalBed::of(modelOf({.count = 2500}), 2).value();
    std::vector<Point> places;
    for (int i = 0; i < 200; ++i) {
        places.push_back({1.5 * i, 0.7 * i});
    }
    const auto all = along(bed, places);
    for (std::size_t i = 0; i < places.size(); i += 40) {
        const auto alone = along(bed, {places[i]});
        EXPECT_NEAR(alone[0].value, all[i].value, 1e-9);
        EXPECT_NEAR(alone[0].sigma, all[i].sigma, 1e-5);
    }
}

TEST(LocalBed, KnowsWhatIsNearASounding) {
    const LocalBed bed = LocalBed::of(modelOf({.count = 2500}), 2).value();
    const auto got = along(bed, {{150.0, 150.0}, {-24.0, 150.0}, {-80.0, 150.0}, {1e7, 1e7}});
    EXPECT_TRUE(got[0].near);
    EXPECT_FALSE(got[2].near);
    EXPECT_FALSE(got[3].near);
    EXPECT_TRUE(std::isfinite(got[3].value));
    EXPECT_GT(got[2].sigma, 3.0 * got[0].sigma);
}

TEST(LocalBed, StopsWhenAsked) {
    std::stop_source stop;
    const LocalBed bed = LocalBed::of(modelOf({.count = 2500}), 2).value();
    stop.request_stop();
    const auto got = bed.at(
        100, [](std::size_t) { return Point{}; }, 25.0, Progress(stop.get_token()));
    ASSERT_FALSE(got.has_value());
    EXPECT_EQ(got.error().fault, Fault::Cancelled);
}

// Two readings of one cast are off together: their mean is no better than one of them. By hand,
// far from all else: noise 0.1, shared 0.3 m each, bed known to sd 1 beforehand.
TEST(LocalBed, KeepsErrorsThatReadingsShare) {
    LocalModel model = modelOf({.count = 2100});
    for (LocalDatum& datum : model.data) {
        datum.place.east += 10'000.0;
    }
    model.drift = Drift(DriftKind::None, {}, 1.0, 1.0);
    model.driftPrecision.resize(0);
    model.shortPart.variance = 0.0;
    model.longPart.variance = 1.0;
    model.processVariance = 1.0;
    model.shared = {{{0, 0.3}}, {{0, 0.3}}};
    model.data.push_back({.place = {0.0, 0.0}, .value = 0.5, .noise = 0.01, .shared = 0});
    model.data.push_back({.place = {0.0, 0.0}, .value = 0.5, .noise = 0.01, .shared = 1});
    const LocalBed bed = LocalBed::of(model, 2).value();
    const auto got = along(bed, {{0.0, 0.0}});
    const double noise = 0.01 / 2.0 + 0.09;
    EXPECT_NEAR(got[0].value, 0.5 / (1.0 + noise), 1e-6);
    EXPECT_NEAR(got[0].sigma, std::sqrt(1.0 - 1.0 / (1.0 + noise)), 1e-4);
}

} // namespace
} // namespace bedlore
