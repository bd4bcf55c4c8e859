// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/geodesy/geographic_point.hpp"
#include "core/geometry/point.hpp"
#include "core/units/bearing.hpp"

#include <memory>
#include <optional>
#include <string>
#include <vector>

// The water's plane: latitude and longitude to metres east and north, and back.

namespace bedlore {

struct NeutralPlane;

/// A transverse Mercator plane on WGS 84 (scale 1 on the meridian of its origin), or a plane
/// without origin for a water whose position nobody knows. A value; copies share the projection.
/// Safe to use from several threads at once. Accuracy better than 0.1 mm within 10 km of the
/// origin.
class LocalFrame {
public:
    /// Fails when the origin is not on the earth or the projection library has no data.
    [[nodiscard]] static Result<LocalFrame> atOrigin(GeographicPoint origin);
    [[nodiscard]] static LocalFrame withoutOrigin();

    [[nodiscard]] bool hasOrigin() const { return origin_.has_value(); }
    [[nodiscard]] const std::optional<GeographicPoint>& origin() const { return origin_; }

    /// Only with an origin.
    [[nodiscard]] Point toPlane(GeographicPoint place) const;
    [[nodiscard]] GeographicPoint toGeographic(Point place) const;

    /// Angle from true north to the plane's north at `place`, clockwise positive; zero without
    /// origin. Plane bearing = true bearing − convergence.
    [[nodiscard]] Angle convergence(Point place) const;
    [[nodiscard]] PlaneBearing toPlane(Bearing bearing, Point place) const {
        return PlaneBearing(bearing.clockwise() - convergence(place));
    }
    [[nodiscard]] Bearing toTrue(PlaneBearing bearing, Point place) const {
        return Bearing(bearing.clockwise() + convergence(place));
    }

    /// The plane's coordinate reference system as WKT (2019): a projected one, or an engineering
    /// one without origin. `falseOrigin` [m] is what a file's coordinates are too large by.
    [[nodiscard]] std::string wkt(Point falseOrigin = {}) const;

    /// This plane's origin lies a few steps from where he stands. The neutral one has its origin at
    /// a whole hundredth of a degree, so that it says no more than which water it is. Its shift is
    /// exact at `centre` to a millimetre; the planes' norths differ by less than 0.005°, which is
    /// 1 cm at 120 m from it. Only with an origin.
    [[nodiscard]] NeutralPlane neutralAbout(Point centre) const;

private:
    class Projection;
    LocalFrame() = default;

    std::optional<GeographicPoint> origin_;
    std::shared_ptr<const Projection> projection_;
};

/// A plane for others, and what to add to a water's coordinates to be in it [m].
struct NeutralPlane {
    LocalFrame plane;
    Point shift;

    [[nodiscard]] GeographicPoint toGeographic(Point place) const {
        return plane.toGeographic({place.east + shift.east, place.north + shift.north});
    }
};

/// The mean of `places` rounded to 1e-4°: where a water's plane gets its origin. `places` must not
/// be empty.
[[nodiscard]] GeographicPoint planeOriginFor(const std::vector<GeographicPoint>& places);

} // namespace bedlore
