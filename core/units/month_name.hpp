// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <chrono>
#include <string_view>

// Months as they are written out.

namespace bedlore {

/// "April"; "?" for what is no month.
[[nodiscard]] constexpr std::string_view monthName(std::chrono::month month) {
    constexpr std::array<std::string_view, 12> names{
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December"};
    return month.ok() ? names[static_cast<unsigned>(month) - 1] : std::string_view("?");
}

} // namespace bedlore
