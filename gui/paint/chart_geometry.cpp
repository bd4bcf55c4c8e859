// SPDX-License-Identifier: MIT
#include "gui/paint/chart_geometry.hpp"

#include <QPolygonF>

#include <cmath>
#include <cstddef>
#include <vector>

namespace bedlore {

namespace {

// Sides cut into pieces of a cell, so that smoothing sees steps and long sides alike.
Ring inPieces(const Ring& ring, double cell) {
    Ring result;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        const double length = std::hypot(b.east - a.east, b.north - a.north);
        const double pieces = std::max(1.0, std::round(length / cell));
        for (int k = 0; k < pieces; ++k) {
            result.push_back(
                {a.east + k / pieces * (b.east - a.east),
                 a.north + k / pieces * (b.north - a.north)});
        }
    }
    return result;
}

// Each vertex moved by `share` of the way to the middle of its neighbours.
Ring pulled(const Ring& ring, double share) {
    Ring result = ring;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[(i + ring.size() - 1) % ring.size()];
        const Point b = ring[i];
        const Point c = ring[(i + 1) % ring.size()];
        result[i] = {
            b.east + share * (0.5 * (a.east + c.east) - b.east),
            b.north + share * (0.5 * (a.north + c.north) - b.north)};
    }
    return result;
}

// Smoothing that does not shrink: in, then out a little more (Taubin, 1995, SIGGRAPH).
Ring smoothed(Ring ring, double cell) {
    ring = inPieces(ring, cell);
    constexpr int rounds = 5;
    for (int round = 0; round < rounds; ++round) {
        ring = pulled(pulled(ring, 0.5), -0.53);
    }
    return ring;
}

void add(QPainterPath& path, const Ring& ring) {
    QPolygonF polygon;
    polygon.reserve(static_cast<qsizetype>(ring.size()) + 1);
    for (const Point p : ring) {
        polygon.append(toQt(p));
    }
    path.addPolygon(polygon);
    path.closeSubpath();
}

} // namespace

QPainterPath shownPath(const MapDrawing& map) {
    QPainterPath path;
    path.setFillRule(Qt::OddEvenFill);
    // Below tier `All` the outline is smooth already.
    const bool ofCells = map.tier == SharingTier::All;
    const double cell = map.depth->frame.cell;
    for (const Polygon& area : map.contours.shown) {
        add(path, ofCells ? smoothed(area.outer, cell) : area.outer);
        for (const Ring& hole : area.holes) {
            // A hole of a cell or two would be drawn as a speck: smaller than its own edge.
            if (!ofCells || -signedArea(hole) > 2.5 * cell * cell) {
                add(path, ofCells ? smoothed(hole, cell) : hole);
            }
        }
    }
    return path;
}

} // namespace bedlore
