// SPDX-License-Identifier: MIT
#include "core/chart/contour_labels.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>
#include <vector>

namespace bedlore {
namespace {

using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr double pi = std::numbers::pi;

LabelOptions onCanvas() {
    LabelOptions options;
    options.window = {{500.0, 400.0}, 1000.0, 800.0, 0.0};
    return options;
}

LineToLabel circle(CanvasPoint centre, double radius) {
    LineToLabel line{.vertices = {}, .closed = true, .width = 20.0};
    for (int i = 0; i < 180; ++i) {
        const double a = 2.0 * pi * i / 180.0;
        line.vertices.push_back({centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)});
    }
    return line;
}

TEST(ContourLabels, StandOnTheirLineAndAlongIt) {
    const LineToLabel line{
        .vertices = {{100.0, 100.0}, {300.0, 300.0}}, .closed = false, .width = 20.0};
    const auto places = placeLabels({line}, {}, onCanvas());
    ASSERT_THAT(places, SizeIs(1));
    EXPECT_NEAR(places[0].box.centre.x, places[0].box.centre.y, 1e-9);
    EXPECT_NEAR(places[0].box.turn, pi / 4.0, 1e-9);
    // The number is 20 wide with 3 free on each side.
    EXPECT_NEAR(places[0].to - places[0].from, 26.0, 1e-9);
}

TEST(ContourLabels, NothingIsPlacedWithoutAWidth) {
    LabelOptions options = onCanvas();
    options.gap = 0.0;
    const LineToLabel line{
        .vertices = {{100.0, 100.0}, {300.0, 300.0}}, .closed = false, .width = 0.0};
    EXPECT_THAT(placeLabels({line}, {}, options), IsEmpty());
}

TEST(ContourLabels, AreNeverUpsideDown) {
    for (int degrees = 0; degrees < 360; degrees += 5) {
        const double a = degrees * pi / 180.0;
        const LineToLabel line{
            .vertices =
                {{500.0, 400.0}, {500.0 + 200.0 * std::cos(a), 400.0 + 200.0 * std::sin(a)}},
            .closed = false,
            .width = 20.0};
        const auto places = placeLabels({line}, {}, onCanvas());
        ASSERT_THAT(places, SizeIs(1)) << degrees;
        EXPECT_GT(places[0].box.turn, -pi / 2.0 - 1e-12) << degrees;
        EXPECT_LE(places[0].box.turn, pi / 2.0 + 1e-12) << degrees;
    }
}

TEST(ContourLabels, NeverCollideWithOneAnotherNorWithWhatIsTaken) {
    std::vector<LineToLabel> lines;
    for (int i = 1; i <= 12; ++i) {
        lines.push_back(circle({500.0, 400.0}, 28.0 * i));
    }
    const std::vector<CanvasBox> taken{{{500.0, 200.0}, 300.0, 100.0, 0.3}};
    const auto places = placeLabels(lines, TakenBoxes(taken), onCanvas());
    EXPECT_GT(places.size(), 12U);
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_FALSE(overlap(places[i].box, taken[0]));
        for (std::size_t j = i + 1; j < places.size(); ++j) {
            EXPECT_FALSE(overlap(places[i].box, places[j].box)) << i << " " << j;
        }
    }
}

TEST(ContourLabels, StayInsideTheWindow) {
    const auto places = placeLabels({circle({0.0, 0.0}, 300.0)}, {}, onCanvas());
    for (const LabelPlace& place : places) {
        EXPECT_GE(place.box.centre.x, 0.5 * place.box.height);
        EXPECT_GE(place.box.centre.y, 0.5 * place.box.height);
    }
    EXPECT_THAT(places, ::testing::Not(IsEmpty()));
    EXPECT_THAT(placeLabels({circle({-900.0, 0.0}, 300.0)}, {}, onCanvas()), IsEmpty());
}

TEST(ContourLabels, LeaveShortAndCrookedLinesAlone) {
    EXPECT_THAT(placeLabels({circle({500.0, 400.0}, 7.0)}, {}, onCanvas()), IsEmpty());
    EXPECT_THAT(placeLabels({LineToLabel{}}, {}, onCanvas()), IsEmpty());
    LineToLabel zigzag{.vertices = {}, .closed = false, .width = 20.0};
    for (int i = 0; i < 60; ++i) {
        zigzag.vertices.push_back({300.0 + 4.0 * i, 400.0 + (i % 2 == 0 ? 0.0 : 6.0)});
    }
    EXPECT_THAT(placeLabels({zigzag}, {}, onCanvas()), IsEmpty());
}

TEST(Overlap, OfTurnedBoxesIsFoundByTheirSides) {
    const CanvasBox upright{{0.0, 0.0}, 10.0, 10.0, 0.0};
    // By hand: a square of side 10 turned by 45 degrees reaches 7.07 from its centre; its corner
    // enters the upright one until the centres are 12.07 apart.
    EXPECT_TRUE(overlap(upright, {{12.0, 0.0}, 10.0, 10.0, pi / 4.0}));
    EXPECT_FALSE(overlap(upright, {{12.1, 0.0}, 10.0, 10.0, pi / 4.0}));
    EXPECT_FALSE(overlap(upright, {{8.7, 8.7}, 10.0, 10.0, pi / 4.0}));
    EXPECT_TRUE(overlap(upright, {{8.4, 8.4}, 10.0, 10.0, pi / 4.0}));
}

TEST(TakenBoxes, AnswersAsLookingAtEveryBoxDoes) {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> at(-200.0, 900.0);
    std::uniform_real_distribution<double> length(0.5, 60.0);
    std::uniform_real_distribution<double> turn(-pi, pi);
    std::vector<CanvasBox> boxes{{{300.0, 300.0}, 900.0, 200.0, 0.4}}; // over many squares
    TakenBoxes taken(boxes);
    int free = 0;
    for (int i = 0; i < 2000; ++i) {
        const bool large = i % 50 == 0;
        const CanvasBox box{
            {at(random), at(random)}, large ? 700.0 : length(random), length(random), turn(random)};
        const bool isFree = std::none_of(boxes.begin(), boxes.end(), [&](const CanvasBox& other) {
            return overlap(box, other);
        });
        ASSERT_EQ(taken.isFree(box), isFree) << i;
        if (isFree) {
            ++free;
            boxes.push_back(box);
            taken.add(box);
        }
    }
    EXPECT_GT(free, 100);
    EXPECT_LT(free, 1500);
}

} // namespace
} // namespace bedlore
