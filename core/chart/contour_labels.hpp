// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <vector>

// Where the numbers on contour lines stand.

namespace bedlore {

/// A place on the painter's canvas: x right, y down, in its logical units.
struct CanvasPoint {
    double x = 0.0;
    double y = 0.0;
    friend bool operator==(const CanvasPoint&, const CanvasPoint&) = default;
};

/// A rectangle on the canvas, `turn` radians clockwise about its centre.
struct CanvasBox {
    CanvasPoint centre;
    double width = 0.0;
    double height = 0.0;
    double turn = 0.0;
    friend bool operator==(const CanvasBox&, const CanvasBox&) = default;
};

/// Whether two boxes overlap.
[[nodiscard]] bool overlap(const CanvasBox& a, const CanvasBox& b);

/// A line that wants its number on it, as it lies on the canvas; lines that matter more come first.
struct LineToLabel {
    std::vector<CanvasPoint> vertices;
    bool closed = false;
    double width = 0.0; ///< of the text
};

/// A number's place: `line` counts into the lines, the line is broken between `from` and `to` along
/// its length. `box.turn` is within a quarter turn, so that the text is never upside down.
struct LabelPlace {
    std::size_t line = 0;
    CanvasBox box;
    double from = 0.0;
    double to = 0.0;
};

struct LabelOptions {
    CanvasBox window; ///< upright; no text leaves it
    double height = 12.0;
    double gap = 3.0;       ///< free on both sides of a number
    double apart = 260.0;   ///< along a line, from one number to the next
    double straight = 0.94; ///< least chord of the line under a number, as a share of its length
};

/// Numbers on the straightest parts of their lines, clear of `taken` and of one another; a line too
/// short or too crowded gets none.
[[nodiscard]] std::vector<LabelPlace> placeLabels(
    const std::vector<LineToLabel>& lines,
    const std::vector<CanvasBox>& taken,
    const LabelOptions& options);

} // namespace bedlore
