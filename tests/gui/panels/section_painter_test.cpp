// SPDX-License-Identifier: MIT
#include "gui/section_view/section_painter.hpp"

#include <QFontMetricsF>
#include <QGuiApplication>
#include <gtest/gtest.h>

namespace bedlore {
namespace {

constexpr QRectF window(0.0, 0.0, 640.0, 190.0);

QFont fontOf(double points) {
    QFont font = QGuiApplication::font();
    font.setPointSizeF(points);
    return font;
}

/// A level bed 3 m down, known to half a metre, but for its last sample.
SectionProfile levelBed() {
    SectionProfile section;
    section.tipHeight = 2.0;
    section.reach = 100.0;
    section.sampledTo = 100.0;
    section.deepest = 3.0;
    for (int i = 0; i <= 100; ++i) {
        section.samples.push_back(
            {.range = double(i), .depth = 3.0, .sigma = i == 100 ? 50.0 : 0.5, .known = i < 100});
    }
    return section;
}

TEST(SectionScale, LeavesRoomForHowUnsureTheBedIs) {
    const SectionScale scale = scaleOf(levelBed(), window, fontOf(9.5));
    // Source: by hand. 19 of 20 within 1.96 errors: 3 + 1.96 × 0.5 = 3.98 m.
    EXPECT_LE(scale.y(3.98), scale.plot.bottom());
    EXPECT_GT(scale.below, 3.98);
    EXPECT_LT(scale.below, 6.0) << "what is not known takes no room";
}

TEST(SectionScale, SharesThePlansScaleWhereTheWidthSuits) {
    SectionProfile section = levelBed();
    section.sampledTo = 170.0;
    const SectionScale own = scaleOf(section, window, fontOf(9.5));
    EXPECT_EQ(own.reach, 100.0);
    EXPECT_FALSE(own.sharesPlan);
    // Source: by hand. As many pixels for a metre as show 120 m in this width.
    const double suits = own.plot.width() / 120.0;
    const SectionScale shared = scaleOf(section, window, fontOf(9.5), suits);
    EXPECT_TRUE(shared.sharesPlan);
    EXPECT_NEAR(shared.reach, 120.0, 1e-9);
    EXPECT_NEAR(shared.x(50.0) - shared.x(0.0), 50.0 * suits, 1e-9);
    // Nearer, and the far end would not be seen; farther, and most of the width would be wasted.
    for (const double other : {own.plot.width() / 90.0, own.plot.width() / 300.0, 0.0}) {
        EXPECT_EQ(scaleOf(section, window, fontOf(9.5), other).reach, 100.0) << other;
    }
}

TEST(SectionScale, SaysHowMuchTallerDepthsAre) {
    const SectionScale scale = scaleOf(levelBed(), window, fontOf(9.5));
    // Source: by hand. A metre down over a metre along, both in pixels.
    EXPECT_NEAR(
        scale.taller(), (scale.y(1.0) - scale.y(0.0)) / (scale.x(1.0) - scale.x(0.0)), 1e-9);
}

TEST(SectionScale, HoldsABandOfAnySizeToTwiceTheDepth) {
    SectionProfile section = levelBed();
    section.samples.front().sigma = 1000.0;
    // Source: by hand. Twice 3 m and a twentieth of it: 6.3 m.
    EXPECT_NEAR(scaleOf(section, window, fontOf(9.5)).below, 6.3, 1e-9);
}

TEST(SectionScale, LeavesRoomForTheWordUnderAStretch) {
    SectionProfile section = levelBed();
    SectionReading silt;
    silt.range = 60.0;
    silt.to = 50.0;
    silt.substrate = Substrate::Silt;
    section.readings.push_back(silt);
    for (const double points : {9.5, 14.25}) { // usual and largest text
        const SectionScale scale = scaleOf(section, window, fontOf(points));
        const double line = QFontMetricsF(fontOf(points)).height();
        EXPECT_LE(scale.y(3.0) + 9.0 + line, scale.plot.bottom()) << "a strip, then the word";
        EXPECT_GE(window.bottom() - scale.plot.bottom(), line + 6.0) << "numbers under the plot";
    }
}

} // namespace
} // namespace bedlore
