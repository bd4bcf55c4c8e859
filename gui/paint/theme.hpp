// SPDX-License-Identifier: MIT
#pragma once

#include <QColor>

#include <cstdint>

// The palettes: one place for every colour that is not depth.

namespace bedlore {

enum class PaletteKind : std::uint8_t { Light, Dark, Night, Print };

/// Colours by what they are for. Ink on paper and soft ink on paper have the contrasts that the
/// design asks for.
struct Palette {
    QColor paper;
    QColor panel;
    QColor line;
    QColor ink;
    QColor softInk;
    QColor accent;
    QColor warn;
    QColor selection;
};

[[nodiscard]] const Palette& palette(PaletteKind kind);

/// `colour`, of which this share (0 to 1) is seen and the rest is what lies under it.
[[nodiscard]] QColor faded(QColor colour, double opacity);

} // namespace bedlore
