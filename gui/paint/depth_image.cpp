// SPDX-License-Identifier: MIT
#include "gui/paint/depth_image.hpp"

#include "core/bed/parallel.hpp"
#include "core/chart/colour_ramp.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <map>
#include <mutex>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr double mostShade = 12.0; // of L*
constexpr int shadeSteps = 24;     // each way
constexpr int rampSteps = 256;
constexpr float nothing = std::numeric_limits<float>::quiet_NaN();

// Depth in red light: lightness alone tells, from a glow that does not spoil night sight to black.
Rgb inRedLight(Rgb colour) {
    const double light = std::clamp(lightness(colour) / 93.0, 0.0, 1.0);
    const double share = 0.08 + 0.56 * light * light;
    const auto byte = [&](double full) {
        return static_cast<std::uint8_t>(std::lround(full * share));
    };
    return {byte(255.0), byte(70.0), byte(58.0)};
}

Rgb rampColour(double share, PaletteKind palette, double shade) {
    const Rgb colour = lightened(depthColour(share), shade);
    return palette == PaletteKind::Night ? inRedLight(colour) : colour;
}

double shareOf(const MapDrawing& map, double depth) {
    const double first = firstColouredDepth(map);
    const double range = map.deepest - first;
    return range > 0.0 ? (depth - first) / range : 0.3;
}

// Gives the cells next to what is shown the mean of their shown neighbours.
Raster<float> grownByOneCell(const Raster<float>& depth) {
    Raster<float> result = depth;
    const GridFrame& frame = depth.frame;
    for (int r = 0; r < frame.rows; ++r) {
        for (int c = 0; c < frame.columns; ++c) {
            if (std::isfinite(depth.at(r, c))) {
                continue;
            }
            float sum = 0.0F;
            float count = 0.0F;
            for (int y = std::max(r - 1, 0); y <= std::min(r + 1, frame.rows - 1); ++y) {
                for (int x = std::max(c - 1, 0); x <= std::min(c + 1, frame.columns - 1); ++x) {
                    if (std::isfinite(depth.at(y, x))) {
                        sum += depth.at(y, x);
                        count += 1.0F;
                    }
                }
            }
            if (count > 0.0F) {
                result.at(r, c) = sum / count;
            }
        }
    }
    return result;
}

// How much each cell is lit, −1 to 1.
Raster<float> shadeOf(const Raster<float>& depth, PlaneBearing up) {
    // The light comes from the upper left of the sheet: from `up` turned left by 45°.
    const double to = up.clockwise() / radian - 0.25 * 3.14159265358979;
    const double lightEast = std::sin(to);
    const double lightNorth = std::cos(to);
    constexpr double softness = 0.14; // slope at which the shade is three quarters of its most
    const GridFrame& frame = depth.frame;
    Raster<float> shade(frame, 0.0F);
    const auto slope = [&](float before, float here, float after) {
        const bool b = std::isfinite(before);
        const bool a = std::isfinite(after);
        const float low = b ? before : here;
        const float high = a ? after : here;
        const double steps = (b ? 1.0 : 0.0) + (a ? 1.0 : 0.0);
        return steps > 0.0 ? static_cast<double>(high - low) / (steps * frame.cell) : 0.0;
    };
    for (int r = 0; r < frame.rows; ++r) {
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
            shade.at(r, c) = static_cast<float>(std::tanh(facing / softness));
        }
    }
    return shade;
}

/// Weights of the four cells round a place between cells, the unknown ones left out.
class Between {
public:
    Between(const Raster<float>& depth, double row, double column)
        : depth_(depth) {
        const double r = std::floor(row);
        const double c = std::floor(column);
        const auto fr = static_cast<float>(row - r);
        const auto fc = static_cast<float>(column - c);
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
        const int r = std::clamp(row, 0, depth_.frame.rows - 1);
        const int c = std::clamp(column, 0, depth_.frame.columns - 1);
        const std::size_t i = depth_.index(r, c);
        if (weight > 0.0F && std::isfinite(depth_.values[i])) {
            index_[count_] = i;
            weight_[count_] = weight;
            ++count_;
            total_ += weight;
        }
    }

    const Raster<float>& depth_;
    std::array<std::size_t, 4> index_{};
    std::array<float, 4> weight_{};
    std::size_t count_ = 0;
    float total_ = 0.0F;
};

QRgb toQRgb(Rgb colour) {
    return qRgb(colour.red, colour.green, colour.blue);
}

/// Every colour that can occur, so that no pixel costs a root.
std::vector<QRgb> makeColourTable(PaletteKind palette, bool shaded) {
    std::vector<QRgb> table;
    table.reserve(static_cast<std::size_t>(rampSteps * (2 * shadeSteps + 1)));
    const double step = shaded ? mostShade / shadeSteps : 0.0;
    for (int i = 0; i < rampSteps; ++i) {
        for (int s = -shadeSteps; s <= shadeSteps; ++s) {
            const double share = static_cast<double>(i) / (rampSteps - 1);
            table.push_back(toQRgb(rampColour(share, palette, step * s)));
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

/// The ground's colours between the middles of four cells at a time.
class ImageFiller {
public:
    struct Colours {
        const std::vector<QRgb>& table;
        QRgb dry;
        float scale = 0.0F; ///< steps of the ramp for each metre of depth
        float start = 0.0F; ///< step of the ramp at depth zero
        bool dryBelowZero = false;
    };

    ImageFiller(
        const Raster<float>& depth, const Raster<float>& shade, int finer, const Colours& colours)
        : depth_(depth)
        , shade_(shade)
        , finer_(finer)
        , colours_(colours) {}

    /// Row `y` of the image, counted from above.
    void fillRow(int y, QRgb* line) const {
        const float row = placeOf(y);
        const int r = static_cast<int>(std::floor(row));
        const int width = depth_.frame.columns * finer_;
        for (int x = 0; x < width; ++x) {
            const float column = placeOf(x);
            const int c = static_cast<int>(std::floor(column));
            if (isWhole(r, c)) {
                const Corners at{
                    depth_.index(r, c),
                    depth_.index(r + 1, c),
                    row - static_cast<float>(r),
                    column - static_cast<float>(c)};
                line[x] = colourOf(at.of(depth_), at.of(shade_));
                continue;
            }
            const Between between(depth_, static_cast<double>(row), static_cast<double>(column));
            if (between.any()) {
                line[x] = colourOf(between.of(depth_), between.of(shade_));
            }
        }
    }

private:
    /// Bilinear between a cell, its right neighbour and the two below them.
    struct Corners {
        std::size_t above;
        std::size_t below;
        float down;
        float right;
        [[nodiscard]] float of(const Raster<float>& values) const {
            const float* a = &values.values[above];
            const float* b = &values.values[below];
            const float up = a[0] + right * (a[1] - a[0]);
            const float low = b[0] + right * (b[1] - b[0]);
            return up + down * (low - up);
        }
    };

    /// Of a pixel's middle, in cells from the middle of the first.
    [[nodiscard]] float placeOf(int pixel) const {
        return (static_cast<float>(pixel) + 0.5F) / static_cast<float>(finer_) - 0.5F;
    }

    [[nodiscard]] bool isWhole(int r, int c) const {
        if (r < 0 || c < 0 || r + 1 >= depth_.frame.rows || c + 1 >= depth_.frame.columns) {
            return false;
        }
        const std::size_t above = depth_.index(r, c);
        const std::size_t below = depth_.index(r + 1, c);
        // One sum is not finite where any of the four is not.
        return std::isfinite(
            depth_.values[above] + depth_.values[above + 1] + depth_.values[below] +
            depth_.values[below + 1]);
    }

    [[nodiscard]] QRgb colourOf(float depth, float shade) const {
        if (depth < 0.0F && colours_.dryBelowZero) {
            return colours_.dry;
        }
        constexpr float most = static_cast<float>(rampSteps - 1);
        const float along = std::clamp(depth * colours_.scale + colours_.start, 0.0F, most);
        // Both are at least zero: cutting off is rounding down.
        const auto ramp = static_cast<int>(along + 0.5F);
        constexpr auto steps = static_cast<float>(shadeSteps);
        const auto lit = static_cast<int>(shade * steps + steps + 0.5F);
        return colours_.table[static_cast<std::size_t>(ramp * (2 * shadeSteps + 1) + lit)];
    }

    const Raster<float>& depth_;
    const Raster<float>& shade_;
    int finer_;
    Colours colours_;
};

} // namespace

double firstColouredDepth(const MapDrawing& map) {
    return map.deepest > 0.0 ? std::max(map.shallowest, 0.0) : map.shallowest;
}

QColor depthColourOf(const MapDrawing& map, PaletteKind kind, double depth) {
    if (depth < 0.0 && map.deepest > 0.0) {
        return palette(kind).panel;
    }
    const Rgb colour = rampColour(shareOf(map, depth), kind, 0.0);
    return QColor(colour.red, colour.green, colour.blue);
}

DepthImage depthImageOf(const MapDrawing& map, PaletteKind palette, bool shaded) {
    const GridFrame& frame = map.depth->frame;
    if (map.contours.shown.empty() || frame.size() == 0) {
        return {};
    }
    const Raster<float> depth = grownByOneCell(grownByOneCell(*map.depth));
    const Raster<float> shade = shadeOf(depth, map.up);
    // Finer than the cells, so that neither screen nor paper shows them.
    const int wanted = palette == PaletteKind::Print ? 900 : 480;
    const int longest = std::max(frame.rows, frame.columns);
    const int finer = std::clamp((wanted + longest - 1) / longest, 1, 6);
    QImage image(frame.columns * finer, frame.rows * finer, QImage::Format_ARGB32_Premultiplied);
    image.fill(Qt::transparent);
    constexpr double most = rampSteps - 1;
    const double start = most * shareOf(map, 0.0);
    const ImageFiller filler(
        depth,
        shade,
        finer,
        {.table = colourTable(palette, shaded),
         .dry = depthColourOf(map, palette, -1.0).rgb(),
         .scale = static_cast<float>(most * shareOf(map, 1.0) - start),
         .start = static_cast<float>(start),
         .dryBelowZero = map.deepest > 0.0});
    uchar* const bits = image.bits();
    const auto pitch = image.bytesPerLine();
    static_cast<void>(
        inParallel(static_cast<std::size_t>(frame.rows), usualThreads(), {}, [&](std::size_t row) {
            for (int k = 0; k < finer; ++k) {
                const int y = static_cast<int>(row) * finer + k;
                filler.fillRow(y, reinterpret_cast<QRgb*>(bits + y * pitch));
            }
        }));
    QTransform toPlane;
    toPlane.translate(frame.west, frame.north);
    toPlane.scale(frame.cell / finer, -frame.cell / finer);
    return {.image = image, .toPlane = toPlane};
}

} // namespace bedlore
