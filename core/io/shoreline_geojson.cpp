// SPDX-License-Identifier: MIT
#include "core/io/import_text.hpp"
#include "core/io/shoreline_file.hpp"

#include <cmath>
#include <nlohmann/json.hpp>
#include <utility>

namespace bedlore {

namespace {

using Json = nlohmann::json;

// A geometry inside a collection of collections; nobody draws a lake deeper than that.
constexpr int deepest = 16;

struct TooDeep {};

/// Why a text is no JSON, and where.
struct Unreadable {
    std::size_t byte = 0;
    std::string found;
};

tl::expected<Json, Unreadable> treeOf(std::string_view text) {
    try {
        const auto shallow = [](int depth, Json::parse_event_t, Json&) {
            if (depth > deepest) {
                throw TooDeep{};
            }
            return true;
        };
        return Json::parse(text, shallow);
    } catch (const TooDeep&) {
        return tl::unexpected(Unreadable{.byte = 0, .found = "brackets in brackets without end"});
    } catch (const Json::parse_error& error) {
        const std::size_t byte = error.byte > 0 ? error.byte - 1 : 0;
        return tl::unexpected(
            Unreadable{.byte = byte, .found = shown(text.substr(std::min(byte, text.size()), 20))});
    } catch (const Json::exception& error) {
        return tl::unexpected(Unreadable{.byte = 0, .found = error.what()});
    }
}

std::string textOf(const Json& node, const char* key) {
    const auto at = node.is_object() ? node.find(key) : node.end();
    return at != node.end() && at->is_string() ? at->get<std::string>() : std::string();
}

class ShoreWalker {
public:
    ShoreWalker(ShoreOutlines& to, FaultList& faults)
        : to_(to)
        , faults_(faults) {}

    void walk(const Json& node, const std::string& path) {
        const std::string type = textOf(node, "type");
        if (type == "FeatureCollection") {
            walkAll(node, "features", path);
        } else if (type == "GeometryCollection") {
            walkAll(node, "geometries", path);
        } else if (type == "Feature") {
            walkFeature(node, path);
        } else if (type == "Point" || type == "MultiPoint") {
            ++points_;
        } else if (type == "LineString") {
            takeLine(coordinatesOf(node), path + ".coordinates");
        } else if (type == "Polygon" || type == "MultiLineString") {
            takeLines(coordinatesOf(node), path + ".coordinates");
        } else if (type == "MultiPolygon") {
            takeAreas(coordinatesOf(node), path + ".coordinates");
        } else {
            faults_.add(1, path + ".type", type, "a feature or a geometry of RFC 7946");
        }
    }

    [[nodiscard]] std::size_t points() const { return points_; }

private:
    static const Json& coordinatesOf(const Json& node) {
        static const Json none;
        const auto at = node.find("coordinates");
        return at != node.end() ? *at : none;
    }

    void walkAll(const Json& node, const char* key, const std::string& path) {
        const auto at = node.find(key);
        if (at == node.end() || !at->is_array()) {
            faults_.add(1, path + "." + key, "no such list", "a list");
            return;
        }
        for (std::size_t i = 0; i < at->size(); ++i) {
            walk((*at)[i], path + "." + key + "[" + std::to_string(i) + "]");
        }
    }

    void walkFeature(const Json& node, const std::string& path) {
        const auto at = node.find("geometry");
        if (at != node.end() && !at->is_null()) {
            walk(*at, path + ".geometry");
        }
    }

    void takeAreas(const Json& areas, const std::string& path) {
        if (isList(areas, path)) {
            for (std::size_t i = 0; i < areas.size(); ++i) {
                takeLines(areas[i], path + "[" + std::to_string(i) + "]");
            }
        }
    }

    void takeLines(const Json& lines, const std::string& path) {
        if (isList(lines, path)) {
            for (std::size_t i = 0; i < lines.size(); ++i) {
                takeLine(lines[i], path + "[" + std::to_string(i) + "]");
            }
        }
    }

    void takeLine(const Json& line, const std::string& path) {
        if (!isList(line, path)) {
            return;
        }
        ShoreOutline outline;
        for (std::size_t i = 0; i < line.size(); ++i) {
            const auto vertex = vertexOf(line[i]);
            if (!vertex) {
                faults_.add(
                    1,
                    path + "[" + std::to_string(i) + "]",
                    line[i].dump(-1, ' ', false, Json::error_handler_t::replace),
                    "a longitude and a latitude in degrees");
                return;
            }
            outline.vertices.push_back(*vertex);
        }
        addOutline(std::move(outline), to_, faults_);
    }

    bool isList(const Json& node, const std::string& path) {
        if (!node.is_array()) {
            faults_.add(1, path, "no list", "a list of places");
        }
        return node.is_array();
    }

    static std::optional<GeographicPoint> vertexOf(const Json& node) {
        if (!node.is_array() || node.size() < 2 || !node[0].is_number() || !node[1].is_number()) {
            return std::nullopt;
        }
        const GeographicPoint place{
            .latitude = node[1].get<double>(), .longitude = node[0].get<double>()};
        const bool onEarth = std::abs(place.latitude) <= 90.0 && std::abs(place.longitude) <= 180.0;
        return onEarth ? std::optional(place) : std::nullopt;
    }

    ShoreOutlines& to_;
    FaultList& faults_;
    std::size_t points_ = 0;
};

/// Older files name a coordinate system of their own; RFC 7946 knows but one.
bool isOnWgs84(const Json& root) {
    const auto crs = root.is_object() ? root.find("crs") : root.end();
    if (crs == root.end() || crs->is_null()) {
        return true;
    }
    const auto properties = crs->is_object() ? crs->find("properties") : crs->end();
    const std::string name = properties != crs->end() ? textOf(*properties, "name") : "";
    return name.ends_with("CRS84") || name.ends_with(":4326");
}

} // namespace

ShoreOutlines readShorelineGeoJson(std::string_view text, FaultList& faults) {
    ShoreOutlines outlines;
    const auto root = treeOf(text);
    if (!root) {
        faults.addForFile(lineAt(text, root.error().byte), "", root.error().found, "GeoJSON text");
        return outlines;
    }
    if (!isOnWgs84(*root)) {
        faults.addForFile(
            1, "crs", "another coordinate system", "longitude and latitude on WGS 84");
        return outlines;
    }
    ShoreWalker walker(outlines, faults);
    walker.walk(*root, "$");
    if (outlines.parts.empty() && faults.empty()) {
        faults.addForFile(1, "type", "no line or area", "a line or an area along the shore");
    } else if (walker.points() > 0) {
        outlines.notices.push_back(
            "single points are no shoreline and were left out (" + std::to_string(walker.points()) +
            ").");
    }
    return outlines;
}

} // namespace bedlore
