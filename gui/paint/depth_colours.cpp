// SPDX-License-Identifier: MIT
#include "gui/paint/depth_colours.hpp"

#include "core/base/parallel.hpp"
#include "core/chart/colour_ramp.hpp"
#include "gui/paint/grown_raster.hpp"
#include "gui/paint/red_light.hpp"

#include <Eigen/Core>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>
#include <limits>
#include <map>
#include <mutex>
#include <type_traits>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr double mostShade = 12.0; // of L*
constexpr int shadeSteps = DepthColours::shadeSteps;
constexpr int rampSteps = DepthColours::rampSteps;
constexpr float nothing = std::numeric_limits<float>::quiet_NaN();

QRgb rampColour(double share, PaletteKind palette, double shade) {
    const Rgb colour = lightened(depthColour(share), shade);
    if (palette != PaletteKind::Night) {
        return qRgb(colour.red, colour.green, colour.blue);
    }
    // Lightness alone tells, from the darkest of the ramp to its lightest in even steps of the
    // glow: its deep colours would all be black otherwise.
    constexpr double darkest = 18.0;
    constexpr double lightest = 93.0;
    return redGlow(std::clamp((lightness(colour) - darkest) / (lightest - darkest), 0.0, 1.0));
}

double shareOf(const MapDrawing& map, double depth) {
    const double first = firstColouredDepth(map);
    const double range = map.deepest - first;
    return range > 0.0 ? (depth - first) / range : 0.3;
}

void inRows(int rows, const std::function<void(int)>& work) {
    static_cast<void>(
        inParallel(static_cast<std::size_t>(rows), usualThreads(), {}, [&](std::size_t row) {
            work(static_cast<int>(row));
        }));
}

float slopeBetween(float before, float here, float after, double cell) {
    const bool b = std::isfinite(before);
    const bool a = std::isfinite(after);
    const float low = b ? before : here;
    const float high = a ? after : here;
    const double steps = (b ? 1.0 : 0.0) + (a ? 1.0 : 0.0);
    return steps > 0.0 ? static_cast<float>(static_cast<double>(high - low) / (steps * cell))
                       : 0.0F;
}

/// A row of a grid and those beside it, as far as there are any.
struct RowsAround {
    RowsAround(const Raster<float>& grid, int row)
        : here(&grid.values[grid.index(row, 0)])
        , north(row > 0 ? here - grid.frame.columns : nullptr)
        , south(row + 1 < grid.frame.rows ? here + grid.frame.columns : nullptr)
        , columns(grid.frame.columns) {}

    [[nodiscard]] float westOf(int c) const { return c > 0 ? here[c - 1] : nothing; }
    [[nodiscard]] float eastOf(int c) const { return c + 1 < columns ? here[c + 1] : nothing; }
    [[nodiscard]] float northOf(int c) const { return north != nullptr ? north[c] : nothing; }
    [[nodiscard]] float southOf(int c) const { return south != nullptr ? south[c] : nothing; }

    const float* here;
    const float* north;
    const float* south;
    int columns;
};

/// Every colour that can occur, so that no pixel costs a root.
std::vector<QRgb> makeColourTable(PaletteKind palette, bool shaded) {
    std::vector<QRgb> table;
    table.reserve(static_cast<std::size_t>(rampSteps) * (2 * shadeSteps + 1));
    const double step = shaded ? mostShade / shadeSteps : 0.0;
    for (int i = 0; i < rampSteps; ++i) {
        for (int s = -shadeSteps; s <= shadeSteps; ++s) {
            const double share = static_cast<double>(i) / (rampSteps - 1);
            table.push_back(rampColour(share, palette, step * s));
        }
    }
    return table;
}

/// Made once: pictures are painted anew with every line typed, on several threads.
const std::vector<QRgb>& colourTable(PaletteKind palette, bool shaded) {
    struct Kept {
        std::once_flag once;
        std::vector<QRgb> colours;
    };
    static std::map<std::pair<PaletteKind, bool>, Kept> tables;
    static std::mutex mutex;
    Kept* kept = nullptr;
    {
        const std::scoped_lock lock(mutex);
        kept = &tables[{palette, shaded}];
    }
    std::call_once(kept->once, [&] { kept->colours = makeColourTable(palette, shaded); });
    return kept->colours;
}

} // namespace

double firstColouredDepth(const MapDrawing& map) {
    return map.deepest > 0.0 ? std::max(map.shallowest, 0.0) : map.shallowest;
}

QColor depthColourOf(const MapDrawing& map, PaletteKind kind, double depth) {
    if (depth < 0.0 && map.deepest > 0.0) {
        return palette(kind).panel;
    }
    return QColor::fromRgb(rampColour(shareOf(map, depth), kind, 0.0));
}

DepthColours::DepthColours(const MapDrawing& map, PaletteKind palette, bool shaded) {
    const GridFrame& frame = map.depth->frame;
    if (map.contours.shown.empty() || frame.size() == 0) {
        return;
    }
    const Raster<float> depth = grownByTwoCells(*map.depth);
    constexpr double most = rampSteps - 1;
    const auto start = static_cast<float>(most * shareOf(map, 0.0));
    const auto scale = static_cast<float>(most * shareOf(map, 1.0)) - start;
    setNodes(depth, map.up, start, scale);
    setCorners();
    table_ = &colourTable(palette, shaded);
    dry_ = depthColourOf(map, palette, -1.0).rgb();
    waterFrom_ = map.deepest > 0.0 ? start : -std::numeric_limits<float>::infinity();
    // Finer than the cells, so that neither screen nor paper shows them.
    const int wanted = palette == PaletteKind::Print ? 900 : 480;
    const int longest = std::max(frame.rows, frame.columns);
    finer_ = std::clamp((wanted + longest - 1) / longest, 1, 6);
}

void DepthColours::setNodes(const Raster<float>& depth, PlaneBearing up, float start, float scale) {
    // The light comes from the upper left of the sheet: from `up` turned left by 45°.
    const double to = up.clockwise() / radian - 0.25 * 3.14159265358979;
    constexpr double softness = 0.14; // slope at which the shade is three quarters of its most
    const auto lightEast = static_cast<float>(std::sin(to) / softness);
    const auto lightNorth = static_cast<float>(std::cos(to) / softness);
    const GridFrame& frame = depth.frame;
    nodes_ = Raster<Node>(frame, {.ramp = nothing});
    inRows(frame.rows, [&](int r) {
        const RowsAround rows(depth, r);
        Eigen::ArrayXf towards = Eigen::ArrayXf::Zero(frame.columns);
        for (int c = 0; c < frame.columns; ++c) {
            const float metres = rows.here[c];
            if (!std::isfinite(metres)) {
                continue;
            }
            const float east = slopeBetween(rows.westOf(c), metres, rows.eastOf(c), frame.cell);
            const float north = slopeBetween(rows.southOf(c), metres, rows.northOf(c), frame.cell);
            // Depth that grows towards the light is a slope that faces it.
            towards[c] = lightEast * east + lightNorth * north;
        }
        // The middle step is neither lit nor dark; rounded by cutting off.
        const Eigen::ArrayXf lit = towards.tanh() * shadeSteps + (shadeSteps + 0.5F);
        Node* node = &nodes_.values[nodes_.index(r, 0)];
        for (int c = 0; c < frame.columns; ++c) {
            if (std::isfinite(rows.here[c])) {
                node[c] = {.ramp = rows.here[c] * scale + start, .lit = lit[c]};
            }
        }
    });
}

namespace {

/// Adds one to `counts` for each known node of a row; the first and the last count are of none.
template <class Node>
void countKnown(const Node* row, std::vector<int>& counts) {
    for (std::size_t c = 0; c + 2 < counts.size(); ++c) {
        counts[c + 1] += std::isfinite(row[c].ramp) ? 1 : 0;
    }
}

} // namespace

void DepthColours::setCorners() {
    const GridFrame& frame = nodes_.frame;
    const auto width = static_cast<std::size_t>(frame.columns) + 1;
    state_.assign(width * (static_cast<std::size_t>(frame.rows) + 1), Corners::None);
    inRows(frame.rows + 1, [&](int below) {
        // Known ones above and below each corner of this row: none beyond the grid's four edges.
        std::vector<int> known(width + 1, 0);
        for (const int row : {below - 1, below}) {
            if (row >= 0 && row < frame.rows) {
                countKnown(&nodes_.values[nodes_.index(row, 0)], known);
            }
        }
        Corners* state = &state_[static_cast<std::size_t>(below) * width];
        for (std::size_t c = 0; c < width; ++c) {
            const int all = known[c] + known[c + 1];
            state[c] = all == 4 ? Corners::All : all > 0 ? Corners::Some : Corners::None;
        }
    });
}

/// Between four cells of which some are unknown: the others by what they would have counted.
QRgb DepthColours::colourBesideNothing(float row, float column) const {
    const float r = std::floor(row);
    const float c = std::floor(column);
    Node sum;
    float total = 0.0F;
    const auto add = [&](int toRow, int toColumn, float weight) {
        const int y = std::clamp(static_cast<int>(r) + toRow, 0, nodes_.frame.rows - 1);
        const int x = std::clamp(static_cast<int>(c) + toColumn, 0, nodes_.frame.columns - 1);
        const Node& node = nodes_.at(y, x);
        if (weight > 0.0F && std::isfinite(node.ramp)) {
            sum.ramp += weight * node.ramp;
            sum.lit += weight * node.lit;
            total += weight;
        }
    };
    const float down = row - r;
    const float right = column - c;
    add(0, 0, (1.0F - down) * (1.0F - right));
    add(0, 1, (1.0F - down) * right);
    add(1, 0, down * (1.0F - right));
    add(1, 1, down * right);
    return total > 0.0F ? colourOf({.ramp = sum.ramp / total, .lit = sum.lit / total}) : 0;
}

namespace {

/// A place along a row of pixels, in cells from the middle of the first, as a whole number of
/// 2⁻³² cells: exact to a thousandth of a cell over any row.
struct Walk {
    std::int64_t at = 0;
    std::int64_t step = 0;

    static constexpr double unit = 4294967296.0;
    [[nodiscard]] int whole() const { return static_cast<int>(at >> 32); }
    [[nodiscard]] float rest() const {
        constexpr float scale = 1.0F / 16777216.0F;
        return static_cast<float>(static_cast<std::int32_t>((at >> 8) & 0xFFFFFF)) * scale;
    }
};

/// The pixels x of a row, from 0 to `count`, for which `from + x * step` lies in [low, high].
struct PixelRange {
    int begin = 0;
    int end = 0;

    void narrow(double from, double step, double low, double high) {
        if (step == 0.0) {
            end = from >= low && from <= high ? end : begin;
            return;
        }
        const auto [first, last] = std::minmax({(low - from) / step, (high - from) / step});
        begin = static_cast<int>(std::clamp<double>(std::ceil(first), begin, end));
        end = static_cast<int>(std::clamp<double>(std::floor(last) + 1.0, begin, end));
    }
};

/// Between two cells and the two below them. All four numbers of a row are taken at once.
template <class Node>
Node between(const Node* above, const Node* below, float down, float right) {
    static_assert(sizeof(Node) == 2 * sizeof(float) && std::is_trivially_copyable_v<Node>);
    Eigen::Array4f upper;
    Eigen::Array4f lower;
    std::memcpy(upper.data(), above, 2 * sizeof(Node));
    std::memcpy(lower.data(), below, 2 * sizeof(Node));
    const Eigen::Array4f beside = upper + down * (lower - upper);
    return {
        .ramp = beside[0] + right * (beside[2] - beside[0]),
        .lit = beside[1] + right * (beside[3] - beside[1])};
}

/// An opaque colour, or none, where something as opaque as `pixel` was to be coloured.
QRgb asOpaqueAs(QRgb pixel, QRgb colour) {
    const int alpha = qAlpha(pixel);
    if (alpha == 255 || colour == 0) {
        return colour;
    }
    return qPremultiply(qRgba(qRed(colour), qGreen(colour), qBlue(colour), alpha));
}

} // namespace

/// The pixels of a row, `count` of them; the first one's middle lies at `first` (column, row) in
/// cells from the middle of the first cell. Without a branch that turns with the cell: a pixel
/// costs less than a wrong guess.
void DepthColours::fillRow(QRgb* line, int count, const QPointF& first, const QPointF& step) const {
    const GridFrame& frame = nodes_.frame;
    PixelRange range{.begin = 0, .end = count};
    constexpr double least = -0.999; // a pixel's middle farther out has no cell on either side
    range.narrow(first.x(), step.x(), least, frame.columns - 0.001);
    range.narrow(first.y(), step.y(), least, frame.rows - 0.001);
    std::fill(line, line + range.begin, 0);
    std::fill(line + range.end, line + count, 0);
    const auto walk = [&](double from, double by) {
        return Walk{
            .at = static_cast<std::int64_t>((from + range.begin * by) * Walk::unit),
            .step = static_cast<std::int64_t>(by * Walk::unit)};
    };
    const auto width = static_cast<std::size_t>(frame.columns);
    Walk column = walk(first.x(), step.x());
    Walk row = walk(first.y(), step.y());
    for (int x = range.begin; x < range.end; ++x, column.at += column.step, row.at += row.step) {
        if (line[x] == 0) {
            continue;
        }
        // Both are at least -1; the corners have a row and a column before the first cell's.
        const int beforeRow = row.whole() + 1;
        const int beforeColumn = column.whole() + 1;
        const auto r = static_cast<std::size_t>(beforeRow);
        const auto c = static_cast<std::size_t>(beforeColumn);
        const Corners corners = state_[r * (width + 1) + c];
        QRgb colour = 0;
        if (corners == Corners::All) {
            const Node* above = &nodes_.values[(r - 1) * width + (c - 1)];
            colour = colourOf(between(above, above + width, row.rest(), column.rest()));
        } else if (corners == Corners::Some) {
            colour = colourBesideNothing(
                static_cast<float>(row.whole()) + row.rest(),
                static_cast<float>(column.whole()) + column.rest());
        }
        line[x] = asOpaqueAs(line[x], colour);
    }
}

void DepthColours::fill(QImage& part, const QTransform& toPlane) const {
    const GridFrame& frame = nodes_.frame;
    QTransform toCells;
    toCells.translate(-0.5, -0.5);
    toCells.scale(1.0 / frame.cell, -1.0 / frame.cell);
    toCells.translate(-frame.west, -frame.north);
    const QTransform cells = toPlane * toCells;
    const QPointF step(cells.m11(), cells.m12());
    for (int y = 0; y < part.height(); ++y) {
        fillRow(
            reinterpret_cast<QRgb*>(part.scanLine(y)),
            part.width(),
            cells.map(QPointF(0.5, y + 0.5)),
            step);
    }
}

DepthImage DepthColours::picture() const {
    const GridFrame& frame = nodes_.frame;
    DepthImage result{
        .image = QImage(
            frame.columns * finer_, frame.rows * finer_, QImage::Format_ARGB32_Premultiplied),
        .toPlane = {}};
    result.image.fill(Qt::white); // opaque
    result.toPlane.translate(frame.west, frame.north);
    result.toPlane.scale(frame.cell / finer_, -frame.cell / finer_);
    fill(result.image, result.toPlane);
    return result;
}

} // namespace bedlore
