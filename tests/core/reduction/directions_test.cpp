// SPDX-License-Identifier: MIT
#include "core/reduction/directions.hpp"
#include "tests/core/reduction/note_book.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using testing::degrees;
using testing::NoteBook;

class Directions : public ::testing::Test {
protected:
    Id<Aim> aim(AimBasis basis) {
        return notes.add(
            Aim{.visit = visit, .order = ++order_, .label = "A", .basis = std::move(basis)});
    }
    Id<Aim> at(double gridDegrees) {
        return aim(AimAtBearing{BearingEntry{degrees(gridDegrees), North::Grid}});
    }
    Id<Cast> castOn(std::optional<Id<Aim>> aimed) {
        return notes.add(Cast{.visit = visit, .order = ++order_, .aim = aimed});
    }
    VisitDirections found() const {
        const LocalFrame frame = LocalFrame::withoutOrigin();
        const VisitNotes ofVisit = notesOf(notes.book, notes.water).front();
        const NorthAt north(frame, tip, std::nullopt, ofVisit.visit->date);
        return castDirections(notes.book, ofVisit, north, tip);
    }
    double degreesOf(Id<Aim> id) const { return found().aims.at(id).bearing.degrees(); }

    NoteBook notes;
    Point tip{100.0, 200.0};
    Id<Swim> swim = notes.swim("P14", Point{100.0, 200.0});
    Id<Visit> visit = notes.visit(swim, 4, 12);

private:
    int order_ = 0;
};

TEST_F(Directions, AMarkWithAPlaceIsSeenFromTheTip) {
    // By hand: 300 m east and 300 m north of the tip is 45°.
    const auto mark = notes.add(Mark{.water = notes.water, .place = Point{400.0, 500.0}});
    const auto a = aim(AimAtMark{.mark = mark});
    const auto b = aim(AimAtMark{.mark = mark, .offset = Entered{-1.0, Unit::Fist, {}}});
    const auto c = aim(AimAtMark{.mark = mark, .offset = Entered{2.0, Unit::Finger, {}}});
    EXPECT_NEAR(degreesOf(a), 45.0, 1e-9);
    EXPECT_NEAR(degreesOf(b), 35.0, 1e-9);
    EXPECT_NEAR(degreesOf(c), 49.0, 1e-9);
    EXPECT_FALSE(found().aims.at(a).guessed);
}

TEST_F(Directions, AMarksBearingCountsOnlyAsSeenFromThisSwim) {
    const BearingEntry bearing{degrees(231.5), North::Grid};
    const auto other = notes.swim("P15", Point{0.0, 0.0});
    const auto here =
        notes.add(Mark{.water = notes.water, .bearingFrom = swim, .bearing = bearing});
    const auto elsewhere =
        notes.add(Mark{.water = notes.water, .bearingFrom = other, .bearing = bearing});
    const auto a = aim(AimAtMark{.mark = here});
    const auto b = aim(AimAtMark{.mark = elsewhere});
    EXPECT_NEAR(degreesOf(a), 231.5, 1e-9);
    EXPECT_FALSE(found().aims.at(a).guessed);
    EXPECT_TRUE(found().aims.at(b).guessed);
}

TEST_F(Directions, OneAimHangsOnAnotherByDegreesFistsAndFingers) {
    const auto a = at(350.0);
    const auto b = aim(AimFromAim{a, degrees(15.0)});
    const auto c = aim(AimFromAim{b, {1.0, Unit::Fist, {}}});
    const auto d = aim(AimFromAim{a, {-3.0, Unit::Finger, {}}});
    EXPECT_NEAR(degreesOf(b), 5.0, 1e-9);
    EXPECT_NEAR(degreesOf(c), 15.0, 1e-9);
    EXPECT_NEAR(degreesOf(d), 344.0, 1e-9);
    EXPECT_FALSE(found().aims.at(c).guessed);
}

TEST_F(Directions, AimsThatHangOnEachOtherAreGuessedAndDoNotHang) {
    const auto a = aim(AimWithoutAngle{});
    const auto b = aim(AimFromAim{a, degrees(10.0)});
    notes.change<Aim>(a, [&](Aim& record) { record.basis = AimFromAim{b, degrees(10.0)}; });
    EXPECT_TRUE(found().aims.at(a).guessed);
    EXPECT_TRUE(found().aims.at(b).guessed);
}

TEST_F(Directions, TwelveOClockIsMidwayBetweenTheBoundaries) {
    // By hand: between 340° and 40° lies 10°; one o'clock is 30° to its right.
    notes.change<Swim>(swim, [](Swim& record) {
        record.leftBoundary = BearingEntry{degrees(340.0), North::Grid};
        record.rightBoundary = BearingEntry{degrees(40.0), North::Grid};
    });
    const auto twelve = aim(AimAtClock{{12.0, Unit::ClockHour, "12"}});
    const auto one = aim(AimAtClock{{1.0, Unit::ClockHour, "1"}});
    const auto eleven = aim(AimAtClock{{11.0, Unit::ClockHour, "11"}});
    EXPECT_NEAR(degreesOf(twelve), 10.0, 1e-9);
    EXPECT_NEAR(degreesOf(one), 40.0, 1e-9);
    EXPECT_NEAR(degreesOf(eleven), 340.0, 1e-9);
    EXPECT_FALSE(found().aims.at(one).guessed);
}

TEST_F(Directions, WithoutAnyAngleTheFanStandsEvenlyAboutThePlanesNorth) {
    const auto a = aim(AimWithoutAngle{});
    const auto b = aim(AimWithoutAngle{});
    const auto c = aim(AimWithoutAngle{});
    EXPECT_NEAR(degreesOf(a), 350.0, 1e-9);
    EXPECT_NEAR(degreesOf(b), 0.0, 1e-9);
    EXPECT_NEAR(degreesOf(c), 10.0, 1e-9);
    EXPECT_TRUE(found().aims.at(b).guessed);
}

TEST_F(Directions, AimsWithoutAnAngleAreFittedBetweenThoseThatHaveOne) {
    // By hand: two between 200° and 230° stand at 210° and 220°; one to the right of all at 240°.
    at(200.0);
    const auto b = aim(AimWithoutAngle{});
    const auto c = aim(AimWithoutAngle{});
    at(230.0);
    const auto e = aim(AimWithoutAngle{});
    EXPECT_NEAR(degreesOf(b), 210.0, 1e-9);
    EXPECT_NEAR(degreesOf(c), 220.0, 1e-9);
    EXPECT_NEAR(degreesOf(e), 240.0, 1e-9);
}

TEST_F(Directions, AnAimWithoutAnAngleStandsBesideThoseThatHangOnAnother) {
    // By hand: A at 340°, B 10° right of it at 350°, D a fist right of B at 0°; C, noted between B
    // and D, stands midway at 355° and on none of them.
    const auto a = at(340.0);
    const auto b = aim(AimFromAim{a, degrees(10.0)});
    const auto c = aim(AimWithoutAngle{});
    const auto d = aim(AimFromAim{b, {1.0, Unit::Fist, {}}});
    EXPECT_NEAR(degreesOf(b), 350.0, 1e-9);
    EXPECT_NEAR(degreesOf(c), 355.0, 1e-9);
    EXPECT_NEAR(degreesOf(d), 0.0, 1e-9);
    EXPECT_TRUE(found().aims.at(c).guessed);
    EXPECT_FALSE(found().aims.at(d).guessed);
}

TEST_F(Directions, LeftOfAnAimStandsToItsLeft) {
    const auto b = at(100.0);
    const auto a = aim(AimLeftOf{b});
    EXPECT_NEAR(degreesOf(a), 90.0, 1e-9);
    EXPECT_TRUE(found().aims.at(a).guessed);
}

TEST_F(Directions, AGuessedFanStaysInFrontOfTheSwim) {
    std::vector<Id<Cast>> casts;
    for (int i = 0; i < 40; ++i) {
        casts.push_back(castOn(std::nullopt));
    }
    const VisitDirections all = found();
    const Angle fan = all.casts.at(casts.back()).bearing - all.casts.at(casts.front()).bearing;
    EXPECT_NEAR(fan / degree, 150.0, 1e-6);
}

TEST_F(Directions, ACastGoesOnItsOwnBearingBeforeItsAim) {
    const auto a = at(100.0);
    const auto onAim = castOn(a);
    const auto own = castOn(a);
    notes.change<Cast>(own, [](Cast& cast) {
        cast.bearing = BearingEntry{degrees(103.0), North::Grid};
    });
    EXPECT_NEAR(found().casts.at(onAim).bearing.degrees(), 100.0, 1e-9);
    EXPECT_NEAR(found().casts.at(own).bearing.degrees(), 103.0, 1e-9);
}

TEST_F(Directions, ACompassWithoutAPositionIsSaidAndTheFanKeepsItsShape) {
    const auto a = aim(AimAtBearing{BearingEntry{degrees(100.0), North::Magnetic}});
    const auto b = aim(AimAtBearing{BearingEntry{degrees(112.0), North::Magnetic}});
    const VisitDirections all = found();
    ASSERT_EQ(all.faults.size(), 2U);
    EXPECT_NE(all.faults.front().sentence.find("latitude"), std::string::npos);
    EXPECT_TRUE(all.aims.at(a).guessed);
    EXPECT_NEAR((all.aims.at(b).bearing - all.aims.at(a).bearing) / degree, 12.0, 1e-9);
}

TEST_F(Directions, AVisitWithoutCastsHasNone) {
    EXPECT_TRUE(found().casts.empty());
    EXPECT_TRUE(found().aims.empty());
}

} // namespace
} // namespace bedlore
