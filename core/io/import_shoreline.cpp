// SPDX-License-Identifier: MIT
#include "core/geometry/polygon.hpp"
#include "core/io/import_places.hpp"
#include "core/io/import_session.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <optional>
#include <utility>

// A shoreline into the book: which of its lines are banks, which islands.

namespace bedlore {

namespace {

// Every part is looked for inside every other.
constexpr std::size_t mostParts = 1000;

struct Outline {
    Ring ring; ///< longitude and latitude as plane coordinates: enough to see what lies in what
    Extent extent;
};

Outline outlineOf(const ShoreOutline& part) {
    Outline outline;
    const GeographicPoint first = part.vertices.front();
    outline.extent = {first.longitude, first.latitude, first.longitude, first.latitude};
    for (const GeographicPoint& vertex : part.vertices) {
        outline.ring.push_back({vertex.longitude, vertex.latitude});
        outline.extent.west = std::min(outline.extent.west, vertex.longitude);
        outline.extent.east = std::max(outline.extent.east, vertex.longitude);
        outline.extent.south = std::min(outline.extent.south, vertex.latitude);
        outline.extent.north = std::max(outline.extent.north, vertex.latitude);
    }
    return outline;
}

bool liesIn(const Outline& inner, const Outline& outer) {
    const bool fits =
        inner.extent.west >= outer.extent.west && inner.extent.east <= outer.extent.east &&
        inner.extent.south >= outer.extent.south && inner.extent.north <= outer.extent.north;
    return fits && contains(outer.ring, inner.ring.front());
}

/// A line inside another is an island; one inside an island is again the bank of a water.
std::vector<ShoreKind> kindsOf(const std::vector<ShoreOutline>& parts) {
    std::vector<Outline> outlines;
    for (const ShoreOutline& part : parts) {
        outlines.push_back(outlineOf(part));
    }
    std::vector<ShoreKind> kinds;
    for (std::size_t i = 0; i < outlines.size(); ++i) {
        std::size_t around = 0;
        for (std::size_t k = 0; k < outlines.size(); ++k) {
            around += k != i && liesIn(outlines[i], outlines[k]) ? 1U : 0U;
        }
        kinds.push_back(around % 2 == 0 ? ShoreKind::Bank : ShoreKind::Island);
    }
    return kinds;
}

std::optional<GeographicPoint>
referencePlace(const Water& water, const std::vector<ShoreOutline>& parts) {
    if (water.planeOrigin) {
        return water.planeOrigin;
    }
    std::vector<GeographicPoint> all;
    for (const ShoreOutline& part : parts) {
        all.insert(all.end(), part.vertices.begin(), part.vertices.end());
    }
    return all.empty() ? std::nullopt : std::optional(medianPlace(all));
}

/// Takes out and notes the parts with a vertex far from all others.
void dropFarParts(std::vector<ShoreOutline>& parts, GeographicPoint reference, FaultList& faults) {
    std::erase_if(parts, [&](const ShoreOutline& part) {
        const auto far = std::find_if(
            part.vertices.begin(), part.vertices.end(), [&](const GeographicPoint& vertex) {
                return roughDistance(vertex, reference) > farthestPlace;
            });
        if (far == part.vertices.end()) {
            return false;
        }
        faults.add(
            part.line,
            "lat",
            printExact(far->latitude) + ", " + printExact(far->longitude),
            std::string(nearOtherPlaces));
        return true;
    });
}

} // namespace

Result<void> planShoreline(ImportSession& session, ParsedFile& file) {
    auto& outlines = std::get<ShoreOutlines>(file.content);
    std::vector<ShoreOutline>& parts = outlines.parts;
    if (parts.empty()) {
        return {};
    }
    if (parts.size() > mostParts) {
        file.faults.addForFile(
            1, "", std::to_string(parts.size()) + " shorelines", "at most 1000 in one file");
        return {};
    }
    if (const auto why = whyPlacesDoNotFit(session.book(), session.water(), true)) {
        file.faults.addForFile(1, "lat", "latitude and longitude", *why);
        return {};
    }
    Water water = session.water();
    dropFarParts(parts, *referencePlace(water, parts), file.faults);
    const bool hadShore = !water.shore.empty();
    const std::vector<ShoreKind> kinds = kindsOf(parts);
    for (std::size_t i = 0; i < parts.size(); ++i) {
        ShorePart part;
        part.kind = kinds[i];
        part.vertices.assign(parts[i].vertices.begin(), parts[i].vertices.end());
        if (std::find(water.shore.begin(), water.shore.end(), part) == water.shore.end()) {
            water.shore.push_back(std::move(part));
        }
    }
    if (water.shore == session.water().shore) {
        return {};
    }
    if (hadShore) {
        session.notice(
            water.name + " had a shoreline already; what " + file.name +
            " holds has been added to it.");
    }
    return session.put(std::move(water));
}

} // namespace bedlore
