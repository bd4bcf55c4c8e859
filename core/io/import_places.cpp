// SPDX-License-Identifier: MIT
#include "core/io/import_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <type_traits>
#include <variant>

namespace bedlore {

namespace {

template <class Kind>
bool holdsAny(const std::vector<Place>& places) {
    return std::any_of(places.begin(), places.end(), [](const Place& place) {
        return std::holds_alternative<Kind>(place);
    });
}

/// Whether `holds` of any record of its type that belongs to the water.
template <class Record, class Holds>
bool anyOfWater(const Book& book, const Water& water, const Holds& holds) {
    const auto& all = book.all<Record>();
    return std::any_of(all.begin(), all.end(), [&](const Record& record) {
        return record.water == water.id && holds(record);
    });
}

/// Whether any place of the water is held as a `Kind`.
template <class Kind>
bool waterHolds(const Book& book, const Water& water) {
    const auto atPlace = [](const auto& record) {
        return std::holds_alternative<Kind>(record.place);
    };
    const auto atVertices = [](const auto& shape) { return holdsAny<Kind>(shape.vertices); };
    const auto inFrame = [](const FixSet& set) {
        return set.frame ==
               (std::is_same_v<Kind, GeographicPoint> ? FixFrame::Geographic : FixFrame::Plane);
    };
    return std::any_of(water.shore.begin(), water.shore.end(), atVertices) ||
           anyOfWater<Swim>(book, water, atPlace) || anyOfWater<Mark>(book, water, atPlace) ||
           anyOfWater<Hazard>(book, water, atVertices) || anyOfWater<FixSet>(book, water, inFrame);
}

double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

} // namespace

std::optional<std::string>
whyPlacesDoNotFit(const Book& book, const Water& water, bool geographic) {
    if (water.planeOrigin) {
        return std::nullopt;
    }
    if (geographic && waterHolds<Point>(book, water)) {
        return "metres east and north: the places of " + water.name +
               " are in metres, and where it lies on the earth is not known";
    }
    if (!geographic && waterHolds<GeographicPoint>(book, water)) {
        return "latitude and longitude, as the other places of " + water.name + " have";
    }
    return std::nullopt;
}

bool hasPosition(const Water& water) {
    return water.planeOrigin.has_value() || water.position.has_value();
}

Length roughDistance(GeographicPoint a, GeographicPoint b) {
    // Symbols: phi latitude, lambda longitude [rad]. Haversine formula.
    constexpr double radians = std::numbers::pi / 180.0;
    constexpr double earthRadius = 6'371'000.0;
    const double dPhi = (b.latitude - a.latitude) * radians;
    const double dLambda = (b.longitude - a.longitude) * radians;
    const double h = std::pow(std::sin(dPhi / 2.0), 2) + std::cos(a.latitude * radians) *
                                                             std::cos(b.latitude * radians) *
                                                             std::pow(std::sin(dLambda / 2.0), 2);
    return 2.0 * earthRadius * std::asin(std::min(1.0, std::sqrt(h))) * metre;
}

GeographicPoint medianPlace(const std::vector<GeographicPoint>& places) {
    std::vector<double> latitudes;
    std::vector<double> longitudes;
    for (const GeographicPoint& place : places) {
        latitudes.push_back(place.latitude);
        longitudes.push_back(place.longitude);
    }
    return {.latitude = median(std::move(latitudes)), .longitude = median(std::move(longitudes))};
}

} // namespace bedlore
