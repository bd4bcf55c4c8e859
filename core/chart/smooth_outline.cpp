// SPDX-License-Identifier: MIT
#include "core/chart/smooth_outline.hpp"

#include "core/chart/contours.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace bedlore {

namespace {

/// Bays and gaps up to twice this width are filled [m]: wider than the fan of casts spreads between
/// neighbours at the farthest cast.
constexpr double fillRadius = 25.0;

// Squared distances along one row of cells to the nearest cell with a finite `height` squared, by
// the lower envelope of parabolas (Felzenszwalb and Huttenlocher, 2012, Theory of Computing 8).
class DistancePass {
public:
    explicit DistancePass(std::size_t longest)
        : at_(longest)
        , from_(longest + 1)
        , in_(longest) {}

    void run(double* values, std::size_t count, std::size_t stride) {
        for (std::size_t i = 0; i < count; ++i) {
            in_[i] = values[i * stride];
        }
        std::size_t parabolas = 0;
        for (std::size_t q = 0; q < count; ++q) {
            if (!std::isfinite(in_[q])) {
                continue;
            }
            double cross = -std::numeric_limits<double>::infinity();
            while (parabolas > 0 &&
                   (cross = crossing(at_[parabolas - 1], q)) <= from_[parabolas - 1]) {
                --parabolas;
            }
            if (parabolas == 0) {
                cross = -std::numeric_limits<double>::infinity();
            }
            at_[parabolas] = q;
            from_[parabolas] = cross;
            ++parabolas;
        }
        std::size_t k = 0;
        for (std::size_t q = 0; q < count && parabolas > 0; ++q) {
            while (k + 1 < parabolas && from_[k + 1] < static_cast<double>(q)) {
                ++k;
            }
            const double d = static_cast<double>(q) - static_cast<double>(at_[k]);
            values[q * stride] = d * d + in_[at_[k]];
        }
    }

private:
    [[nodiscard]] double crossing(std::size_t p, std::size_t q) const {
        const auto x = static_cast<double>(p);
        const auto y = static_cast<double>(q);
        return ((in_[q] + y * y) - (in_[p] + x * x)) / (2.0 * (y - x));
    }

    std::vector<std::size_t> at_;
    std::vector<double> from_;
    std::vector<double> in_;
};

/// Cells of the plan, true or false, with free cells all round.
struct Mask {
    GridFrame frame;
    std::vector<bool> set;
};

// Distance [cells] from each cell's centre to that of the nearest cell that is `wanted`.
std::vector<double> distances(const Mask& mask, bool wanted) {
    const auto rows = static_cast<std::size_t>(mask.frame.rows);
    const auto columns = static_cast<std::size_t>(mask.frame.columns);
    std::vector<double> d(mask.set.size(), std::numeric_limits<double>::infinity());
    for (std::size_t i = 0; i < d.size(); ++i) {
        if (mask.set[i] == wanted) {
            d[i] = 0.0;
        }
    }
    DistancePass pass(std::max(rows, columns));
    for (std::size_t c = 0; c < columns; ++c) {
        pass.run(&d[c], rows, columns);
    }
    for (std::size_t r = 0; r < rows; ++r) {
        pass.run(&d[r * columns], columns, 1);
    }
    for (double& value : d) {
        value = std::sqrt(value);
    }
    return d;
}

Mask grown(const Mask& mask, double radius) {
    Mask result = mask;
    const std::vector<double> d = distances(mask, true);
    for (std::size_t i = 0; i < d.size(); ++i) {
        result.set[i] = d[i] <= radius;
    }
    return result;
}

Mask shrunk(const Mask& mask, double radius) {
    Mask result = mask;
    const std::vector<double> d = distances(mask, false);
    for (std::size_t i = 0; i < d.size(); ++i) {
        result.set[i] = d[i] > radius;
    }
    return result;
}

// Sets whatever cannot be reached from the north-west corner.
void fillHoles(Mask& mask) {
    const auto columns = static_cast<std::size_t>(mask.frame.columns);
    const std::size_t count = mask.set.size();
    std::vector<bool> outside(count);
    std::vector<std::size_t> open{0};
    outside[0] = true;
    while (!open.empty()) {
        const std::size_t i = open.back();
        open.pop_back();
        const auto visit = [&](bool inside, std::size_t j) {
            if (inside && !mask.set[j] && !outside[j]) {
                outside[j] = true;
                open.push_back(j);
            }
        };
        visit(i % columns != 0, i - 1);
        visit(i % columns != columns - 1, i + 1);
        visit(i >= columns, i - columns);
        visit(i + columns < count, i + columns);
    }
    for (std::size_t i = 0; i < count; ++i) {
        mask.set[i] = !outside[i];
    }
}

// A coarser copy (the outline is smooth anyway) with `margin` metres free all round.
Mask paddedCopy(const Raster<std::uint8_t>& known, int coarser, double margin) {
    const double cell = known.frame.cell * coarser;
    const int pad = static_cast<int>(std::ceil(margin / cell)) + 3;
    Mask mask;
    mask.frame = known.frame;
    mask.frame.cell = cell;
    mask.frame.rows = (known.frame.rows + coarser - 1) / coarser + 2 * pad;
    mask.frame.columns = (known.frame.columns + coarser - 1) / coarser + 2 * pad;
    mask.frame.west -= pad * cell;
    mask.frame.north += pad * cell;
    mask.set.resize(mask.frame.size());
    for (int r = 0; r < known.frame.rows; ++r) {
        for (int c = 0; c < known.frame.columns; ++c) {
            if (known.at(r, c) != 0) {
                const int row = r / coarser + pad;
                const int column = c / coarser + pad;
                mask.set
                    [static_cast<std::size_t>(row) * static_cast<std::size_t>(mask.frame.columns) +
                     static_cast<std::size_t>(column)] = true;
            }
        }
    }
    return mask;
}

// Mean over a square of 2 · radius + 1 cells, along one direction; beyond the ends as at the ends.
void blurLine(double* values, std::size_t count, std::size_t stride, std::size_t radius) {
    std::vector<double> in(count);
    for (std::size_t i = 0; i < count; ++i) {
        in[i] = values[i * stride];
    }
    for (std::size_t i = 0; i < count; ++i) {
        double sum = 0.0;
        for (std::size_t k = 0; k <= 2 * radius; ++k) {
            const std::size_t j = i + k < radius ? 0 : std::min(i + k - radius, count - 1);
            sum += in[j];
        }
        values[i * stride] = sum / static_cast<double>(2 * radius + 1);
    }
}

// Distance to the edge of the mask [cells], positive inside, smoothed.
Raster<float> smoothedDepthInside(const Mask& mask, std::size_t blur) {
    const std::vector<double> inward = distances(mask, false);
    const std::vector<double> outward = distances(mask, true);
    std::vector<double> value(inward.size());
    for (std::size_t i = 0; i < value.size(); ++i) {
        value[i] = inward[i] - outward[i];
    }
    const auto rows = static_cast<std::size_t>(mask.frame.rows);
    const auto columns = static_cast<std::size_t>(mask.frame.columns);
    for (int again = 0; again < 2; ++again) {
        for (std::size_t c = 0; c < columns; ++c) {
            blurLine(&value[c], rows, columns, blur);
        }
        for (std::size_t r = 0; r < rows; ++r) {
            blurLine(&value[r * columns], columns, 1, blur);
        }
    }
    Raster<float> result(mask.frame, 0.0F);
    std::transform(value.begin(), value.end(), result.values.begin(), [](double x) {
        return static_cast<float>(x);
    });
    return result;
}

// The outlines of the known cells when gaps of up to twice `radius` are filled, largest first.
std::vector<Ring> outlinesAt(const Raster<std::uint8_t>& known, int coarser, double radius) {
    Mask mask = paddedCopy(known, coarser, radius);
    const double cells = radius / mask.frame.cell;
    mask = shrunk(grown(mask, cells), cells);
    fillHoles(mask);
    // Spurs are cut with half the disc, or less where that would leave little.
    const std::vector<double> inward = distances(mask, false);
    const double widest = *std::max_element(inward.begin(), inward.end());
    const double cut = std::min({0.5 * cells, 0.5 * fillRadius / mask.frame.cell, 0.6 * widest});
    mask = grown(shrunk(mask, cut), cut);
    const auto blur = static_cast<std::size_t>(std::lround(0.5 * cut));
    LevelTable zero;
    zero.levels.push_back({.depth = 0.0, .label = {}, .bold = false, .labelled = false});
    std::vector<Ring> rings;
    for (ContourLine& line : contoursOf(smoothedDepthInside(mask, blur), zero).lines) {
        if (line.closed && signedArea(line.vertices) > 0.0) {
            rings.push_back(std::move(line.vertices));
        }
    }
    std::sort(rings.begin(), rings.end(), [](const Ring& a, const Ring& b) {
        return signedArea(a) > signedArea(b);
    });
    return rings;
}

void addCrossings(double north, const Ring& ring, std::vector<double>& crossings) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Point a = ring[i];
        const Point b = ring[(i + 1) % ring.size()];
        if ((a.north > north) != (b.north > north)) {
            crossings.push_back(
                a.east + (b.east - a.east) * (north - a.north) / (b.north - a.north));
        }
    }
}

/// Where the line `north` crosses the outlines of `shape`, from west to east.
std::vector<double> crossingsAt(double north, const Polygon& shape) {
    std::vector<double> crossings;
    addCrossings(north, shape.outer, crossings);
    for (const Ring& hole : shape.holes) {
        addCrossings(north, hole, crossings);
    }
    std::sort(crossings.begin(), crossings.end());
    return crossings;
}

} // namespace

std::optional<Polygon> smoothOutlineOf(const Raster<std::uint8_t>& known) {
    if (std::none_of(known.values.begin(), known.values.end(), [](auto k) { return k != 0; })) {
        return std::nullopt;
    }
    constexpr int enough = 512; // cells along the longer side
    const int longest = std::max(known.frame.rows, known.frame.columns);
    const int coarser = (longest + enough - 1) / enough;
    const double farthest = std::hypot(known.frame.rows, known.frame.columns) * known.frame.cell;
    double radius = std::max(fillRadius, 2.0 * known.frame.cell * coarser);
    std::vector<Ring> rings = outlinesAt(known, coarser, radius);
    while (rings.size() > 1 && radius < farthest) {
        radius *= 1.5;
        rings = outlinesAt(known, coarser, radius);
    }
    if (rings.empty()) {
        return std::nullopt;
    }
    return Polygon{std::move(rings.front()), {}};
}

Raster<std::uint8_t> cellsInside(const GridFrame& frame, const Polygon& shape) {
    Raster<std::uint8_t> inside(frame, 0);
    for (int r = 0; r < frame.rows; ++r) {
        const std::vector<double> crossings = crossingsAt(frame.centre(r, 0).north, shape);
        std::size_t passed = 0;
        for (int c = 0; c < frame.columns; ++c) {
            const double east = frame.centre(r, c).east;
            while (passed < crossings.size() && crossings[passed] <= east) {
                ++passed;
            }
            inside.at(r, c) = passed % 2 == 1 ? 1 : 0;
        }
    }
    return inside;
}

} // namespace bedlore
