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

std::string position(ToldDegrees p) {
    return "[" + degreesText(p.longitude) + "," + degreesText(p.latitude) + "]";
}

std::string positions(const std::vector<ToldDegrees>& list) {
    std::string text = "[";
    for (const ToldDegrees p : list) {
        text += (text.size() > 1 ? "," : "") + position(p);
    }
    return text + "]";
}

void addRing(OGRPolygon& polygon, const ToldPlane& plane, const Ring& ring) {
    auto line = std::make_unique<OGRLinearRing>();
    ToldDegrees last;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const ToldDegrees p = plane.degreesOf(ring[i]);
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
inToldDegrees(const std::vector<Polygon>& polygons, const ToldPlane& plane) {
    auto all = std::make_unique<OGRMultiPolygon>();
    for (const Polygon& area : polygons) {
        auto polygon = std::make_unique<OGRPolygon>();
        addRing(*polygon, plane, area.outer);
        if (polygon->IsEmpty()) {
            continue;
        }
        for (const Ring& hole : area.holes) {
            addRing(*polygon, plane, hole);
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
    std::vector<ToldDegrees> list;
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
    return geometryText("Point", position(plane_.degreesOf(place)));
}

std::optional<std::string> GeoJsonGeometry::line(std::vector<Point> vertices, bool closed) const {
    if (closed && !vertices.empty()) {
        vertices.push_back(vertices.front());
    }
    std::vector<ToldDegrees> list;
    for (const Point p : vertices) {
        const ToldDegrees r = plane_.degreesOf(p);
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
    const auto all = mended(inToldDegrees(polygons, plane_));
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
    const std::string text = toldNumber(value);
    add(key, text.empty() ? "null" : text);
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
