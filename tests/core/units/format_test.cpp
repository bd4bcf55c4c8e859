// SPDX-License-Identifier: MIT
#include "core/units/format.hpp"
#include "tests/support/csv_table.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <string>

namespace bedlore {
namespace {

TEST(ReadNumber, UnderstandsWhatAPersonWrites) {
    // Source: the meaning of the written forms themselves.
    EXPECT_EQ(readNumber("28½"), 28.5);
    EXPECT_EQ(readNumber("28 1/2"), 28.5);
    EXPECT_EQ(readNumber("28 ½"), 28.5);
    EXPECT_EQ(readNumber("1/2"), 0.5);
    EXPECT_EQ(readNumber("¾"), 0.75);
    EXPECT_EQ(readNumber("9.5"), 9.5);
    EXPECT_EQ(readNumber("9,5"), 9.5);
    EXPECT_EQ(readNumber("-2"), -2.0);
    EXPECT_EQ(readNumber(" 7 "), 7.0);
    EXPECT_EQ(readNumber("26 3/4"), 26.75);
}

TEST(ReadNumber, RefusesWhatIsNoNumber) {
    for (const char* text :
         {"",
          " ",
          "x",
          "9.",
          "1/0",
          "12/4",
          "1e5",
          "nan",
          "inf",
          "28 1/2 x",
          "1,2,3",
          "--2",
          "½½",
          "9,5½",
          "0x10"}) {
        EXPECT_FALSE(readNumber(text).has_value()) << text;
    }
}

TEST(ReadDecimal, TakesFileNumbersOnly) {
    EXPECT_EQ(readDecimal("-1.5e2"), -150.0);
    EXPECT_EQ(readDecimal("26.50"), 26.5);
    for (const char* text : {"", "nan", "inf", "1,5", "28½", "1e999", "1.5x"}) {
        EXPECT_FALSE(readDecimal(text).has_value()) << text;
    }
}

void expectMeasure(const char* text, double number, Unit unit) {
    const auto measure = readMeasure(text, Unit::Wrap);
    ASSERT_TRUE(measure.has_value()) << text;
    EXPECT_NEAR(measure->number, number, 1e-12) << text;
    EXPECT_EQ(measure->unit, unit) << text;
    EXPECT_EQ(measure->text, text);
}

TEST(ReadMeasure, KeepsUnitAndText) {
    expectMeasure("28½", 28.5, Unit::Wrap);
    expectMeasure("11'6", 11.5, Unit::Foot); // 6 in is half a foot
    expectMeasure("11'6\"", 11.5, Unit::Foot);
    expectMeasure("11 ft 6 in", 11.5, Unit::Foot);
    expectMeasure("9'", 9.0, Unit::Foot);
    expectMeasure("9½'", 9.5, Unit::Foot);
    expectMeasure("3.4m", 3.4, Unit::Metre);
    expectMeasure("62y", 62.0, Unit::Yard);
    expectMeasure("62 yd", 62.0, Unit::Yard);
    expectMeasure("95t", 95.0, Unit::Turn);
    expectMeasure("9p", 9.0, Unit::Pull);
    expectMeasure("12 ft", 12.0, Unit::Foot);
    expectMeasure("12 in", 12.0, Unit::Inch);
    expectMeasure("0,35 m", 0.35, Unit::Metre);
    expectMeasure("2 steps", 2.0, Unit::Step);
    expectMeasure("26w", 26.0, Unit::Wrap);
}

TEST(ReadMeasure, TakesTheMarksThatPhonesAndBooksPrint) {
    expectMeasure("11′6″", 11.5, Unit::Foot);
    expectMeasure("11’6”", 11.5, Unit::Foot);
    expectMeasure("11' 6\"", 11.5, Unit::Foot);
    expectMeasure("11'7½\"", 11.0 + 7.5 / 12.0, Unit::Foot);
    expectMeasure("11'6''", 11.5, Unit::Foot);
    expectMeasure("6”", 6.0, Unit::Inch);
    expectMeasure("28½w", 28.5, Unit::Wrap);
    expectMeasure("1 1/2 ft", 1.5, Unit::Foot);
    expectMeasure("62 Yds", 62.0, Unit::Yard);
    expectMeasure("3.4M", 3.4, Unit::Metre);
    expectMeasure("−2 ft", -2.0, Unit::Foot);
    expectMeasure("-2'6", -2.5, Unit::Foot);
    expectMeasure("26⅜", 26.375, Unit::Wrap);
    expectMeasure("12°", 12.0, Unit::Degree);
    expectMeasure("27 lb", 27.0, Unit::Pound);
}

TEST(ReadMeasure, KeepsTwoMeasuresApart) {
    for (const char* text :
         {"90' 9", "11 ft 6", "11'12", "8½'6", "28 9", "27-25", "11'6'", "62yx"}) {
        EXPECT_FALSE(readMeasure(text, Unit::Wrap).has_value()) << text;
    }
}

TEST(ReadMeasure, GivesABareNumberNoUnitOfItsOwn) {
    EXPECT_FALSE(readMeasure("28", std::nullopt).has_value());
    EXPECT_EQ(readMeasure("28", Unit::Yard)->unit, Unit::Yard);
}

TEST(FixedLength, AgreesWithTheDefinitionsOfTheUnits) {
    // Source: tests/reference/case13_units.csv (agreement of 1959).
    const auto table =
        testing::readCsvTable(std::string(BEDLORE_REFERENCE_DIR) + "/case13_units.csv");
    int checked = 0;
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (table.text(row, "quantity") != "length" || table.text(row, "to_unit") != "m") {
            continue;
        }
        const auto measure = readMeasure("1 " + table.text(row, "from_unit"), std::nullopt);
        const auto length = measure ? fixedLength(*measure) : std::nullopt;
        if (length) {
            EXPECT_EQ(*length / metre, table.number(row, "exact_value"))
                << table.text(row, "from_unit");
            ++checked;
        }
    }
    EXPECT_EQ(checked, 3) << "yard, foot and inch";
    EXPECT_FALSE(fixedLength({1.0, Unit::Wrap, "1"}).has_value())
        << "a wrap has no size of its own";
}

TEST(PrintNumber, WritesQuartersAsHeDoes) {
    EXPECT_EQ(printNumber(26.75), "26¾");
    EXPECT_EQ(printNumber(9.5), "9½");
    EXPECT_EQ(printNumber(0.25), "¼");
    EXPECT_EQ(printNumber(-2.0), "-2");
    EXPECT_EQ(printNumber(0.0), "0");
    EXPECT_EQ(printNumber(97.84), "97.84");
}

TEST(PrintExact, ReadsBackToTheSameNumber) {
    for (const double number : {0.1, 1.0 / 3.0, 1e-300, 12345.678901234567, -0.0}) {
        EXPECT_EQ(readDecimal(printExact(number)), number);
    }
}

TEST(PrintFixed, NeverWritesMinusZero) {
    EXPECT_EQ(printFixed(-0.00001, 2), "0.00");
    EXPECT_EQ(printFixed(-1.005, 1), "-1.0");
}

TEST(PrintLength, RoundsToAStepThatSuitsReading) {
    EXPECT_EQ(printLength(2.6 * metre, Unit::Foot), "8½ ft"); // 2.6 m = 8.53 ft
    EXPECT_EQ(printLength(97.8408 * metre, Unit::Yard), "107 yd");
    EXPECT_EQ(printLength(97.8408 * metre, Unit::Metre), "97.8 m");
}

// Source: the worked values of common practice, wraps of a stick spacing in other units.
TEST(FixedLength, TurnsSticksIntoTheLengthsOfTheTrade) {
    const auto ofWraps = [](double wraps, const char* sticks) {
        return wraps * fixedLength(readMeasure(sticks, std::nullopt).value()).value();
    };
    EXPECT_NEAR(ofWraps(18.0, "12 ft") / yard, 72.0, 1e-12);
    EXPECT_NEAR(ofWraps(18.0, "12 ft") / metre, 65.84, 0.005);
    EXPECT_NEAR(ofWraps(17.25, "12 ft") / yard, 69.0, 1e-12);
    EXPECT_NEAR(ofWraps(26.75, "12 ft") / yard, 107.0, 1e-12);
    EXPECT_NEAR(ofWraps(26.75, "12 ft") / metre, 97.84, 0.005);
    EXPECT_NEAR(ofWraps(26.75, "13 ft") / yard, 115.9, 0.05);
    EXPECT_NEAR(ofWraps(26.75, "2 m") / metre, 53.5, 1e-12);
    // Source: tests/reference/case13_units.csv, the rows "wraps 25" and "wraps 18.5".
    EXPECT_NEAR(ofWraps(25.0, "12 ft") / metre, 91.44, 1e-12);
    EXPECT_NEAR(ofWraps(18.5, "12 ft") / metre, 67.6656, 1e-12);
}

TEST(PrintEntered, SaysItAsHeWouldReadItOut) {
    EXPECT_EQ(printEntered({26.75, Unit::Wrap, ""}), "26¾ wraps");
    EXPECT_EQ(printEntered({1.0, Unit::Pull, ""}), "1 pull");
    EXPECT_EQ(printEntered({0.5, Unit::Wrap, ""}), "½ wrap");
    EXPECT_EQ(printEntered({11.5, Unit::Foot, ""}), "11½ ft");
    EXPECT_EQ(printEntered({11.0 + 7.0 / 12.0, Unit::Foot, ""}), "11 ft 7 in");
    EXPECT_EQ(printEntered({3.5, Unit::Metre, ""}), "3.5 m");
    EXPECT_EQ(printEntered({231.5, Unit::Degree, ""}), "231.5°");
}

TEST(Printing, SaysSoWhereThereIsNoNumber) {
    const double nothing = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(printNumber(nothing), "?");
    EXPECT_EQ(printFixed(std::numeric_limits<double>::infinity(), 2), "?");
    EXPECT_EQ(withinAbout(nothing * metre, Unit::Foot), "not known");
}

TEST(WithinAbout, StaysSayableAtAnySize) {
    // By hand, half widths of 1.96 sd: 0.02 ft, 11.8 ft, 5.9 yd, 37 m, 1000 m.
    EXPECT_EQ(withinAbout(0.01 * foot, Unit::Foot), "within about 1 in");
    EXPECT_EQ(withinAbout(6.0 * foot, Unit::Foot), "within about 10 ft");
    EXPECT_EQ(withinAbout(3.0 * yard, Unit::Yard), "within about 6 yd");
    EXPECT_EQ(withinAbout(19.0 * metre, Unit::Metre), "within about 40 m");
    EXPECT_EQ(withinAbout(0.005 * metre, Unit::Metre), "within about 0.02 m");
}

TEST(WithinAbout, SpeaksPlainly) {
    // By hand: 1.96 × 0.08 m = 0.157 m = 0.51 ft.
    EXPECT_EQ(withinAbout(0.08 * metre, Unit::Foot), "within about half a foot");
    EXPECT_EQ(withinAbout(0.16 * metre, Unit::Foot), "within about a foot");
    EXPECT_EQ(withinAbout(0.1 * metre, Unit::Metre), "within about 0.2 m");
}

TEST(IsoDate, HasFourTwoAndTwoDigits) {
    using namespace std::chrono;
    // Source: ISO 8601-1:2019, 5.2.2.1, extended format YYYY-MM-DD.
    EXPECT_EQ(isoDate(year{2025} / 4 / 12), "2025-04-12");
    EXPECT_EQ(isoDate(year{987} / 12 / 1), "0987-12-01");
}

} // namespace
} // namespace bedlore
