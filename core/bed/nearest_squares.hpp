// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>

#include <utility>
#include <vector>

// How far fixed nodes are from the nearest of places that come and go.

namespace bedlore {

/// Squares of distances [m²] from nodes to the nearest place; infinite without any. All coordinates
/// are from one corner [m]: east in `first`, north in `second`.
class NearestSquares {
public:
    using Place = std::pair<float, float>;

    NearestSquares() = default;
    NearestSquares(Eigen::ArrayXf east, Eigen::ArrayXf north);

    void add(Place place);
    /// Takes `place` out; `others` are all that stay. Looks again only at nodes that nothing else
    /// was nearer to.
    void remove(Place place, const std::vector<Place>& others);

    [[nodiscard]] float operator[](Eigen::Index node) const { return square_[node]; }

private:
    Eigen::ArrayXf east_;
    Eigen::ArrayXf north_;
    Eigen::ArrayXf square_;
};

} // namespace bedlore
