// SPDX-License-Identifier: MIT
#include "gui/paint/theme.hpp"

#include "core/base/contract.hpp"

namespace bedlore {

const Palette& palette(PaletteKind kind) {
    static const Palette light{
        .paper = QColor(0xFB, 0xF8, 0xF2),
        .panel = QColor(0xF1, 0xEC, 0xE2),
        .line = QColor(0xD5, 0xCD, 0xBD),
        .ink = QColor(0x24, 0x21, 0x1C),
        .softInk = QColor(0x5C, 0x56, 0x4B),
        .accent = QColor(0x1F, 0x5E, 0x63),
        .warn = QColor(0x9A, 0x3B, 0x12),
        .selection = QColor(0xDC, 0xE8, 0xE4)};
    static const Palette dark{
        .paper = QColor(0x1C, 0x1E, 0x20),
        .panel = QColor(0x26, 0x29, 0x2B),
        .line = QColor(0x3C, 0x41, 0x44),
        .ink = QColor(0xEE, 0xEA, 0xE1),
        .softInk = QColor(0xB5, 0xB0, 0xA4),
        .accent = QColor(0x7C, 0xC4, 0xBE),
        .warn = QColor(0xF0, 0xA0, 0x6A),
        .selection = QColor(0x31, 0x48, 0x4A)};
    static const Palette night{
        .paper = QColor(0x0B, 0x02, 0x02),
        .panel = QColor(0x15, 0x04, 0x04),
        .line = QColor(0x3A, 0x0D, 0x0D),
        .ink = QColor(0xFF, 0x6B, 0x5E),
        .softInk = QColor(0xC2, 0x4A, 0x42),
        .accent = QColor(0xFF, 0x8A, 0x7A),
        .warn = QColor(0xFF, 0xB0, 0xA0),
        .selection = QColor(0x3A, 0x0A, 0x0A)};
    static const Palette print{
        .paper = QColor(0xFF, 0xFF, 0xFF),
        .panel = QColor(0xFF, 0xFF, 0xFF),
        .line = QColor(0x60, 0x60, 0x60),
        .ink = QColor(0x00, 0x00, 0x00),
        .softInk = QColor(0x30, 0x30, 0x30),
        .accent = QColor(0x00, 0x00, 0x00),
        .warn = QColor(0x00, 0x00, 0x00),
        .selection = QColor(0xE0, 0xE0, 0xE0)};
    switch (kind) {
    case PaletteKind::Light:
        return light;
    case PaletteKind::Dark:
        return dark;
    case PaletteKind::Night:
        return night;
    case PaletteKind::Print:
        return print;
    }
    BEDLORE_EXPECTS(false && "every palette has colours");
    return light;
}

QColor faded(QColor colour, double opacity) {
    colour.setAlphaF(static_cast<float>(opacity));
    return colour;
}

} // namespace bedlore
