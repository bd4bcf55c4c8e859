// SPDX-License-Identifier: MIT
#include "gui/paint/theme.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace bedlore {
namespace {

// Source: WCAG 2.1, definitions of relative luminance and contrast ratio.
double luminance(const QColor& colour) {
    const auto linear = [](double c) {
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) +
           0.0722 * linear(colour.blueF());
}

double contrast(const QColor& a, const QColor& b) {
    const double light = std::max(luminance(a), luminance(b));
    const double dark = std::min(luminance(a), luminance(b));
    return (light + 0.05) / (dark + 0.05);
}

struct Wanted {
    PaletteKind kind;
    double ink;
    double softInk;
};

TEST(Palette, InkStandsOutAsTheDesignAsks) {
    // Source: the design's table of palettes, contrast of ink and of soft ink on paper.
    for (const Wanted& wanted :
         {Wanted{PaletteKind::Light, 15.1, 6.9},
          Wanted{PaletteKind::Dark, 13.9, 7.7},
          Wanted{PaletteKind::Night, 7.3, 4.3}}) {
        const Palette& colours = palette(wanted.kind);
        EXPECT_NEAR(contrast(colours.ink, colours.paper), wanted.ink, 0.1);
        EXPECT_NEAR(contrast(colours.softInk, colours.paper), wanted.softInk, 0.1);
    }
}

TEST(Palette, WordsOnEveryGroundCanBeRead) {
    // Source: WCAG 2.1, 1.4.3: 4.5 for text, 3 for large text and for what marks a state.
    for (const PaletteKind kind : {PaletteKind::Light, PaletteKind::Dark, PaletteKind::Night}) {
        const Palette& colours = palette(kind);
        for (const QColor& ground : {colours.paper, colours.panel, colours.selection}) {
            EXPECT_GE(contrast(colours.ink, ground), 4.5);
            EXPECT_GE(contrast(colours.warn, ground), 3.0);
            EXPECT_GE(contrast(colours.accent, ground), 3.0);
        }
    }
}

TEST(Palette, NightIsRedLightAlone) {
    // Green and blue light spoils eyes that are used to the dark: none of its colours has more of
    // either than three quarters of its red.
    const Palette& night = palette(PaletteKind::Night);
    for (const QColor& colour :
         {night.paper,
          night.panel,
          night.line,
          night.ink,
          night.softInk,
          night.accent,
          night.warn,
          night.selection}) {
        EXPECT_LE(colour.greenF(), 0.75F * colour.redF());
        EXPECT_LE(colour.blueF(), 0.75F * colour.redF());
    }
}

} // namespace
} // namespace bedlore
