// SPDX-License-Identifier: MIT
#pragma once

#include "core/geodesy/geographic_point.hpp"
#include "core/geometry/point.hpp"
#include "core/units/entered.hpp"

#include <chrono>
#include <cstdint>
#include <variant>

// Where and when, as records hold them.

namespace bedlore {

/// Not known yet, on the earth, or in the water's own plane. One water may hold both kinds of known
/// place only if its plane has an origin.
using Place = std::variant<std::monostate, GeographicPoint, Point>;

/// A day of the calendar, in the angler's own time.
using Date = std::chrono::year_month_day;

enum class North : std::uint8_t { True, Magnetic, Grid };

/// A direction as it was entered: degrees clockwise from `north`, any multiple of a full turn left
/// as typed.
struct BearingEntry {
    Entered degrees;
    North north = North::True;
    friend bool operator==(const BearingEntry&, const BearingEntry&) = default;
};

} // namespace bedlore
