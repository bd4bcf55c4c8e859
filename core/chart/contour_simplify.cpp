// SPDX-License-Identifier: MIT
#include "core/chart/contour_simplify.hpp"

#include "core/base/parallel.hpp"

#include <algorithm>
#include <cmath>
#include <compare>
#include <cstdint>
#include <utility>

namespace bedlore::detail {

namespace {

/// From a point to the stretch between two others, squared.
class Stretch {
public:
    Stretch(Point a, Point b)
        : a_(a)
        , east_(b.east - a.east)
        , north_(b.north - a.north) {
        const double square = east_ * east_ + north_ * north_;
        perSquare_ = square > 0.0 ? 1.0 / square : 0.0;
    }
    [[nodiscard]] double squareFrom(Point p) const {
        const double x = p.east - a_.east;
        const double y = p.north - a_.north;
        const double along = std::clamp((x * east_ + y * north_) * perSquare_, 0.0, 1.0);
        const double dx = x - along * east_;
        const double dy = y - along * north_;
        return dx * dx + dy * dy;
    }

private:
    Point a_;
    double east_;
    double north_;
    double perSquare_ = 0.0;
};

// Marks what stays between two vertices that stay.
void keepBetween(
    const std::vector<Point>& line,
    std::size_t first,
    std::size_t last,
    double tolerance,
    std::vector<bool>& keep) {
    std::vector<std::pair<std::size_t, std::size_t>> open{{first, last}};
    while (!open.empty()) {
        const auto [from, to] = open.back();
        open.pop_back();
        const Stretch stretch(line[from], line[to]);
        double farthest = tolerance * tolerance;
        std::size_t at = from;
        for (std::size_t i = from + 1; i < to; ++i) {
            const double d = stretch.squareFrom(line[i]);
            if (d > farthest) {
                farthest = d;
                at = i;
            }
        }
        if (at != from) {
            keep[at] = true;
            open.emplace_back(from, at);
            open.emplace_back(at, to);
        }
    }
}

std::size_t farthestFromFirst(const std::vector<Point>& line) {
    std::size_t at = 0;
    double farthest = -1.0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const double east = line[i].east - line[0].east;
        const double north = line[i].north - line[0].north;
        const double d = east * east + north * north;
        if (d > farthest) {
            farthest = d;
            at = i;
        }
    }
    return at;
}

TracedLine thinned(const TracedLine& line, double tolerance) {
    std::vector<Point> path = line.vertices;
    if (line.closed) {
        path.push_back(path.front());
    }
    std::vector<bool> keep(path.size());
    keep.front() = true;
    keep.back() = true;
    if (line.closed) {
        const std::size_t middle = farthestFromFirst(line.vertices);
        keep[middle] = true;
        keepBetween(path, 0, middle, tolerance, keep);
        keepBetween(path, middle, path.size() - 1, tolerance, keep);
    } else {
        keepBetween(path, 0, path.size() - 1, tolerance, keep);
    }
    TracedLine result{.level = line.level, .closed = line.closed, .vertices = {}};
    for (std::size_t i = 0; i < path.size() - (line.closed ? 1 : 0); ++i) {
        if (keep[i]) {
            result.vertices.push_back(path[i]);
        }
    }
    return line.closed && result.vertices.size() < 3 ? line : result;
}

/// A piece of a line or, with `line` at `outlineNumber`, of an outline.
struct Piece {
    std::size_t line;
    Point a;
    Point b;
};
constexpr std::size_t outlineNumber = static_cast<std::size_t>(-1);

double turn(Point a, Point b, Point c) {
    return (b.east - a.east) * (c.north - a.north) - (b.north - a.north) * (c.east - a.east);
}

bool boxesApart(const Piece& p, const Piece& q) {
    return std::max(p.a.east, p.b.east) < std::min(q.a.east, q.b.east) ||
           std::max(q.a.east, q.b.east) < std::min(p.a.east, p.b.east) ||
           std::max(p.a.north, p.b.north) < std::min(q.a.north, q.b.north) ||
           std::max(q.a.north, q.b.north) < std::min(p.a.north, p.b.north);
}

// Whether the pieces have a point in common that is not an end of both.
bool meet(const Piece& p, const Piece& q) {
    if (p.a == q.a || p.a == q.b || p.b == q.a || p.b == q.b || boxesApart(p, q)) {
        return false;
    }
    const double d1 = turn(p.a, p.b, q.a);
    const double d2 = turn(p.a, p.b, q.b);
    const double d3 = turn(q.a, q.b, p.a);
    const double d4 = turn(q.a, q.b, p.b);
    return ((d1 >= 0.0 && d2 <= 0.0) || (d1 <= 0.0 && d2 >= 0.0)) &&
           ((d3 >= 0.0 && d4 <= 0.0) || (d3 <= 0.0 && d4 >= 0.0));
}

/// Finds pieces that meet, by squares of the plan.
class Crossings {
public:
    explicit Crossings(double square)
        : square_(square) {}

    void add(std::size_t line, const std::vector<Point>& vertices, bool closed) {
        const std::size_t n = vertices.size();
        for (std::size_t i = 0; i + 1 < n + (closed ? 1 : 0); ++i) {
            put({line, vertices[i], vertices[(i + 1) % n]});
        }
    }
    /// Lines that meet something, sorted.
    [[nodiscard]] std::vector<std::size_t> lines();

private:
    void put(const Piece& piece);

    double square_;
    /// Piece `number` touches a square of the plan.
    struct Touch {
        std::int64_t square = 0;
        std::size_t number = 0;
        friend auto operator<=>(const Touch&, const Touch&) = default;
    };
    std::vector<Piece> pieces_;
    std::vector<Touch> touches_;
};

void Crossings::put(const Piece& piece) {
    const auto at = [this](double x) { return static_cast<std::int64_t>(std::floor(x / square_)); };
    const auto [west, east] = std::minmax({at(piece.a.east), at(piece.b.east)});
    const auto [south, north] = std::minmax({at(piece.a.north), at(piece.b.north)});
    const std::size_t number = pieces_.size();
    pieces_.push_back(piece);
    for (std::int64_t y = south; y <= north; ++y) {
        for (std::int64_t x = west; x <= east; ++x) {
            constexpr std::int64_t stride = std::int64_t{1} << 31;
            touches_.push_back({y * stride + x, number});
        }
    }
}

std::vector<std::size_t> Crossings::lines() {
    std::sort(touches_.begin(), touches_.end());
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < touches_.size(); ++i) {
        const Piece& p = pieces_[touches_[i].number];
        for (std::size_t j = i + 1; j < touches_.size(); ++j) {
            if (touches_[j].square != touches_[i].square) {
                break;
            }
            const Piece& q = pieces_[touches_[j].number];
            if ((p.line != outlineNumber || q.line != outlineNumber) && meet(p, q)) {
                found.push_back(p.line);
                found.push_back(q.line);
            }
        }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

} // namespace

std::vector<TracedLine> simplified(const TracedContours& traced, double tolerance, double cell) {
    std::vector<TracedLine> result(traced.lines.size());
    static_cast<void>(inParallel(result.size(), usualThreads(), {}, [&](std::size_t i) {
        result[i] = thinned(traced.lines[i], tolerance);
    }));
    // Each round gives at least one line its vertices back, so this ends.
    for (bool again = true; again;) {
        again = false;
        Crossings crossings(2.0 * cell);
        for (std::size_t i = 0; i < result.size(); ++i) {
            crossings.add(i, result[i].vertices, result[i].closed);
        }
        for (const OutlineLoop& loop : traced.outline) {
            crossings.add(outlineNumber, loop.vertices, true);
        }
        for (const std::size_t i : crossings.lines()) {
            if (i != outlineNumber &&
                result[i].vertices.size() != traced.lines[i].vertices.size()) {
                result[i] = traced.lines[i];
                again = true;
            }
        }
    }
    return result;
}

} // namespace bedlore::detail
