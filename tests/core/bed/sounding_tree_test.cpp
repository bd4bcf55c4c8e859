// SPDX-License-Identifier: MIT
#include "core/bed/sounding_tree.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace bedlore {
namespace {

constexpr CovariancePart broad{CovarianceFamily::Matern52, 0.64, 40.0};
constexpr CovariancePart fine{CovarianceFamily::Exponential, 0.0225, 6.0};
constexpr CovariancePart none{CovarianceFamily::Exponential, 0.0, 1.0};

std::vector<LocalDatum> scattered(std::size_t count, double side, double noise = 0.01) {
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> along(0.0, side);
    std::vector<LocalDatum> data;
    for (std::size_t i = 0; i < count; ++i) {
        LocalDatum datum;
        datum.place = {along(random), along(random)};
        datum.value = 0.01 * datum.place.east - 0.02 * datum.place.north;
        datum.noise = noise;
        data.push_back(datum);
    }
    return data;
}

TEST(WithinSquare, IsNothingInAPointAndGrowsWithTheSquare) {
    const WithinSquare within(broad, fine);
    EXPECT_NEAR(within.variance(0.0), 0.0, 1e-15);
    EXPECT_LT(within.variance(1.0), within.variance(2.0));
    EXPECT_LT(within.variance(2.0), within.variance(8.0));
}

// By hand: where C(0) − C(h) is nearly linear, slope v/l, twice the mean distance to the middle
// less the mean distance between two places counts. For a square of side 1 these are 0.3826 and
// 0.5214 (Mathai, Moschopoulos & Pederzoli 1999, for the second), so v/l · 0.2438 a metre.
TEST(WithinSquare, AgreesWithTheMeanDistancesOfASquare) {
    const CovariancePart rough{CovarianceFamily::Exponential, 1.0, 1000.0};
    EXPECT_NEAR(WithinSquare(none, rough).variance(1.0), 0.2438e-3, 0.012e-3);
}

TEST(SoundingTree, HoldsEverySoundingOnce) {
    const std::vector<LocalDatum> data = scattered(500, 100.0);
    const SoundingTree tree(data, {}, WithinSquare(broad, fine), 100'000);
    ASSERT_EQ(tree.data().size(), 500U);
    std::vector<int> seen(500, 0);
    for (const SoundingTree::Node& node : tree.nodes()) {
        for (std::uint32_t i = node.begin; node.children == 0 && i < node.begin + node.count; ++i) {
            ++seen[i];
        }
    }
    EXPECT_EQ(std::count(seen.begin(), seen.end(), 1), 500);
}

TEST(SoundingTree, IsTheSameWhateverTheOrder) {
    std::vector<LocalDatum> data = scattered(300, 50.0);
    const SoundingTree tree(data, {}, WithinSquare(broad, fine), 100);
    std::shuffle(data.begin(), data.end(), std::mt19937_64(3));
    const SoundingTree other(data, {}, WithinSquare(broad, fine), 100);
    ASSERT_EQ(tree.nodes().size(), other.nodes().size());
    for (std::size_t i = 0; i < tree.nodes().size(); ++i) {
        EXPECT_EQ(tree.nodes()[i].place, other.nodes()[i].place);
        EXPECT_EQ(tree.nodes()[i].value, other.nodes()[i].value);
        EXPECT_EQ(tree.nodes()[i].noise, other.nodes()[i].noise);
    }
}

TEST(SoundingTree, TakesTogetherWhatLiesCloseAndNothingElse) {
    // Two 1 cm apart, noise 0.1 m, and one 10 m away. By hand: their mean has variance 0.01/2.
    std::vector<LocalDatum> data(3);
    data[0] = {.place = {0.0, 0.0}, .value = 1.0, .noise = 0.01};
    data[1] = {.place = {0.01, 0.0}, .value = 1.2, .noise = 0.01};
    data[2] = {.place = {10.0, 3.0}, .value = 2.0, .noise = 0.01};
    const SoundingTree tree(data, {}, WithinSquare(broad, fine), 100);
    EXPECT_EQ(tree.itemCount(), 2U);
    const auto pair =
        std::find_if(tree.nodes().begin(), tree.nodes().end(), [](const SoundingTree::Node& node) {
            return node.children == 0 && node.count == 2;
        });
    ASSERT_NE(pair, tree.nodes().end());
    EXPECT_NEAR(pair->value, 1.1, 1e-12);
    EXPECT_NEAR(pair->noise, 0.005, 1e-9);
    EXPECT_NEAR(pair->place.east, 0.005, 1e-12);
}

TEST(SoundingTree, NeverTakesReadingsWithSharedErrorsTogetherUnasked) {
    std::vector<LocalDatum> data(2);
    data[0] = {.place = {0.0, 0.0}, .value = 1.0, .noise = 0.01, .shared = 0};
    data[1] = {.place = {0.01, 0.0}, .value = 1.2, .noise = 0.01, .shared = 1};
    const std::vector<double> shared{0.04, 0.04};
    EXPECT_EQ(SoundingTree(data, shared, WithinSquare(broad, fine), 1).itemCount(), 2U);
}

TEST(SoundingTree, TakesMoreTogetherWhereThereWouldBeTooMany) {
    const SoundingTree tree(scattered(4000, 100.0), {}, WithinSquare(broad, fine), 1000);
    EXPECT_LE(tree.itemCount(), 1000U);
    EXPECT_GT(tree.itemCount(), 200U);
    const SoundingTree free(scattered(4000, 100.0), {}, WithinSquare(broad, fine), 4000);
    EXPECT_GT(free.itemCount(), 3900U);
}

TEST(SoundingTree, BearsMoreThanOneDepthAtOnePlace) {
    std::vector<LocalDatum> data(7, {.place = {5.0, 5.0}, .value = 1.0, .noise = 0.01});
    const SoundingTree tree(data, {}, WithinSquare(broad, fine), 100);
    EXPECT_EQ(tree.itemCount(), 1U);
    EXPECT_NEAR(tree.nodes().front().noise, 0.01 / 7.0, 1e-9);
}

TEST(SoundingTree, CutsStandForEverything) {
    const SoundingTree tree(scattered(2000, 100.0), {}, WithinSquare(broad, fine), 100'000);
    for (const std::size_t most : {1U, 10U, 300U, 5000U}) {
        std::size_t count = 0;
        const std::vector<std::uint32_t> cut = tree.cut(most);
        EXPECT_LE(cut.size(), most);
        for (const std::uint32_t node : cut) {
            count += tree.nodes()[node].count;
        }
        EXPECT_EQ(count, 2000U);
    }
}

TEST(SoundingTree, FindsTheNearestAsABruteSearchDoes) {
    const SoundingTree tree(scattered(800, 100.0), {}, WithinSquare(broad, fine), 200);
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> along(-30.0, 130.0);
    for (int i = 0; i < 300; ++i) {
        const Point p{along(random), along(random)};
        double least = 25.0;
        for (const LocalDatum& datum : tree.data()) {
            least =
                std::min(least, std::hypot(datum.place.east - p.east, datum.place.north - p.north));
        }
        EXPECT_EQ(tree.nearest(p, 25.0), least);
    }
}

} // namespace
} // namespace bedlore
