// SPDX-License-Identifier: MIT
#include "core/reduction/depth_reading.hpp"
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace bedlore {
namespace {

using testing::depthOf;
using testing::ft;
using testing::isWithin;
using testing::m;
using testing::pulls;

Visit withFloat(double pullInches, double offsetInches) {
    return {
        .floatRig = FloatRig{
            .pull = {pullInches, Unit::Inch, {}}, .offset = {offsetInches, Unit::Inch, {}}}};
}

Reading readingWith(DepthEntry depth) {
    return {.from = m(50.0), .depth = std::move(depth)};
}

Length depthFrom(const DepthEntry& depth, const Visit& visit) {
    return measuredDepth(readingWith(depth), visit).value().depth.belowSurface;
}

// Source: by hand, 9 × 12 in + 12 in = 10 ft = 3.048 m; with 18 in of rig 10 ft 6 in.
TEST(DepthReading, PullsAddTheRig) {
    EXPECT_THAT(depthFrom(pulls(9.0), withFloat(12.0, 12.0)), isWithin(1e-12 * metre, 3.048_m));
    EXPECT_THAT(depthFrom(pulls(9.0), withFloat(12.0, 18.0)), isWithin(1e-12 * metre, 10.5_ft));
}

TEST(DepthReading, FeetAndMetresHaveTheRigInThem) {
    EXPECT_THAT(
        depthFrom(depthOf(ft(9.0)), withFloat(12.0, 18.0)), isWithin(1e-12 * metre, 9.0_ft));
    EXPECT_THAT(depthFrom(depthOf(m(3.4)), withFloat(12.0, 18.0)), isWithin(1e-12 * metre, 3.4_m));
}

TEST(DepthReading, PullsWithoutAFloatRigAreNoDepth) {
    const auto refused = measuredDepth(readingWith(pulls(9.0)), Visit{});
    ASSERT_FALSE(refused.has_value());
    EXPECT_NE(refused.error().message.find("float pulls"), std::string::npos);
}

TEST(DepthReading, SecondsAndWrapsAreNoDepth) {
    EXPECT_FALSE(
        measuredDepth(readingWith(depthOf({4.0, Unit::Second, "4s"})), Visit{}).has_value());
    EXPECT_FALSE(measuredDepth(readingWith(depthOf({4.0, Unit::Wrap, "4w"})), Visit{}).has_value());
}

TEST(DepthReading, ItsErrorGrowsWithDepth) {
    // By hand: √(0.10² + (0.015 · 4)²) = 0.116619 m at 4 m.
    const auto four = measuredDepth(readingWith(depthOf(m(4.0))), Visit{});
    EXPECT_THAT(four->sigma, isWithin(1e-6 * metre, 0.116619_m));
}

TEST(DepthReading, BetweenTwoDepthsIsTheMiddleWithAnEvenError) {
    // By hand: 8 to 10 ft is 9 ft = 2.7432 m; own error √(0.10² + 0.041148²) = 0.108135 m, spread
    // 2 ft/√12 = 0.175976 m, together 0.206545 m.
    DepthEntry between = depthOf(ft(8.0));
    between.to = ft(10.0);
    const auto measured = measuredDepth(readingWith(between), Visit{});
    EXPECT_THAT(measured->depth.belowSurface, isWithin(1e-12 * metre, 9.0_ft));
    EXPECT_THAT(measured->sigma, isWithin(2e-6 * metre, 0.206545_m));
    // Three casts that agree narrow his reading, not the room that he left: √(0.062432² +
    // 0.175976²) = 0.186723 m.
    Reading thrice = readingWith(between);
    thrice.agreeing = 3;
    EXPECT_THAT(measuredDepth(thrice, Visit{})->sigma, isWithin(2e-6 * metre, 0.186723_m));
}

TEST(DepthReading, AboutDoublesAndDoubtWidensAndAgreementNarrows) {
    const Length plain = measuredDepth(readingWith(depthOf(m(4.0))), Visit{})->sigma;
    DepthEntry about = depthOf(m(4.0));
    about.about = true;
    EXPECT_THAT(
        measuredDepth(readingWith(about), Visit{})->sigma, isWithin(1e-12 * metre, 2.0 * plain));
    Reading doubtful = readingWith(depthOf(m(4.0)));
    doubtful.sureness = 1;
    EXPECT_THAT(measuredDepth(doubtful, Visit{})->sigma, isWithin(1e-12 * metre, 1.5 * plain));
    Reading agreed = readingWith(depthOf(m(4.0)));
    agreed.agreeing = 4;
    EXPECT_THAT(measuredDepth(agreed, Visit{})->sigma, isWithin(1e-12 * metre, 0.5 * plain));
}

TEST(DepthReading, AFloatThatNeverShowedDidNotReachTheBed) {
    Reading reading = readingWith(depthOf(m(4.0)));
    EXPECT_TRUE(reachedTheBed(reading));
    reading.outcome = Outcome::LeadLost;
    EXPECT_TRUE(reachedTheBed(reading));
    reading.outcome = Outcome::FloatNeverShowed;
    EXPECT_FALSE(reachedTheBed(reading));
    reading.outcome = Outcome::WeedTooThick;
    EXPECT_FALSE(reachedTheBed(reading));
}

TEST(DepthReading, OneOfAUnitIsAsLongAsItIsOnThatVisit) {
    EXPECT_THAT(depthUnit(Unit::Pull, withFloat(18.0, 12.0)), isWithin(1e-12 * metre, 18.0_in));
    EXPECT_THAT(depthUnit(Unit::Foot, Visit{}), isWithin(1e-12 * metre, 1.0_ft));
    EXPECT_THAT(depthUnit(Unit::Metre, Visit{}), isWithin(1e-12 * metre, 1.0_m));
}

} // namespace
} // namespace bedlore
