// SPDX-License-Identifier: MIT
#pragma once

#include "core/chart/taken_boxes.hpp"

#include <cstddef>
#include <vector>

// Where the numbers on contour lines stand.

namespace bedlore {

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
[[nodiscard]] std::vector<LabelPlace>
placeLabels(const std::vector<LineToLabel>& lines, TakenBoxes taken, const LabelOptions& options);

} // namespace bedlore
