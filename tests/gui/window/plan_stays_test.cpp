// SPDX-License-Identifier: MIT
#include "tests/gui/window/open_window.hpp"

#include <QAction>
#include <QImage>
#include <QSignalSpy>
#include <QTest>

// The plan does not jump under the eye of whoever types.

namespace bedlore::testing {
namespace {

constexpr int lines = 20;

/// Line by line on the last aim, nearer each time: inside of what is shown.
std::string lineOf(int number) {
    return std::to_string(31 - number / 2) + (number % 2 == 0 ? "" : "½") + " " +
           std::to_string(8 + number % 3);
}

/// Looks at the camera at each picture, of a line that shows at once and of one that has settled.
struct Watched : OpenWindow {
    PlanCamera before;
    int pictures = 0;

    Watched() { typePage(eveningPage()); }
    void watch() {
        before = desk().plan().camera();
        QObject::connect(&desk().jobs(), &JobBoard::changed, &window, [this] { look(); });
    }
    /// One line more, until its bed has come up.
    void typeAndSettle() {
        type("");
        type("C 31 9");
        EXPECT_TRUE(waitUntilIdle(desk().jobs()));
        EXPECT_TRUE(QTest::qWaitFor([&] { return !desk().plan().isFading(); }));
    }
    void look() {
        ++pictures;
        EXPECT_TRUE(desk().plan().camera() == before) << "at picture " << pictures;
    }
};

TEST(PlanStays, WhereItIsWhileLinesAreTypedInsideOfWhatItShows) {
    Watched open;
    open.type("");
    open.type("C 31 9");
    EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
    const std::size_t readings = open.records()->all<Reading>().size();
    open.watch();
    for (int line = 0; line < lines; ++line) {
        SCOPED_TRACE(lineOf(line));
        open.type(lineOf(line));
        open.look();
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        open.look();
    }
    EXPECT_EQ(open.records()->all<Reading>().size(), readings + lines);
    EXPECT_GT(open.pictures, 2 * lines);
}

TEST(PlanStays, WhereHePutItWhateverIsTyped) {
    Watched open;
    open.window.action(QStringLiteral("zoomIn"))->trigger();
    open.watch();
    for (int wraps = 40; wraps > 30; --wraps) { // farther than all before
        open.type("");
        open.type("C " + std::to_string(wraps) + " 11");
        EXPECT_TRUE(waitUntilIdle(open.desk().jobs()));
        open.look();
    }
    EXPECT_FALSE(open.before == PlanCamera{});
}

// A bed that is fitted anew behind a line comes up through the one before it.
TEST(PlanStays, AsItWasWhenTheBedOnlySettlesAndThenGoesOverIntoIt) {
    Watched open;
    open.typeAndSettle();
    PlanView& plan = open.desk().plan();
    ASSERT_FALSE(plan.isFading());

    QImage atOnce;
    QImage atFirst;
    QObject::connect(&open.desk().jobs(), &JobBoard::changed, &open.window, [&] {
        const bool settled = plan.picture()->bed->settled;
        if (!settled) {
            atOnce = plan.grab().toImage();
        } else if (!atOnce.isNull() && atFirst.isNull()) {
            EXPECT_TRUE(plan.isFading());
            atFirst = plan.grab().toImage();
        }
    });
    open.type("30 6");
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    ASSERT_FALSE(atOnce.isNull());
    ASSERT_FALSE(atFirst.isNull());
    EXPECT_EQ(atFirst, atOnce);
    ASSERT_TRUE(QTest::qWaitFor([&] { return !plan.isFading(); }));
    EXPECT_NE(plan.grab().toImage(), atOnce) << "the fit behind it has changed something";
}

TEST(PlanStays, ABedThatComesUpDoesNotShineThroughAnotherView) {
    Watched open;
    open.typeAndSettle();
    PlanView& plan = open.desk().plan();
    ASSERT_FALSE(plan.isFading());
    QImage turned;
    QObject::connect(&open.desk().jobs(), &JobBoard::changed, &open.window, [&] {
        if (plan.isFading() && turned.isNull()) {
            plan.lookNorthUp();
            turned = plan.grab().toImage();
        }
    });
    open.type("30 6");
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    ASSERT_FALSE(turned.isNull());
    ASSERT_TRUE(QTest::qWaitFor([&] { return !plan.isFading(); }));
    EXPECT_EQ(plan.grab().toImage(), turned);
}

TEST(PlanStays, WhatHeMovesOrTypesEndsTheGoingOver) {
    Watched open;
    open.type("");
    open.type("C 31 9");
    PlanView& plan = open.desk().plan();
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    int faded = 0;
    QObject::connect(&open.desk().jobs(), &JobBoard::changed, &open.window, [&] {
        if (plan.isFading()) {
            ++faded;
            open.window.action(QStringLiteral("zoomIn"))->trigger();
            EXPECT_FALSE(plan.isFading());
        }
    });
    open.type("30 6");
    ASSERT_TRUE(waitUntilIdle(open.desk().jobs()));
    EXPECT_GT(faded, 0);
}

} // namespace
} // namespace bedlore::testing
