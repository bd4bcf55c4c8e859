// SPDX-License-Identifier: MIT
#include "core/bed/drift.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bedlore {

namespace {

// How much farther than its reach a drift goes on changing, as a share of the reach.
constexpr double beyondReach = 0.25;

} // namespace

Drift Drift::over(std::span<const Point> places, DriftKind kind, double leastScale) {
    const double n = std::max(1.0, static_cast<double>(places.size()));
    Point centre;
    for (const Point& p : places) {
        centre.east += p.east / n;
        centre.north += p.north / n;
    }
    double square = 0.0;
    double farthest = 0.0;
    for (const Point& p : places) {
        const double distance = std::hypot(p.east - centre.east, p.north - centre.north);
        square += distance * distance / n;
        farthest = std::max(farthest, distance);
    }
    const double scale = std::max(std::sqrt(square), leastScale);
    return {kind, centre, scale, std::max(farthest, scale)};
}

Eigen::Index Drift::size() const {
    switch (kind_) {
    case DriftKind::None:
        return 0;
    case DriftKind::Constant:
        return 1;
    case DriftKind::Linear:
        return 3;
    case DriftKind::Quadratic:
        break;
    }
    return 6;
}

Eigen::Vector2d Drift::coordinates(Point place) const {
    const Eigen::Vector2d out(place.east - centre_.east, place.north - centre_.north);
    const double distance = out.norm();
    if (distance <= reach_) {
        return out / scale_;
    }
    const double slack = beyondReach * reach_;
    const double held = reach_ + slack * -std::expm1((reach_ - distance) / slack);
    return out * (held / distance / scale_);
}

Eigen::VectorXd Drift::at(Point place) const {
    const Eigen::Vector2d z = coordinates(place);
    const double z1 = z[0];
    const double z2 = z[1];
    Eigen::Vector<double, 6> all;
    all << 1.0, z1, z2, 0.5 * z1 * z1, z1 * z2 / std::numbers::sqrt2, 0.5 * z2 * z2;
    return all.head(size());
}

Eigen::MatrixXd Drift::at(std::span<const Point> places) const {
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(places.size()), size());
    if (rows.cols() == 0) {
        return rows; // a row of nothing has no address to begin at
    }
    for (std::size_t i = 0; i < places.size(); ++i) {
        rows.row(static_cast<Eigen::Index>(i)) = at(places[i]).transpose();
    }
    return rows;
}

Eigen::MatrixX2d Drift::gradient(Point place) const {
    const Eigen::Vector2d z = coordinates(place);
    const double z1 = z[0];
    const double z2 = z[1];
    Eigen::Matrix<double, 6, 2> all;
    all << 0.0, 0.0, 1.0, 0.0, 0.0, 1.0, z1, 0.0, z2 / std::numbers::sqrt2,
        z1 / std::numbers::sqrt2, 0.0, z2;
    return all.topRows(size()) / scale_;
}

} // namespace bedlore
