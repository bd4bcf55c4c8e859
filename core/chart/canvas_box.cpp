// SPDX-License-Identifier: MIT
#include "core/chart/canvas_box.hpp"

#include <cmath>

namespace bedlore {

namespace {

// Whether a line along one side of `a` parts the two boxes (separating axis): on each axis of `a`
// the centres lie at least as far apart as the halves of both reach.
bool parted(const CanvasBox& a, const CanvasBox& b) {
    const double c = std::cos(a.turn);
    const double s = std::sin(a.turn);
    const double x = b.centre.x - a.centre.x;
    const double y = b.centre.y - a.centre.y;
    const double cosine = std::abs(std::cos(b.turn - a.turn));
    const double sine = std::abs(std::sin(b.turn - a.turn));
    return std::abs(c * x + s * y) >= 0.5 * (a.width + b.width * cosine + b.height * sine) ||
           std::abs(c * y - s * x) >= 0.5 * (a.height + b.width * sine + b.height * cosine);
}

// Whether even the circles round the two boxes do not meet: most boxes on a map are far apart, and
// this costs no angle.
bool farApart(const CanvasBox& a, const CanvasBox& b) {
    const double x = b.centre.x - a.centre.x;
    const double y = b.centre.y - a.centre.y;
    // (p + q)² is at most 2 p² + 2 q².
    const double squares =
        a.width * a.width + a.height * a.height + b.width * b.width + b.height * b.height;
    return x * x + y * y >= 0.5 * squares;
}

} // namespace

bool overlap(const CanvasBox& a, const CanvasBox& b) {
    return !farApart(a, b) && !parted(a, b) && !parted(b, a);
}

} // namespace bedlore
