// SPDX-License-Identifier: MIT
#include "core/bed/drift.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bedlore {

Drift Drift::over(std::span<const Point> places, DriftKind kind, double leastScale) {
    const double n = std::max(1.0, static_cast<double>(places.size()));
    Point centre;
    for (const Point& p : places) {
        centre.east += p.east / n;
        centre.north += p.north / n;
    }
    double square = 0.0;
    for (const Point& p : places) {
        const double east = p.east - centre.east;
        const double north = p.north - centre.north;
        square += (east * east + north * north) / n;
    }
    return {kind, centre, std::max(std::sqrt(square), leastScale)};
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

Eigen::VectorXd Drift::at(Point place) const {
    const double z1 = (place.east - centre_.east) / scale_;
    const double z2 = (place.north - centre_.north) / scale_;
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
    const double z1 = (place.east - centre_.east) / scale_;
    const double z2 = (place.north - centre_.north) / scale_;
    Eigen::Matrix<double, 6, 2> all;
    all << 0.0, 0.0, 1.0, 0.0, 0.0, 1.0, z1, 0.0, z2 / std::numbers::sqrt2,
        z1 / std::numbers::sqrt2, 0.0, z2;
    return all.topRows(size()) / scale_;
}

} // namespace bedlore
