// SPDX-License-Identifier: MIT
#include "core/io/geojson_text.hpp"

#include "core/units/format.hpp"

#include <cpl_error.h>
#include <ogr_geometry.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <memory>
#include <nlohmann/json.hpp>

namespace bedlore {

namespace {

/// A position in whole ten-millionths of a degree: rounded once, compared exactly.
struct Rounded {
    std::int64_t longitude = 0;
    std::int64_t latitude = 0;
    friend bool operator==(const Rounded&, const Rounded&) = default;
};

constexpr double perDegree = 1e7;

Rounded rounded(const LocalFrame& frame, Point place) {
    const GeographicPoint g = frame.toGeographic(place);
    return {std::llround(g.longitude * perDegree), std::llround(g.latitude * perDegree)};
}

// Seven decimals without a way through floating point.
std::string degrees(std::int64_t value) {
    constexpr std::int64_t whole = 10'000'000;
    std::string fraction = std::to_string(std::llabs(value) % whole);
    fraction.insert(0, 7 - fraction.size(), '0');
    return (value < 0 ? "-" : "") + std::to_string(std::llabs(value) / whole) + "." + fraction;
}

std::string position(Rounded p) {
    return "[" + degrees(p.longitude) + "," + degrees(p.latitude) + "]";
}

std::string positions(const std::vector<Rounded>& list) {
    std::string text = "[";
    for (const Rounded p : list) {
        text += (text.size() > 1 ? "," : "") + position(p);
    }
    return text + "]";
}

void addRing(OGRPolygon& polygon, const LocalFrame& frame, const Ring& ring) {
    auto line = std::make_unique<OGRLinearRing>();
    Rounded last;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Rounded p = rounded(frame, ring[i]);
        if (i == 0 || p != last) {
            line->addPoint(static_cast<double>(p.longitude), static_cast<double>(p.latitude));
        }
        last = p;
    }
    line->closeRings();
    constexpr int leastPositions = 4;
    if (line->getNumPoints() >= leastPositions) {
        polygon.addRingDirectly(line.release());
    }
}

std::unique_ptr<OGRMultiPolygon>
inRoundedDegrees(const std::vector<Polygon>& polygons, const LocalFrame& frame) {
    auto all = std::make_unique<OGRMultiPolygon>();
    for (const Polygon& area : polygons) {
        auto polygon = std::make_unique<OGRPolygon>();
        addRing(*polygon, frame, area.outer);
        if (polygon->IsEmpty()) {
            continue;
        }
        for (const Ring& hole : area.holes) {
            addRing(*polygon, frame, hole);
        }
        all->addGeometryDirectly(polygon.release());
    }
    return all;
}

void collect(const OGRGeometry& geometry, OGRMultiPolygon& into) {
    if (wkbFlatten(geometry.getGeometryType()) == wkbPolygon) {
        if (!geometry.IsEmpty()) {
            into.addGeometry(&geometry);
        }
    } else if (OGR_GT_IsSubClassOf(geometry.getGeometryType(), wkbGeometryCollection)) {
        for (const OGRGeometry* part : *geometry.toGeometryCollection()) {
            collect(*part, into);
        }
    }
}

void roundVertices(OGRMultiPolygon& all) {
    for (OGRPolygon* polygon : all) {
        for (OGRLinearRing* ring : *polygon) {
            for (int i = 0; i < ring->getNumPoints(); ++i) {
                ring->setPoint(i, std::round(ring->getX(i)), std::round(ring->getY(i)));
            }
        }
    }
}

// Rounding to a centimetre may let lines that run closer than that touch or cross: those areas are
// mended, and what collapses is dropped.
std::unique_ptr<OGRMultiPolygon> mended(std::unique_ptr<OGRMultiPolygon> all) {
    CPLPushErrorHandler(CPLQuietErrorHandler);
    constexpr int tries = 4;
    for (int i = 0; i < tries && !all->IsValid(); ++i) {
        const std::unique_ptr<OGRGeometry> valid(all->MakeValid());
        auto next = std::make_unique<OGRMultiPolygon>();
        if (valid) {
            collect(*valid, *next);
        }
        roundVertices(*next);
        all = std::move(next);
    }
    if (!all->IsValid()) {
        auto next = std::make_unique<OGRMultiPolygon>();
        for (const OGRPolygon* polygon : *all) {
            if (polygon->IsValid()) {
                next->addGeometry(polygon);
            }
        }
        all = std::move(next);
    }
    CPLPopErrorHandler();
    return all;
}

std::string ringText(const OGRLinearRing& ring, bool anticlockwise) {
    std::vector<Rounded> list;
    double twiceArea = 0.0;
    for (int i = 0; i < ring.getNumPoints(); ++i) {
        list.push_back({std::llround(ring.getX(i)), std::llround(ring.getY(i))});
        if (i > 0) {
            twiceArea += (ring.getX(i - 1) - ring.getX(0)) * (ring.getY(i) - ring.getY(0)) -
                         (ring.getX(i) - ring.getX(0)) * (ring.getY(i - 1) - ring.getY(0));
        }
    }
    if ((twiceArea > 0.0) != anticlockwise) {
        std::reverse(list.begin(), list.end());
    }
    return positions(list);
}

std::string polygonText(const OGRPolygon& polygon) {
    std::string text = "[" + ringText(*polygon.getExteriorRing(), true);
    for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
        text += "," + ringText(*polygon.getInteriorRing(i), false);
    }
    return text + "]";
}

std::string geometryText(std::string_view type, std::string_view coordinates) {
    return R"({"type":")" + std::string(type) + R"(","coordinates":)" + std::string(coordinates) +
           "}";
}

} // namespace

std::string GeoJsonGeometry::point(Point place) const {
    return geometryText("Point", position(rounded(frame_, place)));
}

std::optional<std::string> GeoJsonGeometry::line(std::vector<Point> vertices, bool closed) const {
    if (closed && !vertices.empty()) {
        vertices.push_back(vertices.front());
    }
    std::vector<Rounded> list;
    for (const Point p : vertices) {
        const Rounded r = rounded(frame_, p);
        if (list.empty() || r != list.back()) {
            list.push_back(r);
        }
    }
    if (list.size() < 2) {
        return std::nullopt;
    }
    return geometryText("LineString", positions(list));
}

std::optional<std::string> GeoJsonGeometry::areas(const std::vector<Polygon>& polygons) const {
    const auto all = mended(inRoundedDegrees(polygons, frame_));
    if (all->IsEmpty()) {
        return std::nullopt;
    }
    if (all->getNumGeometries() == 1) {
        return geometryText("Polygon", polygonText(**all->begin()));
    }
    std::string text = "[";
    for (const OGRPolygon* polygon : *all) {
        text += (text.size() > 1 ? "," : "") + polygonText(*polygon);
    }
    return geometryText("MultiPolygon", text + "]");
}

void GeoJsonProperties::add(std::string_view key, std::string_view value) {
    members_ += (members_.empty() ? "" : ",") + jsonString(key) + ":" + std::string(value);
}

GeoJsonProperties& GeoJsonProperties::text(std::string_view key, std::string_view value) {
    add(key, jsonString(value));
    return *this;
}

GeoJsonProperties& GeoJsonProperties::number(std::string_view key, std::optional<double> value) {
    constexpr double decimals = 1e4;
    add(key,
        value && std::isfinite(*value) ? printExact(std::round(*value * decimals) / decimals + 0.0)
                                       : "null");
    return *this;
}

GeoJsonProperties&
GeoJsonProperties::textOrNull(std::string_view key, const std::optional<std::string>& value) {
    add(key, value ? jsonString(*value) : "null");
    return *this;
}

std::string geoJsonFeature(const GeoJsonProperties& properties, std::string_view geometry) {
    return R"({"type":"Feature","properties":)" + properties.json() + R"(,"geometry":)" +
           std::string(geometry) + "}";
}

std::string jsonString(std::string_view text) {
    // Bytes that are not UTF-8 become a replacement sign instead of a fault.
    return nlohmann::json(std::string(text))
        .dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

} // namespace bedlore
