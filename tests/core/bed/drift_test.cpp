// SPDX-License-Identifier: MIT
#include "core/bed/drift.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace bedlore {
namespace {

// Mean square distance from the middle (0, 0): 2 (40² + 30²) / 4 = 1250, so the scale is 35.355 m;
// the farthest places are 40 m out.
const std::vector<Point> places{{40.0, 0.0}, {-40.0, 0.0}, {0.0, 30.0}, {0.0, -30.0}};

Drift bowl() {
    return Drift::over(places, DriftKind::Quadratic, 1.0);
}

TEST(Drift, IsAPolynomialInScaledPlaceWithinItsReach) {
    const Drift drift = bowl();
    EXPECT_NEAR(drift.scale(), std::sqrt(1250.0), 1e-12);
    const double z1 = 24.0 / std::sqrt(1250.0);
    const double z2 = -32.0 / std::sqrt(1250.0); // exactly 40 m out
    Eigen::Vector<double, 6> byHand;
    byHand << 1.0, z1, z2, z1 * z1 / 2.0, z1 * z2 / std::sqrt(2.0), z2 * z2 / 2.0;
    EXPECT_LE((drift.at(Point{24.0, -32.0}) - byHand).cwiseAbs().maxCoeff(), 1e-12);
}

TEST(Drift, FlattensBeyondItsReachAndNeverLeavesAQuarterMore) {
    const Drift drift = bowl();
    const auto out = [&](double east) { return drift.at(Point{east, 0.0})[1] * drift.scale(); };
    EXPECT_NEAR(out(40.0), 40.0, 1e-12);
    // By hand: 40 + 10 (1 − e^(−(45 − 40)/10)) = 43.9347.
    EXPECT_NEAR(out(45.0), 43.93469340287367, 1e-9);
    EXPECT_NEAR(out(1e6), 50.0, 1e-9);
    for (double east = 40.0; east < 120.0; east += 1.0) {
        EXPECT_GT(out(east + 1.0), out(east));
    }
}

TEST(Drift, BendsWithoutAKinkAtItsReach) {
    const Drift drift = bowl();
    const double step = 1e-4;
    for (const double angle : {0.0, 0.7, 2.4}) {
        const auto at = [&](double distance) -> Eigen::VectorXd {
            return drift.at(Point{distance * std::sin(angle), distance * std::cos(angle)});
        };
        const Eigen::VectorXd within = (at(40.0) - at(40.0 - step)) / step;
        const Eigen::VectorXd beyond = (at(40.0 + step) - at(40.0)) / step;
        EXPECT_LE((within - beyond).cwiseAbs().maxCoeff(), 1e-5);
    }
}

TEST(Drift, GradientIsTheDerivative) {
    const Drift drift = bowl();
    const Point place{11.0, -23.0};
    const double step = 1e-4;
    const Eigen::VectorXd east = (drift.at(Point{place.east + step, place.north}) -
                                  drift.at(Point{place.east - step, place.north})) /
                                 (2.0 * step);
    const Eigen::VectorXd north = (drift.at(Point{place.east, place.north + step}) -
                                   drift.at(Point{place.east, place.north - step})) /
                                  (2.0 * step);
    EXPECT_LE((drift.gradient(place).col(0) - east).cwiseAbs().maxCoeff(), 1e-8);
    EXPECT_LE((drift.gradient(place).col(1) - north).cwiseAbs().maxCoeff(), 1e-8);
}

} // namespace
} // namespace bedlore
