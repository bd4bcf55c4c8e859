// SPDX-License-Identifier: MIT
#include "core/reduction/uncertainty.hpp"
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using testing::degrees;
using testing::isWithin;
using testing::m;

AimBasis typed() {
    return AimAtBearing{BearingEntry{degrees(231.5), North::Magnetic}};
}

TEST(RoundingStep, IsTheLargestUsualOneThatEveryNumberIsAMultipleOf) {
    const auto wraps = usualSteps(Unit::Wrap);
    EXPECT_EQ(roundingStep(std::vector{28.0, 27.0, 26.0}, wraps), 1.0);
    EXPECT_EQ(roundingStep(std::vector{28.0, 27.5, 26.0}, wraps), 0.5);
    EXPECT_EQ(roundingStep(std::vector{28.0, 27.5, 26.75}, wraps), 0.25);
    EXPECT_EQ(roundingStep(std::vector{26.6}, wraps), 0.25);
    const auto metres = usualSteps(Unit::Metre);
    EXPECT_EQ(roundingStep(std::vector{3.0, 4.0}, metres), 1.0);
    EXPECT_EQ(roundingStep(std::vector{3.4, 4.0}, metres), 0.1);
    EXPECT_EQ(roundingStep(std::vector{3.43, 4.0}, metres), 0.01);
    EXPECT_EQ(roundingStep(std::vector{95.5, 90.0}, usualSteps(Unit::Turn)), 0.5);
    EXPECT_EQ(roundingStep(std::vector{62.0, 63.0}, usualSteps(Unit::Yard)), 1.0);
    EXPECT_EQ(roundingStep(std::vector{9.5, 9.0}, usualSteps(Unit::Foot)), 0.5);
    // By hand: 11 ft 4 in is 136 twelfths of a foot.
    EXPECT_EQ(roundingStep(std::vector{11.0 + 4.0 / 12.0}, usualSteps(Unit::Foot)), 1.0 / 12.0);
    EXPECT_EQ(roundingStep({}, wraps), 1.0);
}

TEST(AimSigma, DependsOnHowTheDirectionWasGiven) {
    const Visit visit;
    EXPECT_THAT(aimSigma(visit, typed()), isWithin(1e-12 * radian, 1.0_deg));
    EXPECT_THAT(aimSigma(visit, AimAtMark{}), isWithin(1e-12 * radian, 0.7_deg));
    EXPECT_THAT(
        aimSigma(visit, AimFromAim{{}, {1.0, Unit::Fist, {}}}), isWithin(1e-12 * radian, 2.0_deg));
    EXPECT_THAT(aimSigma(visit, AimWithoutAngle{}), isWithin(1e-12 * radian, 5.0_deg));
}

TEST(AimSigma, APhoneIsFiveDegreesWrongInAll) {
    const Visit visit{.bearingSource = BearingSource::Phone};
    EXPECT_NEAR(
        std::hypot(aimSigma(visit, typed()) / degree, rotationSigma(visit) / degree), 5.0, 1e-9);
}

TEST(AimSigma, WhatHeSaysOfHisBearingsCountsFirst) {
    const Visit visit{.bearingSource = BearingSource::Phone, .bearingError = degrees(2.0)};
    EXPECT_THAT(aimSigma(visit, typed()), isWithin(1e-12 * radian, 2.0_deg));
    EXPECT_THAT(aimSigma(visit, AimAtMark{}), isWithin(1e-12 * radian, 2.0_deg));
    EXPECT_LE(rotationSigma(visit), 2.0_deg);
    EXPECT_THAT(rotationSigma(Visit{}), isWithin(1e-12 * radian, 0.3_deg));
}

TEST(CountSigma, AboutDoublesAndAgreementNarrows) {
    Reading reading{.from = m(50.0)};
    EXPECT_THAT(countSigma(reading), isWithin(1e-12 * metre, 0.35_m));
    reading.about = true;
    EXPECT_THAT(countSigma(reading), isWithin(1e-12 * metre, 0.70_m));
    reading.agreeing = 4;
    EXPECT_THAT(countSigma(reading), isWithin(1e-12 * metre, 0.35_m));
}

} // namespace
} // namespace bedlore
