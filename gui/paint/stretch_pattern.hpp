// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/kinds.hpp"

#include <QColor>

#include <cstdint>

class QPainter;

// How the bottom looks along a stretch: pattern first, colour second.

namespace bedlore {

/// Open soil and geological chart conventions.
enum class StretchPattern : std::uint8_t {
    Plain,
    Blocks,
    Circles,
    Crescents,
    Dots,
    Lines,
    Dashes,
    Tufts,
    Vees,
    Bars,
    Crosses,
    ThickTicks,
    ThinTicks
};

struct StretchLook {
    StretchPattern pattern = StretchPattern::Plain;
    QColor colour;
    bool filled = false; ///< the ground has the colour, and the pattern is paper
};

[[nodiscard]] StretchLook lookOf(Substrate kind);
[[nodiscard]] StretchLook lookOf(Cover kind);

/// Draws one piece of a pattern at the painter's origin, x along the stretch, `size` times as large
/// as on screen.
void paintPiece(QPainter& painter, StretchPattern pattern, double size);

} // namespace bedlore
