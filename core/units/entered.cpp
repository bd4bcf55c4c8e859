// SPDX-License-Identifier: MIT
#include "core/units/entered.hpp"

#include "core/base/contract.hpp"

#include <utility>

namespace bedlore {

namespace {

constexpr std::array<std::pair<Unit, std::string_view>, 20> codes{{
    {Unit::Metre, "m"},       {Unit::Centimetre, "cm"},   {Unit::Yard, "yd"},
    {Unit::Foot, "ft"},       {Unit::Inch, "in"},         {Unit::Wrap, "wrap"},
    {Unit::Turn, "turn"},     {Unit::Pull, "pull"},       {Unit::Step, "step"},
    {Unit::Second, "s"},      {Unit::Degree, "deg"},      {Unit::Fist, "fist"},
    {Unit::Finger, "finger"}, {Unit::ClockHour, "clock"}, {Unit::Kilogram, "kg"},
    {Unit::Pound, "lb"},      {Unit::Ounce, "oz"},        {Unit::Litre, "l"},
    {Unit::Load, "load"},     {Unit::One, "1"},
}};

} // namespace

std::string_view unitCode(Unit unit) {
    for (const auto& [candidate, code] : codes) {
        if (candidate == unit) {
            return code;
        }
    }
    BEDLORE_EXPECTS(false && "every unit has a code");
    return {};
}

std::optional<Unit> unitFromCode(std::string_view code) {
    for (const auto& [unit, candidate] : codes) {
        if (candidate == code) {
            return unit;
        }
    }
    return std::nullopt;
}

} // namespace bedlore
