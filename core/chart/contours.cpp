// SPDX-License-Identifier: MIT
#include "core/chart/contours.hpp"

#include "core/chart/contour_simplify.hpp"
#include "core/chart/contour_trace.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace bedlore {

namespace {

using detail::OutlineLoop;
using detail::OutlineStop;
using detail::TracedContours;
using detail::TracedLine;

/// A ring and the band of depth on its left.
struct BandRing {
    std::size_t band = 0;
    Ring ring;
};

/// Walks round each band: along the outline to a line's end, along the line, on along the outline.
class BandRings {
public:
    BandRings(const std::vector<TracedLine>& lines, const std::vector<OutlineLoop>& outline)
        : lines_(lines)
        , outline_(outline)
        , ends_(lines.size()) {
        for (std::size_t i = 0; i < outline.size(); ++i) {
            walked_.emplace_back(outline[i].stops.size());
            for (std::size_t j = 0; j < outline[i].stops.size(); ++j) {
                const OutlineStop& stop = outline[i].stops[j];
                (stop.lineBegins ? ends_[stop.line].begin : ends_[stop.line].end) = {i, j};
            }
        }
    }

    std::vector<BandRing> collect() {
        for (std::size_t i = 0; i < outline_.size(); ++i) {
            if (outline_[i].stops.empty()) {
                rings_.push_back({outline_[i].band, outline_[i].vertices});
            }
            for (std::size_t j = 0; j < outline_[i].stops.size(); ++j) {
                if (!walked_[i][j]) {
                    walkFrom({i, j});
                }
            }
        }
        for (const TracedLine& line : lines_) {
            if (line.closed) {
                rings_.push_back({line.level + 1, line.vertices});
                rings_.push_back({line.level, {line.vertices.rbegin(), line.vertices.rend()}});
            }
        }
        return std::move(rings_);
    }

private:
    /// Stop `stop` of loop `loop`.
    struct At {
        std::size_t loop = 0;
        std::size_t stop = 0;
    };
    struct Ends {
        At begin;
        At end;
    };

    void walkFrom(At start) {
        BandRing ring;
        At at = start;
        while (!walked_[at.loop][at.stop]) {
            walked_[at.loop][at.stop] = true;
            const At next = alongOutline(at, ring.ring);
            const OutlineStop& stop = outline_[next.loop].stops[next.stop];
            const std::vector<Point>& line = lines_[stop.line].vertices;
            if (stop.lineBegins) {
                ring.band = lines_[stop.line].level + 1;
                ring.ring.insert(ring.ring.end(), line.begin(), line.end() - 1);
                at = ends_[stop.line].end;
            } else {
                ring.band = lines_[stop.line].level;
                ring.ring.insert(ring.ring.end(), line.rbegin(), line.rend() - 1);
                at = ends_[stop.line].begin;
            }
        }
        rings_.push_back(std::move(ring));
    }

    // From a stop to the next one, which is left for the line to add.
    At alongOutline(At from, Ring& ring) const {
        const OutlineLoop& loop = outline_[from.loop];
        const At to{from.loop, (from.stop + 1) % loop.stops.size()};
        const std::size_t last = loop.stops[to.stop].at;
        std::size_t i = loop.stops[from.stop].at;
        do {
            ring.push_back(loop.vertices[i]);
            i = (i + 1) % loop.vertices.size();
        } while (i != last);
        return to;
    }

    const std::vector<TracedLine>& lines_;
    const std::vector<OutlineLoop>& outline_;
    std::vector<Ends> ends_;
    std::vector<std::vector<bool>> walked_;
    std::vector<BandRing> rings_;
};

// Without the vertices in the middle of a straight run along an outline. A line's end that lies
// there is kept: the band on its other side has a vertex there too.
Ring withoutIdleCorners(const Ring& ring) {
    Ring result;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point before = ring[(i + ring.size() - 1) % ring.size()];
        const Point after = ring[(i + 1) % ring.size()];
        const bool straight = (before.east == ring[i].east && ring[i].east == after.east) ||
                              (before.north == ring[i].north && ring[i].north == after.north);
        if (!straight) {
            result.push_back(ring[i]);
        }
    }
    return result;
}

// A ring that comes back to a vertex is cut there into rings that do not: where known cells touch
// at a corner only, an area must not touch itself.
void splitWhereItTouchesItself(BandRing ring, std::vector<BandRing>& out) {
    struct Numbered {
        Point p;
        std::size_t i;
    };
    std::vector<Numbered> sorted;
    sorted.reserve(ring.ring.size());
    for (std::size_t i = 0; i < ring.ring.size(); ++i) {
        sorted.push_back({ring.ring[i], i});
    }
    std::sort(sorted.begin(), sorted.end(), [](const Numbered& a, const Numbered& b) {
        return std::pair(a.p.east, a.p.north) < std::pair(b.p.east, b.p.north) ||
               (a.p == b.p && a.i < b.i);
    });
    for (std::size_t k = 0; k + 1 < sorted.size(); ++k) {
        if (sorted[k].p == sorted[k + 1].p) {
            const auto from = ring.ring.begin() + static_cast<std::ptrdiff_t>(sorted[k].i);
            const auto to = ring.ring.begin() + static_cast<std::ptrdiff_t>(sorted[k + 1].i);
            BandRing inner{ring.band, Ring(from, to)};
            ring.ring.erase(from, to);
            splitWhereItTouchesItself(std::move(inner), out);
            splitWhereItTouchesItself(std::move(ring), out);
            return;
        }
    }
    if (ring.ring.size() >= 3) {
        out.push_back(std::move(ring));
    }
}

/// An outer ring that waits for its holes.
struct OpenArea {
    std::size_t band = 0;
    double size = 0.0; ///< [m²] of the outer ring
    Extent extent;
    Polygon shape;
};

Extent extentOf(const Ring& ring) {
    Extent e{ring[0].east, ring[0].north, ring[0].east, ring[0].north};
    for (const Point p : ring) {
        e.west = std::min(e.west, p.east);
        e.east = std::max(e.east, p.east);
        e.south = std::min(e.south, p.north);
        e.north = std::max(e.north, p.north);
    }
    return e;
}

bool within(const Extent& inner, const Extent& outer) {
    return inner.west >= outer.west && inner.east <= outer.east && inner.south >= outer.south &&
           inner.north <= outer.north;
}

// A vertex of a hole may lie on the outer ring (touching at a corner): most of them decide.
bool isHoleOf(const Ring& hole, const Polygon& area) {
    std::size_t inside = 0;
    for (std::size_t i = 0; i < hole.size(); ++i) {
        const Point a = hole[i];
        const Point b = hole[(i + 1) % hole.size()];
        const Point middle{0.5 * (a.east + b.east), 0.5 * (a.north + b.north)};
        inside += contains(area.outer, middle) ? 1U : 0U;
    }
    return 2 * inside > hole.size();
}

std::vector<OpenArea> areasOf(const std::vector<BandRing>& rings) {
    std::vector<OpenArea> areas;
    std::vector<BandRing> holes;
    for (const BandRing& r : rings) {
        const double a = signedArea(r.ring);
        if (a > 0.0) {
            areas.push_back({r.band, a, extentOf(r.ring), {r.ring, {}}});
        } else {
            holes.push_back(r);
        }
    }
    for (BandRing& hole : holes) {
        const Extent extent = extentOf(hole.ring);
        OpenArea* best = nullptr;
        for (OpenArea& candidate : areas) {
            if (candidate.band == hole.band && within(extent, candidate.extent) &&
                (best == nullptr || candidate.size < best->size) &&
                isHoleOf(hole.ring, candidate.shape)) {
                best = &candidate;
            }
        }
        if (best != nullptr) {
            best->shape.holes.push_back(std::move(hole.ring));
        }
    }
    return areas;
}

std::vector<OpenArea> areasOfLoops(const std::vector<BandRing>& rings) {
    std::vector<BandRing> simple;
    for (const BandRing& ring : rings) {
        splitWhereItTouchesItself({ring.band, withoutIdleCorners(ring.ring)}, simple);
    }
    return areasOf(simple);
}

struct Ends {
    double shallowest = std::numeric_limits<double>::infinity();
    double deepest = -std::numeric_limits<double>::infinity();
};

Ends endsOf(const Raster<float>& depth) {
    Ends ends;
    for (const float value : depth.values) {
        if (std::isfinite(value)) {
            ends.shallowest = std::min(ends.shallowest, static_cast<double>(value));
            ends.deepest = std::max(ends.deepest, static_cast<double>(value));
        }
    }
    return ends;
}

std::vector<DepthBand>
bandsOf(std::vector<OpenArea> areas, const LevelTable& table, const Ends& ends) {
    std::vector<DepthBand> bands(table.levels.size() + 1);
    for (std::size_t b = 0; b < bands.size(); ++b) {
        bands[b].from = b == 0 ? ends.shallowest : table.levels[b - 1].depth;
        bands[b].to = b == table.levels.size() ? ends.deepest : table.levels[b].depth;
    }
    for (OpenArea& area : areas) {
        bands[area.band].areas.push_back(std::move(area.shape));
    }
    // A bed that only just reaches a level (see `levelClearance`) still has a band beyond it.
    if (!bands.back().areas.empty()) {
        bands.back().to = std::max(bands.back().to, bands.back().from + detail::levelClearance);
    }
    std::erase_if(bands, [](const DepthBand& band) { return band.areas.empty(); });
    return bands;
}

std::vector<Polygon> shownOf(const std::vector<OutlineLoop>& outline) {
    std::vector<BandRing> rings;
    for (const OutlineLoop& loop : outline) {
        BandRing ring;
        std::size_t nextStop = 0;
        for (std::size_t i = 0; i < loop.vertices.size(); ++i) {
            if (nextStop < loop.stops.size() && loop.stops[nextStop].at == i) {
                ++nextStop;
            } else {
                ring.ring.push_back(loop.vertices[i]);
            }
        }
        rings.push_back(std::move(ring));
    }
    std::vector<Polygon> shown;
    for (OpenArea& area : areasOfLoops(rings)) {
        shown.push_back(std::move(area.shape));
    }
    return shown;
}

} // namespace

Contours contoursOf(
    const Raster<float>& depth,
    const LevelTable& table,
    const ContourOptions& options,
    const Progress& progress) {
    if (progress.cancelled()) {
        return {};
    }
    const TracedContours traced = detail::traceContours(depth, table.levels);
    if (progress.cancelled()) {
        return {};
    }
    std::vector<TracedLine> lines =
        detail::simplified(traced, options.simplify * depth.frame.cell, depth.frame.cell);

    Contours result{.table = table, .lines = {}, .bands = {}, .shown = shownOf(traced.outline)};
    if (options.bands && !progress.cancelled() && !traced.outline.empty()) {
        result.bands =
            bandsOf(areasOfLoops(BandRings(lines, traced.outline).collect()), table, endsOf(depth));
    }
    for (TracedLine& line : lines) {
        result.lines.push_back(
            {.level = line.level,
             .depth = table.levels[line.level].depth,
             .vertices = std::move(line.vertices),
             .closed = line.closed});
    }
    return result;
}

} // namespace bedlore
