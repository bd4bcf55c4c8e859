// SPDX-License-Identifier: MIT
#include "core/chart/contour_clip.hpp"

#include <ogr_geometry.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace bedlore {

namespace {

void addRing(OGRPolygon& polygon, const Ring& ring) {
    auto line = std::make_unique<OGRLinearRing>();
    for (const Point p : ring) {
        line->addPoint(p.east, p.north);
    }
    line->closeRings();
    polygon.addRingDirectly(line.release());
}

OGRPolygon toOgr(const Polygon& area) {
    OGRPolygon polygon;
    addRing(polygon, area.outer);
    for (const Ring& hole : area.holes) {
        addRing(polygon, hole);
    }
    return polygon;
}

Ring fromOgr(const OGRLinearRing& line, bool anticlockwise) {
    Ring ring;
    for (int i = 0; i + 1 < line.getNumPoints(); ++i) {
        ring.push_back({line.getX(i), line.getY(i)});
    }
    if ((signedArea(ring) > 0.0) != anticlockwise) {
        std::reverse(ring.begin(), ring.end());
    }
    return ring;
}

void collect(const OGRGeometry& geometry, std::vector<Polygon>& out) {
    if (wkbFlatten(geometry.getGeometryType()) == wkbPolygon) {
        const OGRPolygon& polygon = *geometry.toPolygon();
        if (polygon.IsEmpty()) {
            return;
        }
        Polygon area{fromOgr(*polygon.getExteriorRing(), true), {}};
        for (int i = 0; i < polygon.getNumInteriorRings(); ++i) {
            area.holes.push_back(fromOgr(*polygon.getInteriorRing(i), false));
        }
        out.push_back(std::move(area));
    } else if (OGR_GT_IsSubClassOf(geometry.getGeometryType(), wkbGeometryCollection)) {
        for (const OGRGeometry* part : *geometry.toGeometryCollection()) {
            collect(*part, out);
        }
    }
}

std::vector<Polygon> inside(const Polygon& area, const OGRPolygon& outline) {
    const OGRPolygon whole = toOgr(area);
    std::vector<Polygon> result;
    const std::unique_ptr<OGRGeometry> part(whole.Intersection(&outline));
    if (part) {
        collect(*part, result);
    }
    return result;
}

// Where along a–b (0 to 1) it crosses the ring, rising.
std::vector<double> crossings(Point a, Point b, const Ring& ring) {
    std::vector<double> found;
    const auto [west, east] = std::minmax(a.east, b.east);
    const auto [south, north] = std::minmax(a.north, b.north);
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point p = ring[i];
        const Point q = ring[(i + 1) % ring.size()];
        if (std::max(p.east, q.east) < west || std::min(p.east, q.east) > east ||
            std::max(p.north, q.north) < south || std::min(p.north, q.north) > north) {
            continue;
        }
        const double dx = b.east - a.east;
        const double dy = b.north - a.north;
        const double ex = q.east - p.east;
        const double ey = q.north - p.north;
        const double across = dx * ey - dy * ex;
        if (across == 0.0) {
            continue;
        }
        const double t = ((p.east - a.east) * ey - (p.north - a.north) * ex) / across;
        const double u = ((p.east - a.east) * dy - (p.north - a.north) * dx) / across;
        if (t > 0.0 && t < 1.0 && u >= 0.0 && u <= 1.0) {
            found.push_back(t);
        }
    }
    std::sort(found.begin(), found.end());
    return found;
}

/// Cuts one line into the pieces that lie inside.
class LineCutter {
public:
    LineCutter(const ContourLine& line, const Ring& outline)
        : line_(line)
        , outline_(outline) {}

    std::vector<ContourLine> pieces() {
        const std::size_t n = line_.vertices.size();
        const std::size_t count = line_.closed ? n : n - 1;
        bool whole = true;
        for (std::size_t i = 0; i < count; ++i) {
            whole = cut(line_.vertices[i], line_.vertices[(i + 1) % n]) && whole;
        }
        finish();
        if (line_.closed && whole && !pieces_.empty()) {
            return {line_};
        }
        joinAcrossStart();
        return std::move(pieces_);
    }

private:
    // Whether all of a–b is inside.
    bool cut(Point a, Point b) {
        std::vector<double> stops = crossings(a, b, outline_);
        const bool whole = stops.empty();
        stops.push_back(1.0);
        double from = 0.0;
        const auto at = [&](double t) {
            return t == 1.0
                       ? b
                       : Point{a.east + t * (b.east - a.east), a.north + t * (b.north - a.north)};
        };
        bool allInside = whole;
        for (const double to : stops) {
            if (contains(outline_, at(0.5 * (from + to)))) {
                if (open_.empty()) {
                    open_.push_back(at(from));
                }
                open_.push_back(at(to));
            } else {
                allInside = false;
                finish();
            }
            from = to;
        }
        return allInside;
    }

    void finish() {
        if (open_.size() > 1) {
            pieces_.push_back(
                {.level = line_.level,
                 .depth = line_.depth,
                 .vertices = std::move(open_),
                 .closed = false});
        }
        open_.clear();
    }

    // The start of a closed line is nothing special: pieces on both sides of it are one.
    void joinAcrossStart() {
        if (!line_.closed || pieces_.size() < 2 ||
            pieces_.back().vertices.back() != pieces_.front().vertices.front()) {
            return;
        }
        std::vector<Point>& joined = pieces_.back().vertices;
        joined.insert(
            joined.end(), pieces_.front().vertices.begin() + 1, pieces_.front().vertices.end());
        pieces_.front() = std::move(pieces_.back());
        pieces_.pop_back();
    }

    const ContourLine& line_;
    const Ring& outline_;
    std::vector<Point> open_;
    std::vector<ContourLine> pieces_;
};

} // namespace

Contours clipped(const Contours& contours, const Polygon& outline) {
    Contours result{.table = contours.table, .lines = {}, .bands = {}, .shown = {outline}};
    for (const ContourLine& line : contours.lines) {
        for (ContourLine& piece : LineCutter(line, outline.outer).pieces()) {
            result.lines.push_back(std::move(piece));
        }
    }
    const OGRPolygon ogrOutline = toOgr(outline);
    for (const DepthBand& band : contours.bands) {
        DepthBand kept{.from = band.from, .to = band.to, .areas = {}};
        for (const Polygon& area : band.areas) {
            for (Polygon& part : inside(area, ogrOutline)) {
                kept.areas.push_back(std::move(part));
            }
        }
        if (!kept.areas.empty()) {
            result.bands.push_back(std::move(kept));
        }
    }
    return result;
}

} // namespace bedlore
