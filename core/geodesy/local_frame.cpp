// SPDX-License-Identifier: MIT
#include "core/geodesy/local_frame.hpp"

#include "core/base/contract.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <numbers>
#include <proj.h>
#include <string_view>
#include <utility>

namespace bedlore {

namespace {

constexpr double radiansPerDegree = std::numbers::pi / 180.0;

std::string number(double value) {
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
    return {buffer.data(), end};
}

/// The projection library's objects, which one thread at a time may use.
class Engine {
public:
    explicit Engine(std::string definition)
        : definition_(std::move(definition))
        , context_(proj_context_create()) {
        proj_context_set_enable_network(context_, 0);
        proj_log_level(context_, PJ_LOG_NONE);
        projection_ = proj_create(context_, definition_.c_str());
    }
    Engine(const Engine&) = delete;
    Engine& operator=(const Engine&) = delete;
    ~Engine() {
        proj_destroy(projection_);
        proj_context_destroy(context_);
    }

    [[nodiscard]] const std::string& definition() const { return definition_; }
    [[nodiscard]] bool works() const { return projection_ != nullptr; }

    [[nodiscard]] Point forward(GeographicPoint place) const {
        const PJ_COORD xy = proj_trans(projection_, PJ_FWD, radians(place));
        return {xy.xy.x, xy.xy.y};
    }
    [[nodiscard]] GeographicPoint inverse(Point place) const {
        const PJ_COORD lp =
            proj_trans(projection_, PJ_INV, proj_coord(place.east, place.north, 0.0, 0.0));
        return {lp.lp.phi / radiansPerDegree, lp.lp.lam / radiansPerDegree};
    }
    /// [rad]
    [[nodiscard]] double convergence(GeographicPoint place) const {
        return proj_factors(projection_, radians(place)).meridian_convergence;
    }

private:
    static PJ_COORD radians(GeographicPoint place) {
        return proj_coord(
            place.longitude * radiansPerDegree, place.latitude * radiansPerDegree, 0.0, 0.0);
    }

    std::string definition_;
    PJ_CONTEXT* context_ = nullptr;
    PJ* projection_ = nullptr;
};

bool onTheEarth(GeographicPoint place) {
    return std::abs(place.latitude) <= 90.0 && std::abs(place.longitude) <= 180.0;
}

constexpr std::string_view planeAxes = R"wkt(CS[Cartesian,2],
    AXIS["easting (E)",east,ORDER[1],LENGTHUNIT["metre",1]],
    AXIS["northing (N)",north,ORDER[2],LENGTHUNIT["metre",1]]])wkt";

} // namespace

/// The shorter series (`+approx`) is meant: within 10 km it differs from the longer one by less
/// than 30 nm, takes half the time, and a million fixes go through it. Only the definition is
/// shared between threads. Each thread keeps the library's objects of the plane that it used last:
/// a program works on one water at a time.
class LocalFrame::Projection {
public:
    explicit Projection(GeographicPoint origin)
        : definition_(
              "+proj=tmerc +approx +ellps=WGS84 +k=1 +x_0=0 +y_0=0 +units=m +lat_0=" +
              number(origin.latitude) + " +lon_0=" + number(origin.longitude)) {}

    [[nodiscard]] const Engine& engine() const {
        thread_local std::optional<Engine> engine;
        if (!engine || engine->definition() != definition_) {
            engine.emplace(definition_);
        }
        return *engine;
    }

private:
    std::string definition_;
};

Result<LocalFrame> LocalFrame::atOrigin(GeographicPoint origin) {
    if (!onTheEarth(origin)) {
        return fail(inputError(
            "The water's position is not a place on the earth: latitude goes from -90 to 90 and "
            "longitude from -180 to 180.",
            number(origin.latitude) + " " + number(origin.longitude)));
    }
    LocalFrame frame;
    frame.origin_ = origin;
    frame.projection_ = std::make_shared<const Projection>(origin);
    if (!frame.projection_->engine().works()) {
        return fail(machineError(
            "The map projection could not be set up. The program's installation is damaged: "
            "install it again.",
            "proj_create tmerc"));
    }
    return frame;
}

LocalFrame LocalFrame::withoutOrigin() {
    return {};
}

Point LocalFrame::toPlane(GeographicPoint place) const {
    BEDLORE_EXPECTS(projection_ != nullptr);
    return projection_->engine().forward(place);
}

GeographicPoint LocalFrame::toGeographic(Point place) const {
    BEDLORE_EXPECTS(projection_ != nullptr);
    return projection_->engine().inverse(place);
}

Angle LocalFrame::convergence(Point place) const {
    if (!projection_) {
        return {};
    }
    const Engine& engine = projection_->engine();
    return engine.convergence(engine.inverse(place)) * radian;
}

namespace {

std::string angleParameter(std::string_view name, double degrees, int code) {
    return R"(        PARAMETER[")" + std::string(name) + R"(",)" + number(degrees) +
           R"(,ANGLEUNIT["degree",0.0174532925199433],ID["EPSG",)" + std::to_string(code) + "]],\n";
}

std::string lengthParameter(std::string_view name, double metres, int code) {
    return R"(        PARAMETER[")" + std::string(name) + R"(",)" + number(metres) +
           R"(,LENGTHUNIT["metre",1],ID["EPSG",)" + std::to_string(code) + "]]";
}

std::string transverseMercatorWkt(GeographicPoint origin, Point falseOrigin) {
    return R"(PROJCRS["Water's plane",
    BASEGEOGCRS["WGS 84",
        DATUM["World Geodetic System 1984",
            ELLIPSOID["WGS 84",6378137,298.257223563,LENGTHUNIT["metre",1]]],
        PRIMEM["Greenwich",0,ANGLEUNIT["degree",0.0174532925199433]],
        ID["EPSG",4326]],
    CONVERSION["Water's plane",
        METHOD["Transverse Mercator",ID["EPSG",9807]],
)" + angleParameter("Latitude of natural origin", origin.latitude, 8801) +
           angleParameter("Longitude of natural origin", origin.longitude, 8802) +
           R"(        PARAMETER["Scale factor at natural origin",1,SCALEUNIT["unity",1],ID["EPSG",8805]],
)" + lengthParameter("False easting", falseOrigin.east, 8806) +
           ",\n" + lengthParameter("False northing", falseOrigin.north, 8807) + "],\n    " +
           std::string(planeAxes);
}

} // namespace

std::string LocalFrame::wkt(Point falseOrigin) const {
    if (!origin_) {
        return R"(ENGCRS["Water's plane, without position",
    EDATUM["A place on the bank"],
    )" + std::string(planeAxes);
    }
    return transverseMercatorWkt(*origin_, falseOrigin);
}

NeutralPlane LocalFrame::neutralAbout(Point centre) const {
    BEDLORE_EXPECTS(origin_.has_value());
    // Adding zero turns a rounded −0 into 0.
    const auto rounded = [](double value, double perUnit) {
        return std::round(value * perUnit) / perUnit + 0.0;
    };
    constexpr double hundredths = 1e2;
    LocalFrame neutral;
    neutral.origin_ = GeographicPoint{
        rounded(origin_->latitude, hundredths), rounded(origin_->longitude, hundredths)};
    neutral.projection_ = std::make_shared<const Projection>(*neutral.origin_);
    // First out of this plane, then into that one: a thread has one engine at a time.
    const GeographicPoint place = toGeographic(centre);
    const Point there = neutral.toPlane(place);
    // More digits would tell how the two planes lie to each other, and so where this one begins.
    constexpr double millimetres = 1e3;
    return {
        .plane = std::move(neutral),
        .shift = {
            rounded(there.east - centre.east, millimetres),
            rounded(there.north - centre.north, millimetres)}};
}

GeographicPoint planeOriginFor(const std::vector<GeographicPoint>& places) {
    BEDLORE_EXPECTS(!places.empty());
    const GeographicPoint first = places.front();
    double north = 0.0;
    double east = 0.0;
    for (const GeographicPoint& place : places) {
        north += place.latitude - first.latitude;
        // The short way round, so that a water on the date line keeps its places together.
        east += std::remainder(place.longitude - first.longitude, 360.0);
    }
    const auto count = static_cast<double>(places.size());
    // Adding zero turns a rounded −0 into 0.
    const auto rounded = [](double degrees) { return std::round(degrees * 1e4) / 1e4 + 0.0; };
    return {
        rounded(first.latitude + north / count),
        rounded(std::remainder(first.longitude + east / count, 360.0))};
}

} // namespace bedlore
