// SPDX-License-Identifier: MIT
#include "core/chart/colour_ramp.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

namespace bedlore {
namespace {

TEST(DepthColour, BeginsAndEndsAsTheRampsFileDoes) {
    // Source: first and last row of resources/ramps/depth_ramp.csv.
    EXPECT_EQ(depthColour(0.0), (Rgb{248, 233, 208}));
    EXPECT_EQ(depthColour(1.0), (Rgb{47, 39, 70}));
}

TEST(DepthColour, IsHeldOutsideTheRampAndShallowForNoNumber) {
    EXPECT_EQ(depthColour(-3.0), depthColour(0.0));
    EXPECT_EQ(depthColour(7.0), depthColour(1.0));
    EXPECT_EQ(depthColour(std::numeric_limits<double>::infinity()), depthColour(1.0));
    EXPECT_EQ(depthColour(std::numeric_limits<double>::quiet_NaN()), depthColour(0.0));
}

TEST(DepthColour, DarkensAllTheWayFromNinetyThreeToEighteen) {
    // Source: the ramp's design, lightness falling all the way from 93 to 18 (to the unit).
    EXPECT_NEAR(lightness(depthColour(0.0)), 93.0, 0.6);
    EXPECT_NEAR(lightness(depthColour(1.0)), 18.0, 0.6);
    for (int i = 1; i <= 64; ++i) {
        EXPECT_LT(lightness(depthColour(i / 64.0)), lightness(depthColour((i - 1) / 64.0))) << i;
    }
}

TEST(Lightness, OfWhiteBlackAndMiddleGreyIsAsPublished) {
    // Source: CIE 15, L* = 116 Y^(1/3) - 16; sRGB grey 119 has Y = 0.1845, so L* = 50.03 (by hand).
    EXPECT_NEAR(lightness({255, 255, 255}), 100.0, 1e-9);
    EXPECT_NEAR(lightness({0, 0, 0}), 0.0, 1e-9);
    EXPECT_NEAR(lightness({119, 119, 119}), 50.03, 0.05);
}

TEST(Lightened, MovesLightnessByWhatWasAskedAndStaysInside) {
    for (const double share : {0.1, 0.4, 0.7, 1.0}) {
        const Rgb colour = depthColour(share);
        for (const double change : {-12.0, -3.0, 0.0, 5.0, 12.0}) {
            const double expected = std::clamp(lightness(colour) + change, 0.0, 100.0);
            // One step of eight bits is at most 0.6 of L* in dark colours.
            EXPECT_NEAR(lightness(lightened(colour, change)), expected, 0.6) << share << change;
        }
    }
    EXPECT_EQ(lightened({0, 0, 0}, -5.0), (Rgb{0, 0, 0}));
    EXPECT_EQ(lightened({255, 255, 255}, 5.0), (Rgb{255, 255, 255}));
}

} // namespace
} // namespace bedlore
