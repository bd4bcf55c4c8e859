// SPDX-License-Identifier: MIT
#include "core/io/iso_date.hpp"
#include "core/units/format.hpp"

#include <gtest/gtest.h>

namespace bedlore {
namespace {

using namespace std::chrono_literals;

TEST(IsoDate, ReadsBackWhatIsPrinted) {
    for (const Date date : {Date{2026y / 11 / 26}, Date{2024y / 2 / 29}, Date{0y / 1 / 1}}) {
        EXPECT_EQ(isoDateIn(isoDate(date)), date);
    }
}

TEST(IsoDate, IsADayOfTheCalendarAndNothingElse) {
    // Gregorian calendar: no 29 February in 2025 nor in 1900, none with 30 days.
    for (const char* text :
         {"",
          "2025-02-29",
          "1900-02-29",
          "2025-00-10",
          "2025-13-01",
          "2025-04-31",
          "2025-4-1",
          "2025/04/12",
          "2025-04-12 ",
          "+025-04-12",
          "-025-04-12",
          "2025-+4-12",
          "2025-04--2",
          "20250412"}) {
        EXPECT_EQ(isoDateIn(text), std::nullopt) << text;
    }
}

} // namespace
} // namespace bedlore
