// SPDX-License-Identifier: MIT
#include "core/chart/contour_trace.hpp"

#include "core/base/contract.hpp"
#include "core/base/parallel.hpp"
#include "core/chart/contour_join.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <span>
#include <unordered_map>
#include <utility>

namespace bedlore::detail {

namespace {

/// A node of the half-cell lattice: x rightward, y downward from the grid's north-west corner, two
/// steps to a cell.
struct Node {
    int x = 0;
    int y = 0;
};

// Round a cell's centre, anticlockwise on the plan, from the middle of its east side.
constexpr std::array<Node, 8> around{
    {{1, 0}, {1, -1}, {0, -1}, {-1, -1}, {-1, 0}, {-1, 1}, {0, 1}, {1, 1}}};

// Sides of a cell, anticlockwise on the plan; the next one is the next turn to the left.
constexpr std::array<Node, 4> acrossSide{{{0, 1}, {1, 0}, {0, -1}, {-1, 0}}};
// The nodes of each side in that direction, from the cell's centre.
constexpr std::array<std::array<Node, 3>, 4> alongSide{{
    {{{-1, 1}, {0, 1}, {1, 1}}},
    {{{1, 1}, {1, 0}, {1, -1}}},
    {{{1, -1}, {0, -1}, {-1, -1}}},
    {{{-1, -1}, {-1, 0}, {-1, 1}}},
}};

/// Depths on the lattice, none of them exactly at a level. Their bands are kept; the depth of a
/// node, wanted of few, is worked out when asked for.
class Lattice {
public:
    Lattice(const Raster<float>& depth, const std::vector<ContourLevel>& levels)
        : frame_(depth.frame)
        , pitch_(static_cast<std::size_t>(depth.frame.columns) + 2)
        , width_(2 * depth.frame.columns + 1)
        , height_(2 * depth.frame.rows + 1)
        , known_(pitch_ * (static_cast<std::size_t>(depth.frame.rows) + 2))
        , depth_(known_.size())
        , band_(static_cast<std::size_t>(width_) * static_cast<std::size_t>(height_)) {
        levels_.reserve(levels.size());
        for (const ContourLevel& level : levels) {
            levels_.push_back(level.depth);
        }
        BEDLORE_EXPECTS(std::is_sorted(levels_.begin(), levels_.end()));
        BEDLORE_EXPECTS(levels_.size() < std::numeric_limits<Band>::max());
        takeCells(depth);
        fillBands();
    }

    /// Also asked for the cells just outside the grid, which are not.
    [[nodiscard]] bool known(int row, int column) const { return known_[cell(row, column)] != 0; }
    [[nodiscard]] std::size_t band(Node n) const { return band_[index(n)]; }
    /// All nodes of a cell.
    [[nodiscard]] bool isWithinOneBand(int row, int column) const {
        const Band* above = &band_[index({2 * column, 2 * row})];
        const Band* middle = above + width_;
        const Band* below = middle + width_;
        const Band one = middle[1];
        return above[0] == one && above[1] == one && above[2] == one && middle[0] == one &&
               middle[2] == one && below[0] == one && below[1] == one && below[2] == one;
    }
    [[nodiscard]] std::size_t levelCount() const { return levels_.size(); }

    [[nodiscard]] Point place(Node n) const {
        return {frame_.west + 0.5 * n.x * frame_.cell, frame_.north - 0.5 * n.y * frame_.cell};
    }
    /// Unique for each edge of the mesh: no two edges share a middle.
    [[nodiscard]] std::uint64_t edge(Node a, Node b) const {
        const auto x = static_cast<std::uint64_t>(a.x) + static_cast<std::uint64_t>(b.x);
        const auto y = static_cast<std::uint64_t>(a.y) + static_cast<std::uint64_t>(b.y);
        return y * static_cast<std::uint64_t>(2 * width_) + x;
    }
    /// Where level `k` crosses an edge; the same to the last bit from either triangle.
    [[nodiscard]] Point crossing(Node a, Node b, std::size_t k) const {
        if (index(b) < index(a)) {
            std::swap(a, b);
        }
        const double from = value(a);
        const double share = (levels_[k] - from) / (value(b) - from);
        const Point p = place(a);
        const Point q = place(b);
        return {p.east + share * (q.east - p.east), p.north + share * (q.north - p.north)};
    }

private:
    using Band = std::uint16_t;
    /// Of the known cells that touch a node.
    struct Touching {
        double sum = 0.0;
        int count = 0;

        void add(const Touching& other) {
            sum += other.sum;
            count += other.count;
        }
    };

    [[nodiscard]] std::size_t cell(int row, int column) const {
        return static_cast<std::size_t>(row + 1) * pitch_ + static_cast<std::size_t>(column + 1);
    }
    [[nodiscard]] std::size_t index(Node n) const {
        return static_cast<std::size_t>(n.y) * static_cast<std::size_t>(width_) +
               static_cast<std::size_t>(n.x);
    }
    /// The cells of a column beside lattice row `y`: one through whose middle it runs, or two.
    [[nodiscard]] Touching inColumn(int y, int column) const {
        const std::size_t below = cell(y / 2, column);
        Touching one{depth_[below], known_[below]};
        if (y % 2 == 0) {
            const std::size_t above = cell(y / 2 - 1, column);
            one.add({depth_[above], known_[above]});
        }
        return one;
    }
    /// The mean of known cells, moved off any level that it hits; `band`, from anywhere, becomes
    /// that of it.
    [[nodiscard]] double settled(const Touching& cells, std::size_t& band) const;
    [[nodiscard]] double value(Node n) const;
    void takeCells(const Raster<float>& depth);
    void fillBands();
    void fillRow(int y);

    GridFrame frame_;
    std::size_t pitch_; ///< cells of a row, an unknown one at each end
    int width_;
    int height_;
    std::vector<double> levels_;
    std::vector<std::uint8_t> known_; ///< with unknown cells all round
    std::vector<float> depth_;        ///< 0 where unknown
    std::vector<Band> band_;          ///< 0 where nothing known touches
};

void Lattice::takeCells(const Raster<float>& depth) {
    for (int row = 0; row < frame_.rows; ++row) {
        const float* from = &depth.values[depth.index(row, 0)];
        for (int column = 0; column < frame_.columns; ++column) {
            const bool isKnown = std::isfinite(from[column]);
            known_[cell(row, column)] = isKnown ? 1 : 0;
            depth_[cell(row, column)] = isKnown ? from[column] : 0.0F;
        }
    }
}

void Lattice::fillBands() {
    // Each row by itself, so that any number of threads gives the same.
    constexpr int block = 16;
    static_cast<void>(inParallel(
        static_cast<std::size_t>((height_ + block - 1) / block),
        usualThreads(),
        {},
        [this](std::size_t i) {
            const int first = static_cast<int>(i) * block;
            for (int y = first; y < std::min(first + block, height_); ++y) {
                fillRow(y);
            }
        }));
}

void Lattice::fillRow(int y) {
    // Depths change little from node to node: the last one's band is nearly always the next one's.
    std::size_t band = 0;
    const auto put = [&](int x, const Touching& cells) {
        if (cells.count > 0) {
            static_cast<void>(settled(cells, band));
            band_[index({x, y})] = static_cast<Band>(band);
        }
    };
    Touching left;
    for (int column = 0; column <= frame_.columns; ++column) {
        const Touching here = inColumn(y, column);
        left.add(here);
        put(2 * column, left);
        if (column < frame_.columns) {
            put(2 * column + 1, here);
        }
        left = here;
    }
}

double Lattice::settled(const Touching& cells, std::size_t& band) const {
    double value = cells.sum / cells.count;
    while (band > 0 && levels_[band - 1] >= value - levelClearance) {
        --band;
    }
    while (band < levels_.size() && levels_[band] < value - levelClearance) {
        ++band;
    }
    if (band < levels_.size() && std::abs(levels_[band] - value) < levelClearance) {
        value = levels_[band] + levelClearance;
    }
    // Levels lie farther apart than the clearance, so this is a step or none.
    while (band < levels_.size() && levels_[band] < value) {
        ++band;
    }
    return value;
}

double Lattice::value(Node n) const {
    Touching cells;
    if (n.x % 2 == 0) {
        cells = inColumn(n.y, n.x / 2 - 1);
    }
    cells.add(inColumn(n.y, n.x / 2));
    std::size_t band = this->band(n);
    return settled(cells, band);
}

class Tracer {
public:
    explicit Tracer(const Lattice& lattice, const GridFrame& frame)
        : lattice_(lattice)
        , frame_(frame)
        , segments_(lattice.levelCount()) {}

    TracedContours trace() {
        crossTriangles();
        joinLevels();
        traceOutline();
        return std::move(traced_);
    }

private:
    struct LineEnd {
        std::size_t line;
        bool begins;
    };
    struct Side {
        int row;
        int column;
        std::size_t side;
    };

    void crossTriangles();
    void crossRows(int first, int last, std::span<std::vector<Segment>> segments) const;
    void
    crossTriangle(const std::array<Node, 3>& nodes, std::span<std::vector<Segment>> segments) const;
    void joinLevels();
    /// `seenAt` says and keeps of a side whether it has been walked.
    template <class SeenAt>
    void traceLoop(const Side& first, const SeenAt& seenAt);
    void traceOutline();
    [[nodiscard]] bool isBorder(const Side& s) const;
    [[nodiscard]] Side next(const Side& s) const;
    void addSide(const Side& s, OutlineLoop& loop) const;
    void addStops(Node from, Node to, OutlineLoop& loop) const;
    [[nodiscard]] std::uint64_t endKey(std::uint64_t edge, std::size_t level) const {
        return edge * segments_.size() + level;
    }

    const Lattice& lattice_;
    GridFrame frame_;
    std::vector<std::vector<Segment>> segments_; ///< by level
    std::unordered_map<std::uint64_t, LineEnd> ends_;
    TracedContours traced_;
};

void Tracer::crossTriangles() {
    // Each block of rows by itself, then one after another: any number of threads gives the same.
    constexpr int block = 16;
    const auto blocks = static_cast<std::size_t>((frame_.rows + block - 1) / block);
    std::vector<std::vector<Segment>> parts(blocks * segments_.size());
    static_cast<void>(inParallel(blocks, usualThreads(), {}, [&](std::size_t i) {
        const int first = static_cast<int>(i) * block;
        crossRows(
            first,
            std::min(first + block, frame_.rows),
            std::span(parts).subspan(i * segments_.size(), segments_.size()));
    }));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        std::vector<Segment>& all = segments_[i % segments_.size()];
        all.insert(all.end(), parts[i].begin(), parts[i].end());
    }
}

void Tracer::crossRows(int first, int last, std::span<std::vector<Segment>> segments) const {
    for (int row = first; row < last; ++row) {
        for (int column = 0; column < frame_.columns; ++column) {
            if (!lattice_.known(row, column)) {
                continue;
            }
            const Node centre{2 * column + 1, 2 * row + 1};
            // Most cells lie within one band.
            const bool crossed = !lattice_.isWithinOneBand(row, column);
            for (std::size_t i = 0; crossed && i < around.size(); ++i) {
                const Node b = around[i];
                const Node c = around[(i + 1) % around.size()];
                crossTriangle(
                    {centre, {centre.x + b.x, centre.y + b.y}, {centre.x + c.x, centre.y + c.y}},
                    segments);
            }
        }
    }
}

void Tracer::crossTriangle(
    const std::array<Node, 3>& nodes, std::span<std::vector<Segment>> segments) const {
    const std::array<std::size_t, 3> bands{
        lattice_.band(nodes[0]), lattice_.band(nodes[1]), lattice_.band(nodes[2])};
    const auto [low, high] = std::minmax({bands[0], bands[1], bands[2]});
    for (std::size_t k = low; k < high; ++k) {
        // One corner stands alone, on the deep or on the shallow side of the level.
        const std::array<bool, 3> deep{bands[0] > k, bands[1] > k, bands[2] > k};
        std::size_t alone = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            if (deep[i] != deep[(i + 1) % 3] && deep[i] != deep[(i + 2) % 3]) {
                alone = i;
            }
        }
        const Node at = nodes[alone];
        const Node after = nodes[(alone + 1) % 3];
        const Node before = nodes[(alone + 2) % 3];
        Segment s{
            .from = lattice_.edge(at, after),
            .to = lattice_.edge(before, at),
            .start = lattice_.crossing(at, after, k),
            .end = lattice_.crossing(before, at, k)};
        if (!deep[alone]) {
            std::swap(s.from, s.to);
            std::swap(s.start, s.end);
        }
        segments[k].push_back(s);
    }
}

void Tracer::joinLevels() {
    std::vector<std::vector<JoinedLine>> levels(segments_.size());
    static_cast<void>(inParallel(levels.size(), usualThreads(), {}, [&](std::size_t k) {
        levels[k] = joined(segments_[k]);
    }));
    for (std::size_t k = 0; k < levels.size(); ++k) {
        for (JoinedLine& line : levels[k]) {
            if (!line.closed) {
                ends_[endKey(line.from, k)] = {traced_.lines.size(), true};
                ends_[endKey(line.to, k)] = {traced_.lines.size(), false};
            }
            traced_.lines.push_back(
                {.level = k, .closed = line.closed, .vertices = std::move(line.vertices)});
        }
    }
}

bool Tracer::isBorder(const Side& s) const {
    const Node across = acrossSide[s.side];
    return lattice_.known(s.row, s.column) &&
           !lattice_.known(s.row + across.y, s.column + across.x);
}

// Keeps to the same cell where two known cells touch at a corner only.
Tracer::Side Tracer::next(const Side& s) const {
    const std::size_t left = (s.side + 1) % 4;
    const Side turned{s.row, s.column, left};
    if (isBorder(turned)) {
        return turned;
    }
    const Side ahead{s.row + acrossSide[left].y, s.column + acrossSide[left].x, s.side};
    if (isBorder(ahead)) {
        return ahead;
    }
    return {
        ahead.row + acrossSide[s.side].y, ahead.column + acrossSide[s.side].x, (s.side + 3) % 4};
}

template <class SeenAt>
void Tracer::traceLoop(const Side& first, const SeenAt& seenAt) {
    const Node corner = alongSide[first.side][0];
    OutlineLoop loop;
    loop.band = lattice_.band({2 * first.column + 1 + corner.x, 2 * first.row + 1 + corner.y});
    Side s = first;
    do {
        seenAt(s) = true;
        addSide(s, loop);
        s = next(s);
    } while (!seenAt(s));
    traced_.outline.push_back(std::move(loop));
}

void Tracer::traceOutline() {
    std::vector<std::array<bool, 4>> seen(frame_.size());
    const auto seenAt = [&](const Side& s) -> bool& {
        const auto cell =
            static_cast<std::size_t>(s.row) * static_cast<std::size_t>(frame_.columns) +
            static_cast<std::size_t>(s.column);
        return seen[cell][s.side];
    };
    for (int row = 0; row < frame_.rows; ++row) {
        for (int column = 0; column < frame_.columns; ++column) {
            for (std::size_t side = 0; lattice_.known(row, column) && side < 4; ++side) {
                const Side first{row, column, side};
                if (!isBorder(first) || seenAt(first)) {
                    continue;
                }
                traceLoop(first, seenAt);
            }
        }
    }
}

void Tracer::addSide(const Side& s, OutlineLoop& loop) const {
    const auto node = [&](std::size_t i) {
        return Node{
            2 * s.column + 1 + alongSide[s.side][i].x, 2 * s.row + 1 + alongSide[s.side][i].y};
    };
    loop.vertices.push_back(lattice_.place(node(0)));
    addStops(node(0), node(1), loop);
    addStops(node(1), node(2), loop);
}

void Tracer::addStops(Node from, Node to, OutlineLoop& loop) const {
    const std::size_t a = lattice_.band(from);
    const std::size_t b = lattice_.band(to);
    const std::uint64_t edge = lattice_.edge(from, to);
    for (std::size_t i = 0; i < (a < b ? b - a : a - b); ++i) {
        const std::size_t k = a < b ? a + i : a - 1 - i;
        const LineEnd end = ends_.at(endKey(edge, k));
        const std::vector<Point>& vertices = traced_.lines[end.line].vertices;
        loop.stops.push_back(
            {.at = loop.vertices.size(), .line = end.line, .lineBegins = end.begins});
        loop.vertices.push_back(end.begins ? vertices.front() : vertices.back());
    }
}

} // namespace

TracedContours traceContours(const Raster<float>& depth, const std::vector<ContourLevel>& levels) {
    const Lattice lattice(depth, levels);
    return Tracer(lattice, depth.frame).trace();
}

} // namespace bedlore::detail
