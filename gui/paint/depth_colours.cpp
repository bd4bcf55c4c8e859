// SPDX-License-Identifier: MIT
#include "gui/paint/depth_colours.hpp"

#include "core/base/parallel.hpp"
#include "core/chart/colour_ramp.hpp"
#include "gui/paint/red_light.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <mutex>
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

/// Cells next to those of `known` that are not known themselves, by columns of each row.
std::vector<std::vector<int>> cellsBeside(const Raster<std::uint8_t>& known) {
    const GridFrame& frame = known.frame;
    std::vector<std::vector<int>> beside(static_cast<std::size_t>(frame.rows));
    std::vector<std::uint8_t> near(static_cast<std::size_t>(frame.columns) + 2);
    for (int r = 0; r < frame.rows; ++r) {
        // Known somewhere in this column of three rows, with a column more at each end.
        std::fill(near.begin(), near.end(), std::uint8_t{0});
        for (int y = std::max(r - 1, 0); y <= std::min(r + 1, frame.rows - 1); ++y) {
            const std::uint8_t* row = &known.values[known.index(y, 0)];
            for (std::size_t c = 0; c + 2 < near.size(); ++c) {
                near[c + 1] |= row[c];
            }
        }
        const std::uint8_t* row = &known.values[known.index(r, 0)];
        for (std::size_t c = 0; c + 2 < near.size(); ++c) {
            if (row[c] == 0 && (near[c] | near[c + 1] | near[c + 2]) != 0) {
                beside[static_cast<std::size_t>(r)].push_back(static_cast<int>(c));
            }
        }
    }
    return beside;
}

/// Gives the cells next to what is known the mean of their known neighbours; they are known then.
void growByOneCell(Raster<float>& depth, Raster<std::uint8_t>& known) {
    const GridFrame& frame = depth.frame;
    const std::vector<std::vector<int>> beside = cellsBeside(known);
    const auto meanRound = [&](int r, int c) {
        float sum = 0.0F;
        float count = 0.0F;
        for (int y = std::max(r - 1, 0); y <= std::min(r + 1, frame.rows - 1); ++y) {
            for (int x = std::max(c - 1, 0); x <= std::min(c + 1, frame.columns - 1); ++x) {
                if (known.at(y, x) != 0) {
                    sum += depth.at(y, x);
                    count += 1.0F;
                }
            }
        }
        return sum / count;
    };
    // Known only when all are done: a cell that was given a mean gives none.
    for (int r = 0; r < frame.rows; ++r) {
        for (const int c : beside[static_cast<std::size_t>(r)]) {
            depth.at(r, c) = meanRound(r, c);
        }
    }
    for (int r = 0; r < frame.rows; ++r) {
        for (const int c : beside[static_cast<std::size_t>(r)]) {
            known.at(r, c) = 1;
        }
    }
}

Raster<float> grownByTwoCells(const Raster<float>& depth) {
    Raster<float> grown = depth;
    Raster<std::uint8_t> known(depth.frame, 0);
    std::transform(depth.values.begin(), depth.values.end(), known.values.begin(), [](float value) {
        return std::isfinite(value) ? std::uint8_t{1} : std::uint8_t{0};
    });
    growByOneCell(grown, known);
    growByOneCell(grown, known);
    return grown;
}

// The step of shade of each cell, rounded by cutting off: the middle one is neither lit nor dark.
Raster<float> litOf(const Raster<float>& depth, PlaneBearing up) {
    // The light comes from the upper left of the sheet: from `up` turned left by 45°.
    const double to = up.clockwise() / radian - 0.25 * 3.14159265358979;
    const double lightEast = std::sin(to);
    const double lightNorth = std::cos(to);
    constexpr double softness = 0.14; // slope at which the shade is three quarters of its most
    const GridFrame& frame = depth.frame;
    Raster<float> lit(frame, shadeSteps + 0.5F);
    const auto slope = [&](float before, float here, float after) {
        const bool b = std::isfinite(before);
        const bool a = std::isfinite(after);
        const float low = b ? before : here;
        const float high = a ? after : here;
        const double steps = (b ? 1.0 : 0.0) + (a ? 1.0 : 0.0);
        return steps > 0.0 ? static_cast<double>(high - low) / (steps * frame.cell) : 0.0;
    };
    inRows(frame.rows, [&](int r) {
        for (int c = 0; c < frame.columns; ++c) {
            const float here = depth.at(r, c);
            if (!std::isfinite(here)) {
                continue;
            }
            const double east = slope(
                c > 0 ? depth.at(r, c - 1) : nothing,
                here,
                c + 1 < frame.columns ? depth.at(r, c + 1) : nothing);
            const double north = slope(
                r + 1 < frame.rows ? depth.at(r + 1, c) : nothing,
                here,
                r > 0 ? depth.at(r - 1, c) : nothing);
            // Depth that grows towards the light is a slope that faces it.
            const double facing = east * lightEast + north * lightNorth;
            const float shade = std::tanh(static_cast<float>(facing / softness));
            lit.at(r, c) = shade * shadeSteps + (shadeSteps + 0.5F);
        }
    });
    return lit;
}

/// Weights of the four cells round a place between cells, the unknown ones left out.
class Between {
public:
    Between(const Raster<float>& cells, float row, float column)
        : cells_(cells) {
        const float r = std::floor(row);
        const float c = std::floor(column);
        const float fr = row - r;
        const float fc = column - c;
        add(static_cast<int>(r), static_cast<int>(c), (1.0F - fr) * (1.0F - fc));
        add(static_cast<int>(r), static_cast<int>(c) + 1, (1.0F - fr) * fc);
        add(static_cast<int>(r) + 1, static_cast<int>(c), fr * (1.0F - fc));
        add(static_cast<int>(r) + 1, static_cast<int>(c) + 1, fr * fc);
    }
    [[nodiscard]] bool any() const { return total_ > 0.0F; }
    [[nodiscard]] float of(const Raster<float>& values) const {
        float sum = 0.0F;
        for (std::size_t i = 0; i < count_; ++i) {
            sum += weight_[i] * values.values[index_[i]];
        }
        return sum / total_;
    }

private:
    void add(int row, int column, float weight) {
        const int r = std::clamp(row, 0, cells_.frame.rows - 1);
        const int c = std::clamp(column, 0, cells_.frame.columns - 1);
        const std::size_t i = cells_.index(r, c);
        if (weight > 0.0F && std::isfinite(cells_.values[i])) {
            index_[count_] = i;
            weight_[count_] = weight;
            ++count_;
            total_ += weight;
        }
    }

    const Raster<float>& cells_;
    std::array<std::size_t, 4> index_{};
    std::array<float, 4> weight_{};
    std::size_t count_ = 0;
    float total_ = 0.0F;
};

/// Every colour that can occur, so that no pixel costs a root.
std::vector<QRgb> makeColourTable(PaletteKind palette, bool shaded) {
    std::vector<QRgb> table;
    table.reserve(static_cast<std::size_t>(rampSteps * (2 * shadeSteps + 1)));
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
    ramp_ = Raster<float>(frame, nothing);
    std::transform(
        depth.values.begin(), depth.values.end(), ramp_.values.begin(), [&](float metres) {
            return metres * scale + start;
        });
    lit_ = litOf(depth, map.up);
    setCorners();
    table_ = &colourTable(palette, shaded);
    dry_ = depthColourOf(map, palette, -1.0).rgb();
    waterFrom_ = map.deepest > 0.0 ? start : -std::numeric_limits<float>::infinity();
    // Finer than the cells, so that neither screen nor paper shows them.
    const int wanted = palette == PaletteKind::Print ? 900 : 480;
    const int longest = std::max(frame.rows, frame.columns);
    finer_ = std::clamp((wanted + longest - 1) / longest, 1, 6);
}

void DepthColours::setCorners() {
    const GridFrame& frame = ramp_.frame;
    const auto width = static_cast<std::size_t>(frame.columns) + 1;
    state_.assign(width * (static_cast<std::size_t>(frame.rows) + 1), Corners::None);
    const auto known = [&](int row, int column) {
        const bool inside = row >= 0 && column >= 0 && row < frame.rows && column < frame.columns;
        return inside && std::isfinite(ramp_.at(row, column)) ? 1 : 0;
    };
    inRows(frame.rows + 1, [&](int next) {
        const int row = next - 1;
        for (int column = -1; column < frame.columns; ++column) {
            const int count = known(row, column) + known(row, column + 1) + known(row + 1, column) +
                              known(row + 1, column + 1);
            state_
                [static_cast<std::size_t>(row + 1) * width + static_cast<std::size_t>(column + 1)] =
                    count == 4  ? Corners::All
                    : count > 0 ? Corners::Some
                                : Corners::None;
        }
    });
}

DepthColours::Corners DepthColours::cornersAt(int row, int column) const {
    const GridFrame& frame = ramp_.frame;
    if (row < -1 || column < -1 || row >= frame.rows || column >= frame.columns) {
        return Corners::None;
    }
    return state_
        [static_cast<std::size_t>(row + 1) * (static_cast<std::size_t>(frame.columns) + 1) +
         static_cast<std::size_t>(column + 1)];
}

QRgb DepthColours::colourBesideNothing(float row, float column) const {
    const Between between(ramp_, row, column);
    return between.any() ? colourOf(between.of(ramp_), between.of(lit_)) : 0;
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

/// Bilinear between four corners.
struct Patch {
    float corner = 0.0F;
    float right = 0.0F;
    float down = 0.0F;
    float both = 0.0F;

    Patch() = default;
    Patch(const float* above, const float* below)
        : corner(above[0])
        , right(above[1] - above[0])
        , down(below[0] - above[0])
        , both((below[1] - below[0]) - (above[1] - above[0])) {}
    [[nodiscard]] float at(float toRight, float downward) const {
        return corner + toRight * right + downward * (down + toRight * both);
    }
};

} // namespace

/// The pixels of a row, `count` of them; the first one's middle lies at `row`, `column` in cells
/// from the middle of the first cell.
void DepthColours::fillRow(QRgb* line, int count, const QPointF& first, const QPointF& step) const {
    const GridFrame& frame = ramp_.frame;
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
    Walk column = walk(first.x(), step.x());
    Walk row = walk(first.y(), step.y());
    int r = std::numeric_limits<int>::min();
    int c = r;
    Corners corners = Corners::None;
    Patch ramp;
    Patch lit;
    for (int x = range.begin; x < range.end; ++x, column.at += column.step, row.at += row.step) {
        if (row.whole() != r || column.whole() != c) {
            r = row.whole();
            c = column.whole();
            corners = cornersAt(r, c);
            if (corners == Corners::All) {
                const std::size_t above = ramp_.index(r, c);
                const std::size_t below = above + static_cast<std::size_t>(frame.columns);
                ramp = Patch(&ramp_.values[above], &ramp_.values[below]);
                lit = Patch(&lit_.values[above], &lit_.values[below]);
            }
        }
        if (corners == Corners::All) {
            const float right = column.rest();
            const float down = row.rest();
            line[x] = colourOf(ramp.at(right, down), lit.at(right, down));
        } else if (corners == Corners::Some) {
            line[x] = colourBesideNothing(
                static_cast<float>(r) + row.rest(), static_cast<float>(c) + column.rest());
        } else {
            line[x] = 0;
        }
    }
}

void DepthColours::fill(QImage& part, const QTransform& toPlane) const {
    const GridFrame& frame = ramp_.frame;
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
    const GridFrame& frame = ramp_.frame;
    DepthImage result{
        .image = QImage(
            frame.columns * finer_, frame.rows * finer_, QImage::Format_ARGB32_Premultiplied),
        .toPlane = {}};
    result.toPlane.translate(frame.west, frame.north);
    result.toPlane.scale(frame.cell / finer_, -frame.cell / finer_);
    fill(result.image, result.toPlane);
    return result;
}

} // namespace bedlore
