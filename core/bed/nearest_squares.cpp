// SPDX-License-Identifier: MIT
#include "core/bed/nearest_squares.hpp"

#include <algorithm>
#include <limits>

namespace bedlore {

namespace {
constexpr float nowhere = std::numeric_limits<float>::infinity();
} // namespace

NearestSquares::NearestSquares(Eigen::ArrayXf east, Eigen::ArrayXf north)
    : east_(std::move(east))
    , north_(std::move(north))
    , square_(Eigen::ArrayXf::Constant(east_.size(), nowhere)) {}

void NearestSquares::add(Place place) {
    square_ = square_.min((east_ - place.first).square() + (north_ - place.second).square());
}

void NearestSquares::remove(Place place, const std::vector<Place>& others) {
    constexpr float rounding = 1e-5F; // of a square, more than two ways of summing it differ by
    for (Eigen::Index node = 0; node < square_.size(); ++node) {
        const auto squareTo = [&](Place other) {
            const float x = east_[node] - other.first;
            const float y = north_[node] - other.second;
            return x * x + y * y;
        };
        if (squareTo(place) > square_[node] * (1.0F + rounding) + rounding) {
            continue;
        }
        float nearest = nowhere;
        for (const Place& other : others) {
            nearest = std::min(nearest, squareTo(other));
        }
        square_[node] = nearest;
    }
}

} // namespace bedlore
