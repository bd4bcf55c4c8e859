// SPDX-License-Identifier: MIT
#include "core/geometry/triangulation.hpp"

#include "core/base/contract.hpp"
#include "core/geometry/polygon.hpp"

#include <cpl_error.h>
#include <gdal_alg.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <tuple>
#include <utility>

namespace bedlore {

namespace {

struct Vertices {
    std::vector<double> x;
    std::vector<double> y;
    std::vector<double> value;
};

/// Distinct places with the mean of their values, about `centre` so that large coordinates cost no
/// digits.
Vertices distinct(std::span<const Point> places, std::span<const double> values, Point centre) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (std::isfinite(places[i].east) && std::isfinite(places[i].north) &&
            std::isfinite(values[i])) {
            order.push_back(i);
        }
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(places[a].east, places[a].north) <
               std::pair(places[b].east, places[b].north);
    });
    Vertices vertices;
    for (std::size_t first = 0; first < order.size();) {
        std::size_t last = first;
        double sum = 0.0;
        while (last < order.size() && places[order[last]] == places[order[first]]) {
            sum += values[order[last++]];
        }
        vertices.x.push_back(places[order[first]].east - centre.east);
        vertices.y.push_back(places[order[first]].north - centre.north);
        vertices.value.push_back(sum / static_cast<double>(last - first));
        first = last;
    }
    return vertices;
}

/// Places on one line, or as good as on one: the triangulation would complain on standard error.
bool spanATriangle(const Vertices& vertices) {
    constexpr double thinnest = 1e-12; // area of the hull by the square of its way round
    std::vector<Point> places;
    places.reserve(vertices.x.size());
    for (std::size_t i = 0; i < vertices.x.size(); ++i) {
        places.push_back({vertices.x[i], vertices.y[i]});
    }
    const Ring hull = convexHull(places);
    return std::abs(signedArea(hull)) > thinnest * std::pow(perimeter(hull), 2);
}

} // namespace

class TriangulatedSurface::Triangles {
public:
    Triangles(Vertices vertices, Point centre)
        : vertices_(std::move(vertices))
        , centre_(centre) {
        BEDLORE_EXPECTS(
            vertices_.x.size() <= static_cast<std::size_t>(std::numeric_limits<int>::max()));
        CPLPushErrorHandler(CPLQuietErrorHandler);
        triangles_ = GDALTriangulationCreateDelaunay(
            static_cast<int>(vertices_.x.size()), vertices_.x.data(), vertices_.y.data());
        CPLPopErrorHandler();
        if (triangles_ != nullptr) {
            GDALTriangulationComputeBarycentricCoefficients(
                triangles_, vertices_.x.data(), vertices_.y.data());
        }
    }
    Triangles(const Triangles&) = delete;
    Triangles& operator=(const Triangles&) = delete;
    ~Triangles() {
        if (triangles_ != nullptr) {
            GDALTriangulationFree(triangles_);
        }
    }

    [[nodiscard]] bool empty() const { return triangles_ == nullptr || triangles_->nFacets == 0; }

    /// The search begins at facet `near`, which is then the one that was found.
    [[nodiscard]] std::pair<std::optional<double>, int> at(Point place, int near) const {
        const double x = place.east - centre_.east;
        const double y = place.north - centre_.north;
        int facet = near;
        if (!std::isfinite(x) || !std::isfinite(y) ||
            GDALTriangulationFindFacetDirected(triangles_, near, x, y, &facet) == 0) {
            return {std::nullopt, std::max(facet, 0)};
        }
        double a = 0.0;
        double b = 0.0;
        double c = 0.0;
        GDALTriangulationComputeBarycentricCoordinates(triangles_, facet, x, y, &a, &b, &c);
        const int* corners = triangles_->pasFacets[facet].anVertexIdx;
        return {a * value(corners[0]) + b * value(corners[1]) + c * value(corners[2]), facet};
    }

private:
    [[nodiscard]] double value(int vertex) const {
        return vertices_.value[static_cast<std::size_t>(vertex)];
    }

    Vertices vertices_;
    Point centre_;
    GDALTriangulation* triangles_ = nullptr;
};

TriangulatedSurface::TriangulatedSurface(
    std::span<const Point> places, std::span<const double> values) {
    BEDLORE_EXPECTS(places.size() == values.size());
    const auto finite = [](Point p) { return std::isfinite(p.east) && std::isfinite(p.north); };
    const auto first = std::find_if(places.begin(), places.end(), finite);
    if (first == places.end()) {
        return;
    }
    Vertices vertices = distinct(places, values, *first);
    if (!spanATriangle(vertices)) {
        return;
    }
    auto triangles = std::make_shared<const Triangles>(std::move(vertices), *first);
    if (!triangles->empty()) {
        triangles_ = std::move(triangles);
    }
}

std::optional<double> TriangulatedSurface::at(Point place) const {
    return empty() ? std::nullopt : triangles_->at(place, 0).first;
}

std::vector<std::optional<double>> TriangulatedSurface::at(std::span<const Point> places) const {
    std::vector<std::optional<double>> values(places.size());
    int facet = 0;
    for (std::size_t i = 0; i < places.size() && !empty(); ++i) {
        std::tie(values[i], facet) = triangles_->at(places[i], facet);
    }
    return values;
}

} // namespace bedlore
