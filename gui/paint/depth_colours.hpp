// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/map_drawing.hpp"
#include "gui/paint/theme.hpp"

#include <QImage>
#include <QRgb>
#include <QTransform>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

// The coloured bed.

namespace bedlore {

/// `toPlane` takes the picture's pixels to metres east (x) and north (y).
struct DepthImage {
    QImage image;
    QTransform toPlane;
};

/// Depth by the ramp, in red light only for the night palette; shaded as if lit from the upper left
/// of a sheet with the map's own side up, by at most 12 of L*. Reaches two cells beyond what is
/// shown, so that it can be cut along a smooth edge. Reading it from several threads is safe.
class DepthColours {
public:
    DepthColours() = default;
    /// Nothing where `map` shows nothing.
    DepthColours(const MapDrawing& map, PaletteKind palette, bool shaded);

    [[nodiscard]] bool isEmpty() const { return state_.empty(); }

    /// Gives each pixel of `part` the colour at its middle, as opaque as the pixel was before;
    /// transparent where there is none. `part` is ARGB32_Premultiplied; `toPlane` takes its pixels
    /// to metres east and north.
    void fill(QImage& part, const QTransform& toPlane) const;

    /// The grid as a picture, several pixels to a cell, for painters that keep pictures as they
    /// are.
    [[nodiscard]] DepthImage picture() const;

    /// Steps of the ramp, and of shade each way.
    static constexpr int rampSteps = 256;
    static constexpr int shadeSteps = 24;

private:
    /// Of the four cells between whose middles a place lies.
    enum class Corners : std::uint8_t { None, Some, All };

    /// At the middle of a cell.
    struct Node {
        float ramp = 0.0F; ///< step of the ramp, NaN where nothing is shown
        float lit = 0.0F;  ///< step of shade, 0.5 up from the darkest
    };

    void setNodes(const Raster<float>& depth, PlaneBearing up, float start, float scale);
    void setCorners();
    void fillRow(QRgb* line, int count, const QPointF& first, const QPointF& step) const;
    /// Here, so that it costs no call for each pixel.
    [[nodiscard]] QRgb colourOf(const Node& node) const {
        if (node.ramp < waterFrom_) {
            return dry_;
        }
        // Both are at least zero: cutting off is rounding down.
        const float nearest = std::clamp(node.ramp, 0.0F, rampSteps - 1.0F) + 0.5F;
        const auto step = static_cast<int>(nearest);
        const int at = step * (2 * shadeSteps + 1) + static_cast<int>(node.lit);
        return (*table_)[static_cast<std::size_t>(at)];
    }
    [[nodiscard]] QRgb colourBesideNothing(float row, float column) const;

    Raster<Node> nodes_; ///< two cells grown
    /// By the cell to the upper left; a row and a column more than there are cells.
    std::vector<Corners> state_;
    const std::vector<QRgb>* table_ = nullptr; ///< lives as long as the program
    QRgb dry_ = 0;
    float waterFrom_ = 0.0F; ///< step of the ramp below which the bed stands dry
    int finer_ = 1;          ///< pixels of a picture to a cell
};

/// The colour at a depth [m] without shade; a bed that stands dry has the palette's own.
[[nodiscard]] QColor depthColourOf(const MapDrawing& map, PaletteKind kind, double depth);

/// The depth at which the colours begin [m]: the shallowest, but not above the water.
[[nodiscard]] double firstColouredDepth(const MapDrawing& map);

} // namespace bedlore
