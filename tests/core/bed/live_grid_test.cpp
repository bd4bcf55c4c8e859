// SPDX-License-Identifier: MIT
#include "core/bed/covariance.hpp"
#include "core/bed/live_grid.hpp"

#include <Eigen/Cholesky>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace bedlore {
namespace {

using Index = Eigen::Index;

/// Data at places of a line with a known covariance, and nodes between them.
class Line {
public:
    explicit Line(Index nodes)
        : nodes_(Eigen::VectorXd::LinSpaced(nodes, 0.0, 100.0)) {}

    struct Datum {
        double place = 0.0;
        double value = 0.0;
        double noise = 0.1; // sigma
    };

    [[nodiscard]] double covariance(double a, double b) const {
        return covarianceAt(part_, std::abs(a - b));
    }
    [[nodiscard]] Eigen::VectorXd prior() const {
        return Eigen::VectorXd::Constant(nodes_.size(), part_.variance);
    }
    [[nodiscard]] LiveDatum asLive(const std::vector<Datum>& before, const Datum& datum) const {
        LiveDatum live;
        live.toData.resize(static_cast<Index>(before.size()));
        for (std::size_t i = 0; i < before.size(); ++i) {
            live.toData[static_cast<Index>(i)] = covariance(before[i].place, datum.place);
        }
        live.own = part_.variance + datum.noise * datum.noise;
        live.toNodes.resize(nodes_.size());
        for (Index i = 0; i < nodes_.size(); ++i) {
            live.toNodes[i] = static_cast<float>(covariance(nodes_[i], datum.place));
        }
        live.values = Eigen::RowVectorXd::Constant(1, datum.value);
        return live;
    }
    /// Largest differences from the textbook's formulas (Rasmussen & Williams 2006, 2.25 and 2.26),
    /// solved anew in double.
    void expectAsFromScratch(const LiveGrid& grid, const std::vector<Datum>& data) const {
        const auto n = static_cast<Index>(data.size());
        Eigen::MatrixXd K(n, n);
        Eigen::MatrixXd k(n, nodes_.size());
        Eigen::VectorXd y(n);
        for (Index i = 0; i < n; ++i) {
            const Datum& a = data[static_cast<std::size_t>(i)];
            for (Index j = 0; j < n; ++j) {
                K(i, j) = covariance(a.place, data[static_cast<std::size_t>(j)].place);
            }
            K(i, i) += a.noise * a.noise;
            for (Index j = 0; j < nodes_.size(); ++j) {
                k(i, j) = covariance(a.place, nodes_[j]);
            }
            y[i] = a.value;
        }
        const Eigen::LLT<Eigen::MatrixXd> factor(K);
        const Eigen::VectorXd mean = k.transpose() * factor.solve(y);
        const Eigen::VectorXd variance =
            prior() - (k.array() * factor.solve(k).array()).colwise().sum().transpose().matrix();
        ASSERT_EQ(grid.dataCount(), n);
        // Float covariances of about 1 m² carry 6e-8; over a hundred sums of them.
        EXPECT_LE((grid.means().col(0) - mean).cwiseAbs().maxCoeff(), 5e-5);
        EXPECT_LE((grid.variance() - variance).cwiseAbs().maxCoeff(), 5e-5);
    }

private:
    CovariancePart part_{CovarianceFamily::Matern52, 1.5, 12.0};
    Eigen::VectorXd nodes_;
};

std::vector<Line::Datum> randomData(std::size_t count) {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> place(0.0, 100.0);
    std::normal_distribution<double> noise(0.0, 0.1);
    std::vector<Line::Datum> data;
    for (std::size_t i = 0; i < count; ++i) {
        const double at = place(random);
        data.push_back({.place = at, .value = std::sin(at / 15.0) + noise(random)});
    }
    return data;
}

LiveGrid gridOf(const Line& line, const std::vector<Line::Datum>& data, int threads = 1) {
    LiveGrid grid(line.prior(), 1, threads);
    std::vector<Line::Datum> before;
    for (const Line::Datum& datum : data) {
        EXPECT_TRUE(grid.add(line.asLive(before, datum)));
        before.push_back(datum);
    }
    return grid;
}

TEST(LiveGrid, WithoutDataIsThePrior) {
    const Line line(9);
    const LiveGrid grid(line.prior(), 1);
    EXPECT_EQ(grid.means(), Eigen::MatrixXd::Zero(9, 1));
    EXPECT_EQ(grid.variance(), line.prior());
}

TEST(LiveGrid, OneDatumByHand) {
    // By hand: variance 1.5, noise 0.5: at the datum the mean is 1.5/1.75 of it and the variance
    // 1.5 − 1.5²/1.75 = 0.2143.
    const Line line(2); // nodes at 0 and 100
    const LiveGrid grid = gridOf(line, {{.place = 0.0, .value = 2.0, .noise = 0.5}});
    EXPECT_NEAR(grid.means()(0, 0), 2.0 * 1.5 / 1.75, 1e-6);
    EXPECT_NEAR(grid.variance()[0], 1.5 - 2.25 / 1.75, 1e-6);
    EXPECT_NEAR(grid.means()(1, 0), 0.0, 1e-4);
}

TEST(LiveGrid, GrowsToTheSameAsFromScratch) {
    const Line line(1300); // three tiles, the last not full
    const auto data = randomData(150);
    line.expectAsFromScratch(gridOf(line, data), data);
}

TEST(LiveGrid, ShrinksToTheSameAsFromScratchWhereverItIsTaken) {
    const Line line(700);
    for (const std::size_t gone : {std::size_t{0}, std::size_t{37}, std::size_t{79}}) {
        auto data = randomData(80);
        LiveGrid grid = gridOf(line, data);
        grid.remove(static_cast<Index>(gone));
        data.erase(data.begin() + static_cast<std::ptrdiff_t>(gone));
        line.expectAsFromScratch(grid, data);
    }
}

TEST(LiveGrid, IsThePriorAgainWhenAllIsTaken) {
    const Line line(50);
    LiveGrid grid = gridOf(line, randomData(20));
    while (grid.dataCount() > 0) {
        grid.remove(0);
    }
    EXPECT_LE(grid.means().cwiseAbs().maxCoeff(), 1e-5);
    EXPECT_LE((grid.variance() - line.prior()).cwiseAbs().maxCoeff(), 1e-5);
}

TEST(LiveGrid, TwoHundredRandomChangesEndAsFromScratch) {
    const Line line(600);
    const auto pool = randomData(260);
    std::vector<Line::Datum> data(pool.begin(), pool.begin() + 60);
    LiveGrid grid = gridOf(line, data, 2);
    std::mt19937 random(5);
    std::size_t next = 60;
    for (int change = 0; change < 200; ++change) {
        const bool grows = data.size() < 30 || (data.size() < 90 && random() % 2 == 0);
        if (grows) {
            const Line::Datum& datum = pool[next++];
            ASSERT_TRUE(grid.add(line.asLive(data, datum)));
            data.push_back(datum);
        } else {
            const std::size_t gone = random() % data.size();
            grid.remove(static_cast<Index>(gone));
            data.erase(data.begin() + static_cast<std::ptrdiff_t>(gone));
        }
    }
    line.expectAsFromScratch(grid, data);
}

TEST(LiveGrid, RefusesAnExactRepeatWithoutNoiseAndStaysAsItWas) {
    const Line line(40);
    std::vector<Line::Datum> data{{.place = 10.0, .value = 1.0, .noise = 0.0}};
    LiveGrid grid = gridOf(line, data);
    const Eigen::MatrixXd means = grid.means();
    EXPECT_FALSE(grid.add(line.asLive(data, data[0])));
    EXPECT_EQ(grid.dataCount(), 1);
    EXPECT_EQ(grid.means(), means);
}

TEST(LiveGrid, GivesTheSameBytesForAnyThreads) {
    const Line line(1300);
    const auto data = randomData(60);
    EXPECT_EQ(gridOf(line, data, 1).means(), gridOf(line, data, 3).means());
}

} // namespace
} // namespace bedlore
