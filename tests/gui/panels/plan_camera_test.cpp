// SPDX-License-Identifier: MIT
#include "gui/plan_view/plan_camera.hpp"
#include "gui/plan_view/plan_overlay.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

const QRectF window(0, 0, 800, 600);

TEST(PlanCamera, NorthUpPutsNorthUpAndEastRight) {
    const PlanCamera camera{.centre = {100.0, 200.0}, .scale = 2.0};
    // By hand: 10 m north of the middle is 20 px above it, 10 m east 20 px to its right.
    EXPECT_EQ(camera.toView({100.0, 210.0}, window), QPointF(400.0, 280.0));
    EXPECT_EQ(camera.toView({110.0, 200.0}, window), QPointF(420.0, 300.0));
}

TEST(PlanCamera, LookingEastPutsEastUpAndSouthRight) {
    const PlanCamera camera{.centre = {0.0, 0.0}, .scale = 1.0, .up = PlaneBearing(90.0_deg)};
    const QPointF east = camera.toView({10.0, 0.0}, window);
    EXPECT_NEAR(east.x(), 400.0, 1e-9);
    EXPECT_NEAR(east.y(), 290.0, 1e-9);
    const QPointF south = camera.toView({0.0, -10.0}, window);
    EXPECT_NEAR(south.x(), 410.0, 1e-9);
    EXPECT_NEAR(south.y(), 300.0, 1e-9);
}

TEST(PlanCamera, LeadsThereAndBack) {
    const PlanCamera camera{.centre = {3.0, -7.0}, .scale = 3.7, .up = PlaneBearing(231.5_deg)};
    const Point place = camera.toPlane(camera.toView({41.0, 12.5}, window), window);
    EXPECT_NEAR(place.east, 41.0, 1e-9);
    EXPECT_NEAR(place.north, 12.5, 1e-9);
}

TEST(PlanCamera, ZoomsAboutThePointer) {
    PlanCamera camera{.centre = {3.0, -7.0}, .scale = 3.7, .up = PlaneBearing(40.0_deg)};
    const QPointF pointer(120.0, 500.0);
    const Point before = camera.toPlane(pointer, window);
    camera.zoom(1.5, pointer, window);
    const Point after = camera.toPlane(pointer, window);
    EXPECT_NEAR(camera.scale, 3.7 * 1.5, 1e-12);
    EXPECT_NEAR(after.east, before.east, 1e-9);
    EXPECT_NEAR(after.north, before.north, 1e-9);
}

TEST(PlanCamera, PansWithTheHand) {
    PlanCamera camera{.centre = {3.0, -7.0}, .scale = 2.0, .up = PlaneBearing(110.0_deg)};
    const Point place{20.0, 5.0};
    const QPointF before = camera.toView(place, window);
    camera.pan({30.0, -12.0});
    const QPointF moved = camera.toView(place, window) - before;
    EXPECT_NEAR(moved.x(), 30.0, 1e-9);
    EXPECT_NEAR(moved.y(), -12.0, 1e-9);
}

TEST(PlanCamera, ShowsTheWholeExtentWhateverIsUp) {
    const Extent extent{.west = -50.0, .south = 10.0, .east = 70.0, .north = 40.0};
    for (const double up : {0.0, 33.0, 90.0, 200.0}) {
        SCOPED_TRACE(up);
        const PlanCamera camera = cameraFor(extent, PlaneBearing(up * degree), window, 20.0);
        const QRectF inner = window.adjusted(19.9, 19.9, -19.9, -19.9);
        for (const Point corner :
             {Point{-50.0, 10.0}, Point{70.0, 10.0}, Point{70.0, 40.0}, Point{-50.0, 40.0}}) {
            EXPECT_TRUE(inner.contains(camera.toView(corner, window)));
        }
    }
}

TEST(PlanCamera, StaysWithinBoundsOfZoom) {
    PlanCamera camera;
    for (int i = 0; i < 200; ++i) {
        camera.zoom(2.0, window.center(), window);
    }
    EXPECT_LE(camera.scale, 400.0);
    EXPECT_TRUE(camera.toView(window).isInvertible());
}

TEST(PlanRings, StepIsOneTwoOrFiveTimesATen) {
    EXPECT_DOUBLE_EQ(roundStep(0.7), 1.0);
    EXPECT_DOUBLE_EQ(roundStep(1.0), 1.0);
    EXPECT_DOUBLE_EQ(roundStep(1.2), 2.0);
    EXPECT_DOUBLE_EQ(roundStep(3.0), 5.0);
    EXPECT_DOUBLE_EQ(roundStep(12.0), 20.0);
}

} // namespace
} // namespace bedlore
