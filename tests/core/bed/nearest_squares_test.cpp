// SPDX-License-Identifier: MIT
#include "core/bed/nearest_squares.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace bedlore {
namespace {

using Place = NearestSquares::Place;

struct Nodes {
    Eigen::ArrayXf east{37 * 23};
    Eigen::ArrayXf north{37 * 23};
    Nodes() {
        for (Eigen::Index i = 0; i < north.size(); ++i) {
            east[i] = static_cast<float>(i % 37);
            north[i] = static_cast<float>(-(i / 37));
        }
    }
};

TEST(NearestSquares, AreInfiniteWithoutAnyPlace) {
    const Nodes nodes;
    NearestSquares squares(nodes.east, nodes.north);
    EXPECT_TRUE(std::isinf(squares[5]));
    squares.add({3.0F, -4.0F});
    EXPECT_EQ(squares[0], 25.0F); // by hand: 3² + 4²
    squares.remove({3.0F, -4.0F}, {});
    EXPECT_TRUE(std::isinf(squares[5]));
}

// Source: looking at every place for every node.
TEST(NearestSquares, StayTrueWhateverComesAndGoes) {
    const Nodes nodes;
    NearestSquares squares(nodes.east, nodes.north);
    constexpr unsigned seed = 5;
    SCOPED_TRACE(seed);
    std::mt19937 random(seed);
    std::uniform_real_distribution<float> east(-5.0F, 40.0F);
    std::uniform_real_distribution<float> north(-28.0F, 5.0F);
    std::vector<Place> places;
    for (int step = 0; step < 200; ++step) {
        if (places.size() < 3 || random() % 3 != 0) {
            // Now and then the same place twice.
            places.push_back(
                random() % 8 == 0 && !places.empty() ? places.front()
                                                     : Place{east(random), north(random)});
            squares.add(places.back());
        } else {
            const std::size_t which = random() % places.size();
            const Place gone = places[which];
            places.erase(places.begin() + static_cast<std::ptrdiff_t>(which));
            squares.remove(gone, places);
        }
        for (Eigen::Index node = 0; node < nodes.east.size(); node += 7) {
            float nearest = INFINITY;
            for (const Place& p : places) {
                const float x = nodes.east[node] - p.first;
                const float y = nodes.north[node] - p.second;
                nearest = std::min(nearest, x * x + y * y);
            }
            ASSERT_FLOAT_EQ(squares[node], nearest) << step;
        }
    }
}

} // namespace
} // namespace bedlore
