// SPDX-License-Identifier: MIT
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <memory>
#include <stop_token>

namespace bedlore {
namespace {

using testing::isWithin;
using testing::NoteBook;
using testing::noticeWith;

constexpr float noFloat = std::numeric_limits<float>::quiet_NaN();

FixSet setOf(Id<Water> water, FixFrame frame, FixColumns columns) {
    return {
        .water = water,
        .name = "boat",
        .frame = frame,
        .columns = std::make_shared<const FixColumns>(std::move(columns))};
}

TEST(FixSoundings, LieAtTheirLevelBelowTheSurfaceOfTheirDay) {
    NoteBook notes;
    FixColumns columns;
    columns.x = {10.0, 20.0};
    columns.y = {0.0, 0.0};
    columns.depth = {3.0, 4.0};
    columns.sigma = {0.05F, noFloat};
    columns.level = {0.5F, 0.5F};
    notes.add(setOf(notes.water, FixFrame::Plane, columns));
    const Reduction reduction = notes.reduced();
    ASSERT_EQ(reduction.soundings.size(), 2U);
    // By hand: 0.5 m above zero, 3 m down, is 2.5 m below zero.
    EXPECT_THAT(reduction.soundings[0].level.aboveDatum, isWithin(1e-9 * metre, -2.5_m));
    EXPECT_THAT(reduction.soundings[0].levelSigma, isWithin(1e-8 * metre, 0.05_m));
    EXPECT_THAT(reduction.soundings[1].levelSigma, isWithin(1e-8 * metre, 0.2_m));
    EXPECT_FALSE(reduction.soundings[0].line.has_value());
    EXPECT_TRUE(reduction.notices.empty());
}

TEST(FixSoundings, RowsSetAsideAndRowsWithoutNumbersAreLeftOut) {
    NoteBook notes;
    FixColumns columns;
    columns.x = {10.0, 20.0, std::numeric_limits<double>::quiet_NaN(), 40.0};
    columns.y = {0.0, 0.0, 0.0, 0.0};
    columns.depth = {3.0, 4.0, 5.0, std::numeric_limits<double>::infinity()};
    FixSet set = setOf(notes.water, FixFrame::Plane, columns);
    set.excluded =
        std::make_shared<const std::vector<std::uint8_t>>(std::vector<std::uint8_t>{1, 0, 0, 0});
    notes.add(set);
    const Reduction reduction = notes.reduced();
    ASSERT_EQ(reduction.soundings.size(), 1U);
    EXPECT_EQ(reduction.soundings[0].place, (Point{20.0, 0.0}));
    EXPECT_NE(noticeWith(reduction, "2 rows"), nullptr);
    EXPECT_NE(noticeWith(reduction, "no level"), nullptr);
}

TEST(FixSoundings, GeographicOnesGiveAWaterWithoutSwimsItsPlane) {
    NoteBook notes;
    FixColumns columns;
    columns.x = {-1.2001, -1.1999};
    columns.y = {52.2, 52.2};
    columns.depth = {3.0, 4.0};
    notes.add(setOf(notes.water, FixFrame::Geographic, columns));
    const Reduction reduction = notes.reduced();
    ASSERT_EQ(reduction.soundings.size(), 2U);
    EXPECT_EQ(reduction.frame.origin(), (GeographicPoint{52.2, -1.2}));
    // By hand: 1e-4° of longitude at 52.2° N on WGS 84 is 6.8371 m.
    for (const Sounding& sounding : reduction.soundings) {
        const bool eastern = std::get<FixRow>(sounding.source).row == 1;
        EXPECT_NEAR(sounding.place.east, eastern ? 6.837 : -6.837, 0.002);
    }
}

TEST(FixSoundings, GeographicOnesInAPlaneWithoutOriginAreLeftOutAndSaid) {
    NoteBook notes;
    notes.swim("P14", Point{0.0, 0.0});
    FixColumns columns;
    columns.x = {-1.2};
    columns.y = {52.2};
    columns.depth = {3.0};
    const auto id = notes.add(setOf(notes.water, FixFrame::Geographic, columns));
    const auto alone = notes.swim("P15", Place{});
    const Reduction reduction = notes.reduced(alone);
    EXPECT_TRUE(reduction.soundings.empty());
    ASSERT_NE(noticeWith(reduction, "latitude"), nullptr);
    EXPECT_EQ(noticeWith(reduction, "latitude")->about, AnyId(id));
}

TEST(FixSoundings, StandInTheOrderOfTheirPlaces) {
    FixColumns columns;
    columns.x = {3.0, 1.0, 2.0, 1.0};
    columns.y = {1.0, 1.0, 0.0, 1.0};
    columns.depth = {1.0, 2.0, 3.0, 1.5};
    FixColumns turned = columns;
    std::reverse(turned.x.begin(), turned.x.end());
    std::reverse(turned.y.begin(), turned.y.end());
    std::reverse(turned.depth.begin(), turned.depth.end());
    NoteBook one;
    one.add(setOf(one.water, FixFrame::Plane, columns));
    NoteBook two;
    two.add(setOf(two.water, FixFrame::Plane, turned));
    const auto a = one.reduced().soundings;
    const auto b = two.reduced().soundings;
    ASSERT_EQ(a.size(), 4U);
    ASSERT_EQ(b.size(), 4U);
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_EQ(a[i].place, b[i].place);
        EXPECT_EQ(a[i].level, b[i].level);
    }
}

TEST(FixSoundings, CanBeStopped) {
    NoteBook notes;
    FixColumns columns;
    columns.x.assign(100000, 1.0);
    columns.y.assign(100000, 1.0);
    columns.depth.assign(100000, 1.0);
    notes.add(setOf(notes.water, FixFrame::Plane, columns));
    std::stop_source stop;
    stop.request_stop();
    const auto stopped =
        reduce(notes.book, {.water = notes.water, .alone = {}}, Progress(stop.get_token()));
    ASSERT_FALSE(stopped.has_value());
    EXPECT_EQ(stopped.error().fault, Fault::Cancelled);
}

} // namespace
} // namespace bedlore
