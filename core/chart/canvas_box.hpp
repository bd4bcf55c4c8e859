// SPDX-License-Identifier: MIT
#pragma once

// Rectangles on a canvas.

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

} // namespace bedlore
