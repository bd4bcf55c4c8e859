// SPDX-License-Identifier: MIT
#include "core/reduction/line_out.hpp"
#include "tests/core/reduction/note_book.hpp"
#include "tests/support/csv_table.hpp"
#include "tests/support/matchers.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace bedlore {
namespace {

using testing::ft;
using testing::isWithin;
using testing::m;
using testing::turns;
using testing::wraps;

LineRules sticks(Entered spacing) {
    return {.wrap = wrapOf(Visit{.sticks = spacing}), .spool = {}};
}

/// D = 1.0·N − 3e-4·N².
LineRules reel() {
    const std::vector<CalibrationPair> pairs{
        {.turns = 50.0, .distance = m(49.25)}, {.turns = 120.0, .distance = m(115.68)}};
    return {.wrap = 12.0 * foot, .spool = Spool::fromCalibration(pairs).value()};
}

Length lineOf(const Entered& count, const LineRules& rules) {
    return lineOut(count, rules).value().line;
}

// Source: common practice, the trade's worked values.
TEST(LineOut, WrapsAreTheSticksTimesTheCount) {
    EXPECT_THAT(lineOf(wraps(18.0), sticks(ft(12.0))), isWithin(1e-9 * metre, 72.0_yd));
    EXPECT_THAT(lineOf(wraps(18.0), sticks(ft(12.0))), isWithin(5.0_mm, 65.84_m));
    EXPECT_THAT(lineOf(wraps(17.25), sticks(ft(12.0))), isWithin(1e-9 * metre, 69.0_yd));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(ft(12.0))), isWithin(1e-9 * metre, 321.0_ft));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(ft(12.0))), isWithin(5.0_mm, 97.84_m));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(ft(13.0))), isWithin(1e-9 * metre, 347.75_ft));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(ft(13.0))), isWithin(5.0_mm, 105.99_m));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(ft(13.0))), isWithin(0.05_yd, 115.9_yd));
    EXPECT_THAT(lineOf(wraps(26.75), sticks(m(2.0))), isWithin(1e-9 * metre, 53.5_m));
}

// Source: tests/reference/case13_units.csv, the agreement of 1959.
TEST(LineOut, UnitsAreThoseOfTheAgreement) {
    const auto table = testing::readCsvTable(BEDLORE_REFERENCE_DIR "/case13_units.csv");
    int checked = 0;
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const double value = table.number(i, "value");
        const Length expected = table.number(i, "exact_value") * metre;
        const std::string& from = table.text(i, "from_unit");
        if (table.text(i, "to_unit") != "m") {
            continue;
        }
        if (from == "yard" || from == "foot" || from == "inch") {
            const Unit unit =
                from == "yard" ? Unit::Yard : (from == "foot" ? Unit::Foot : Unit::Inch);
            EXPECT_THAT(
                lineOf({value, unit, {}}, sticks(ft(12.0))), isWithin(1e-12 * metre, expected));
            ++checked;
        } else if (from.starts_with("wrap")) {
            EXPECT_THAT(lineOf(wraps(value), sticks(ft(12.0))), isWithin(1e-9 * metre, expected));
            ++checked;
        }
    }
    EXPECT_EQ(checked, 6);
}

TEST(LineOut, AManWhoCountsThereAndBackHasTwiceTheWrap) {
    Visit visit{.sticks = ft(12.0)};
    visit.wrapCounts = WrapCounts::ThereAndBack;
    EXPECT_THAT(wrapOf(visit), isWithin(1e-12 * metre, 24.0_ft));
}

TEST(LineOut, WithoutSticksAWrapIsTwelveFeet) {
    EXPECT_THAT(wrapOf(Visit{}), isWithin(1e-12 * metre, 12.0_ft));
}

TEST(LineOut, TurnsGoByTheReelsOwnCurve) {
    EXPECT_THAT(lineOf(turns(95.0), reel()), isWithin(1e-6 * metre, (95.0 - 2.7075) * metre));
    const auto refused = lineOut(turns(95.0), sticks(ft(12.0)));
    ASSERT_FALSE(refused.has_value());
    EXPECT_NE(refused.error().message.find("reel"), std::string::npos);
}

TEST(LineOut, WindingInTakesTurnsOffTheSameCurve) {
    // By hand: 95 turns out are 92.2925 m; 89 are 89 − 3e-4·7921 = 86.6237 m.
    const LineOut last{lineOf(turns(95.0), reel())};
    EXPECT_THAT(lineNearer(turns(6.0), last, reel())->line, isWithin(1e-6 * metre, 86.6237_m));
    // By hand: 6 yd off 92.2925 m.
    EXPECT_THAT(
        lineNearer({6.0, Unit::Yard, "6y"}, last, reel())->line,
        isWithin(1e-6 * metre, 92.2925_m - 5.4864_m));
    EXPECT_THAT(
        lineNearer(wraps(1.0), last, reel())->line, isWithin(1e-6 * metre, 92.2925_m - 3.6576_m));
}

TEST(LineOut, WindingInPastTheTipIsRefused) {
    const LineOut last{lineOf(turns(5.0), reel())};
    EXPECT_FALSE(lineNearer(turns(6.0), last, reel()).has_value());
    EXPECT_FALSE(lineNearer(turns(5.0), last, reel()).has_value());
    EXPECT_FALSE(lineNearer(m(5.0), last, reel()).has_value());
    EXPECT_FALSE(lineNearer(turns(1.0), last, sticks(ft(12.0))).has_value());
}

TEST(LineOut, RefusesWhatIsNoLengthOfLine) {
    const LineRules rules = sticks(ft(12.0));
    const double infinity = std::numeric_limits<double>::infinity();
    EXPECT_FALSE(lineOut({9.0, Unit::Pull, "9p"}, rules).has_value());
    EXPECT_FALSE(lineOut({9.0, Unit::One, "9"}, rules).has_value());
    EXPECT_FALSE(lineOut(m(-1.0), rules).has_value());
    EXPECT_FALSE(lineOut(m(infinity), rules).has_value());
    EXPECT_FALSE(lineOut(m(std::numeric_limits<double>::quiet_NaN()), rules).has_value());
    EXPECT_TRUE(lineOut(m(400.0), rules).has_value());
    EXPECT_FALSE(lineOut(m(400.1), rules).has_value());
    // By hand: 110 wraps of 12 ft are 402.3 m, beyond any cast.
    EXPECT_FALSE(lineOut(wraps(110.0), rules).has_value());
}

// Source: by hand, √(50² − 14²) = 48; common practice for the two in feet.
TEST(GroundDistance, IsTheLinesReachOnThePlan) {
    EXPECT_THAT(groundDistance(LineOut{50.0_m}, 14.0_m)->length, isWithin(1e-12 * metre, 48.0_m));
    EXPECT_THAT(groundDistance(LineOut{300.0_ft}, 16.0_ft)->length, isWithin(0.005_ft, 299.57_ft));
    EXPECT_THAT(groundDistance(LineOut{300.0_ft}, 6.0_ft)->length, isWithin(0.005_ft, 299.94_ft));
    EXPECT_THAT(groundDistance(LineOut{120.0_ft}, 36.0_ft)->length, isWithin(0.005_ft, 114.47_ft));
    EXPECT_THAT(groundDistance(LineOut{120.0_ft}, 6.0_ft)->length, isWithin(0.005_ft, 119.85_ft));
}

TEST(GroundDistance, RefusesALineThatCannotReach) {
    EXPECT_FALSE(groundDistance(LineOut{12.0_ft}, 36.0_ft).has_value());
    EXPECT_FALSE(groundDistance(LineOut{12.0_ft}, 12.0_ft).has_value());
    EXPECT_FALSE(groundDistance(LineOut{}, Length{}).has_value());
}

TEST(GroundDistance, AndTheLineForItLeadBackToEachOther) {
    const LineOut line = lineFor(GroundDistance{48.0_m}, 14.0_m);
    EXPECT_THAT(line.length, isWithin(1e-12 * metre, 50.0_m));
}

} // namespace
} // namespace bedlore
