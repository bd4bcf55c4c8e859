// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/geometry/polygon.hpp"
#include "core/io/told_plane.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Features as RFC 7946 text.

namespace bedlore {

/// The geometry of a feature in JSON, longitude before latitude, seven decimals (about a
/// centimetre). `null` for nothing.
class GeoJsonGeometry {
public:
    explicit GeoJsonGeometry(const ToldPlane& plane)
        : plane_(plane) {}

    [[nodiscard]] std::string point(Point place) const;
    /// Empty when all vertices fall on one place.
    [[nodiscard]] std::optional<std::string> line(std::vector<Point> vertices, bool closed) const;
    /// Rings by the right-hand rule, none crossing itself or another after rounding. Empty when
    /// nothing is left of the areas.
    [[nodiscard]] std::optional<std::string> areas(const std::vector<Polygon>& polygons) const;

private:
    const ToldPlane& plane_;
};

/// The properties of a feature, in the order in which they are added.
class GeoJsonProperties {
public:
    explicit GeoJsonProperties(std::string_view kind) { text("kind", kind); }

    GeoJsonProperties& text(std::string_view key, std::string_view value);
    /// Null where it is empty or not finite; at most four decimals.
    GeoJsonProperties& number(std::string_view key, std::optional<double> value);
    GeoJsonProperties& textOrNull(std::string_view key, const std::optional<std::string>& value);

    [[nodiscard]] std::string json() const { return "{" + members_ + "}"; }

private:
    void add(std::string_view key, std::string_view value);
    std::string members_;
};

/// One feature; `geometry` is JSON.
[[nodiscard]] std::string
geoJsonFeature(const GeoJsonProperties& properties, std::string_view geometry);

/// A JSON string with its quotes.
[[nodiscard]] std::string jsonString(std::string_view text);

} // namespace bedlore
