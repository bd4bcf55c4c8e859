// SPDX-License-Identifier: MIT
#include "core/io/import_places.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <variant>

namespace bedlore {

namespace {

template <class Kind>
bool holdsAny(const std::vector<Place>& places) {
    return std::any_of(places.begin(), places.end(), [](const Place& place) {
        return std::holds_alternative<Kind>(place);
    });
}

/// Whether any place of the water is held as a `Kind`.
template <class Kind>
bool waterHolds(const Book& book, const Water& water) {
    const auto isKind = [](const Place& place) { return std::holds_alternative<Kind>(place); };
    for (const ShorePart& part : water.shore) {
        if (holdsAny<Kind>(part.vertices)) {
            return true;
        }
    }
    for (const Swim& swim : book.all<Swim>()) {
        if (swim.water == water.id && isKind(swim.place)) {
            return true;
        }
    }
    for (const Mark& mark : book.all<Mark>()) {
        if (mark.water == water.id && isKind(mark.place)) {
            return true;
        }
    }
    for (const Hazard& hazard : book.all<Hazard>()) {
        if (hazard.water == water.id && holdsAny<Kind>(hazard.vertices)) {
            return true;
        }
    }
    const FixFrame frame =
        std::is_same_v<Kind, GeographicPoint> ? FixFrame::Geographic : FixFrame::Plane;
    for (const FixSet& set : book.all<FixSet>()) {
        if (set.water == water.id && set.frame == frame) {
            return true;
        }
    }
    return false;
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
