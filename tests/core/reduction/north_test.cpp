// SPDX-License-Identifier: MIT
#include "core/reduction/north.hpp"
#include "tests/core/reduction/note_book.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace bedlore {
namespace {

using namespace std::chrono;
using testing::degrees;

constexpr Date newYear{2025y, January, 1d};

// Source: the declination of the site "UK Kent" on 1 January 2025, 1.139814° east
// (tests/reference/case05_wmm2025_site_values.csv).
TEST(NorthAt, ACompassBearingIsTurnedByTheDeclinationOfItsDay) {
    const LocalFrame frame = LocalFrame::atOrigin({51.1, 0.5}).value();
    const NorthAt north(frame, {}, std::nullopt, newYear);
    EXPECT_NEAR(north.toPlane({degrees(90.0), North::Magnetic})->degrees(), 91.139814, 1e-5);
    EXPECT_NEAR(north.toPlane({degrees(90.0), North::True})->degrees(), 90.0, 1e-9);
}

TEST(NorthAt, ATrueBearingIsTurnedByThePlanesConvergence) {
    const LocalFrame frame = LocalFrame::atOrigin({52.2, -1.2}).value();
    const NorthAt north(frame, {5000.0, 100.0}, std::nullopt, newYear);
    // By hand: 5 km east at 52.2° N is 0.0732° of longitude; times sin(52.2°) 0.0578°.
    EXPECT_NEAR(north.toPlane({degrees(90.0), North::True})->degrees(), 90.0 - 0.0578, 2e-4);
    EXPECT_NEAR(north.toPlane({degrees(90.0), North::Grid})->degrees(), 90.0, 1e-12);
}

TEST(NorthAt, WithoutAPositionTrueIsThePlanesNorthAndACompassIsRefused) {
    const NorthAt north(LocalFrame::withoutOrigin(), {}, std::nullopt, newYear);
    EXPECT_NEAR(north.toPlane({degrees(30.0), North::True})->degrees(), 30.0, 1e-12);
    EXPECT_FALSE(north.toPlane({degrees(30.0), North::Magnetic}).has_value());
    EXPECT_FALSE(north.declination().has_value());
}

TEST(NorthAt, TheWatersOwnPositionIsEnoughForACompass) {
    const NorthAt north(LocalFrame::withoutOrigin(), {}, GeographicPoint{51.1, 0.5}, newYear);
    EXPECT_NEAR(north.toPlane({degrees(90.0), North::Magnetic})->degrees(), 91.139814, 1e-5);
}

TEST(NorthAt, AnyMultipleOfAFullTurnIsTheSameBearing) {
    const NorthAt north(LocalFrame::withoutOrigin(), {}, std::nullopt, newYear);
    EXPECT_NEAR(north.toPlane({degrees(-30.0), North::Grid})->degrees(), 330.0, 1e-9);
    EXPECT_NEAR(north.toPlane({degrees(720.0), North::Grid})->degrees(), 0.0, 1e-9);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_FALSE(north.toPlane({degrees(nan), North::Grid}).has_value());
}

} // namespace
} // namespace bedlore
