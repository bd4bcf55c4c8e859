// SPDX-License-Identifier: MIT
#include "core/chart/colour_ramp.hpp"
#include "tests/support/colour_vision.hpp"

#include <gtest/gtest.h>

// Whether depths can be told apart: evenly, and by every eye.

namespace bedlore {
namespace {

using testing::apart;
using testing::lab;
using testing::linear;
using testing::seenBy;
using testing::Triple;
using testing::Vision;
using testing::visions;

constexpr int classes = 16; // as many depth bands as a sheet shows

TEST(DepthColour, StepsEvenlyToTheEye) {
    // Source: the ramp's own design, 255 steps of ΔE 0.427 in CIELAB: a sixteenth is 6.81 along the
    // path, and a little less straight across; half a unit of rounding in each of two colours.
    constexpr double along = 255.0 * 0.427 / classes;
    for (int i = 0; i < classes; ++i) {
        const double step = apart(
            lab(linear(depthColour(static_cast<double>(i) / classes))),
            lab(linear(depthColour(static_cast<double>(i + 1) / classes))));
        EXPECT_LE(step, along + 0.7) << i;
        EXPECT_GE(step, 0.85 * along) << i;
    }
}

TEST(ColourVision, GreysStayGreyWithoutOneKindOfCones) {
    for (const Vision& vision : visions) {
        for (const Triple& row : vision.matrix) {
            EXPECT_NEAR(row[0] + row[1] + row[2], 1.0, 1e-5) << vision.name;
        }
    }
}

TEST(DepthColour, NeighbouringBandsStayApartWithoutOneKindOfCones) {
    // Common practice: a ΔE of 2.3 is just noticeable (Mahy and others 1994); half as much
    // again is asked for here.
    for (const Vision& vision : visions) {
        for (int i = 0; i < classes; ++i) {
            const Triple a = lab(seenBy(vision, depthColour(static_cast<double>(i) / classes)));
            const Triple b = lab(seenBy(vision, depthColour(static_cast<double>(i + 1) / classes)));
            EXPECT_GE(apart(a, b), 3.5) << vision.name << " " << i;
            EXPECT_GT(a[0], b[0]) << vision.name << ": deeper must be darker, band " << i;
        }
    }
}

} // namespace
} // namespace bedlore
