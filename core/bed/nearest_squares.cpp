// SPDX-License-Identifier: MIT
#include "core/bed/nearest_squares.hpp"

#include <limits>
#include <tuple>

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
    Eigen::ArrayXf otherEast(static_cast<Eigen::Index>(others.size()));
    Eigen::ArrayXf otherNorth(otherEast.size());
    for (Eigen::Index i = 0; i < otherEast.size(); ++i) {
        std::tie(otherEast[i], otherNorth[i]) = others[static_cast<std::size_t>(i)];
    }
    for (Eigen::Index node = 0; node < square_.size(); ++node) {
        const float east = east_[node] - place.first;
        const float north = north_[node] - place.second;
        if (east * east + north * north > square_[node] * (1.0F + rounding) + rounding) {
            continue;
        }
        const auto toEast = (otherEast - east_[node]).square();
        const auto toNorth = (otherNorth - north_[node]).square();
        square_[node] = others.empty() ? nowhere : (toEast + toNorth).minCoeff();
    }
}

} // namespace bedlore
