// SPDX-License-Identifier: MIT
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <span>
#include <string>

namespace bedlore {

namespace {

std::string trimZeros(std::string text) {
    if (text.find('.') == std::string::npos) {
        return text;
    }
    while (text.back() == '0') {
        text.pop_back();
    }
    if (text.back() == '.') {
        text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

double usualStep(Unit unit) {
    switch (unit) {
    case Unit::Metre:
        return 0.1;
    case Unit::Foot:
        return 0.5;
    default:
        return 1.0;
    }
}

Length unitLength(Unit unit) {
    return fixedLength({1.0, unit, {}}).value_or(metre);
}

/// Metric numbers and degrees are decimals, the others have quarters.
bool isDecimal(Unit unit) {
    return unit == Unit::Metre || unit == Unit::Centimetre || unit == Unit::Kilogram ||
           unit == Unit::Litre || unit == Unit::Degree;
}

/// What a person says when he means "about so much".
constexpr std::array<double, 17> sayable{
    1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0};

/// The one of `said` that is nearest to `value` by ratio.
double nearest(std::span<const double> said, double value) {
    return *std::min_element(said.begin(), said.end(), [&](double a, double b) {
        return std::abs(std::log(a / value)) < std::abs(std::log(b / value));
    });
}

std::string metresInWords(double metres) {
    constexpr std::array<double, 12> small{
        0.02, 0.03, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0};
    const double said =
        metres < 1.0 ? nearest(small, std::max(metres, small.front())) : nearest(sayable, metres);
    return trimZeros(printFixed(said, 2)) + " m";
}

std::string feetInWords(double feet) {
    constexpr std::array<double, 8> inchSteps{1.0, 2.0, 3.0, 4.0, 6.0, 9.0, 12.0, 18.0};
    if (feet >= 1.25) {
        return printNumber(nearest(sayable, feet)) + " ft";
    }
    const double inches = nearest(inchSteps, std::max(feet * 12.0, inchSteps.front()));
    return inches == 6.0 ? "half a foot" : inches == 12.0 ? "a foot" : printNumber(inches) + " in";
}

std::string yardsInWords(double yards) {
    const double said = nearest(sayable, yards);
    return said == 1.0 ? "a yard" : printNumber(said) + " yd";
}

struct UnitWords {
    std::string_view one;
    std::string_view several;
};

UnitWords unitWords(Unit unit) {
    switch (unit) {
    case Unit::Wrap:
        return {"wrap", "wraps"};
    case Unit::Turn:
        return {"turn", "turns"};
    case Unit::Pull:
        return {"pull", "pulls"};
    case Unit::Step:
        return {"step", "steps"};
    case Unit::Fist:
        return {"fist", "fists"};
    case Unit::Finger:
        return {"finger", "fingers"};
    case Unit::ClockHour:
        return {"o'clock", "o'clock"};
    case Unit::Load:
        return {"load", "loads"};
    case Unit::Degree:
        return {"\u00b0", "\u00b0"};
    case Unit::One:
        return {"", ""};
    default:
        return {unitCode(unit), unitCode(unit)};
    }
}

} // namespace

std::string printFixed(double number, int decimals) {
    if (!std::isfinite(number)) {
        return "?";
    }
    std::array<char, 400> buffer{};
    const auto [end, fault] = std::to_chars(
        buffer.data(), buffer.data() + buffer.size(), number, std::chars_format::fixed, decimals);
    std::string text(buffer.data(), fault == std::errc{} ? end : buffer.data());
    const bool isMinusZero =
        text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos;
    return isMinusZero ? text.substr(1) : text;
}

std::string printExact(double number) {
    std::array<char, 64> buffer{};
    const auto [end, fault] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
    return {buffer.data(), fault == std::errc{} ? end : buffer.data()};
}

std::string printNumber(double number, int decimals) {
    if (!std::isfinite(number)) {
        return "?";
    }
    const double quarters = number * 4.0;
    if (std::abs(quarters - std::round(quarters)) < 1e-9 && std::abs(number) < 1e9) {
        const long long count = std::llround(std::abs(quarters));
        static constexpr std::array<std::string_view, 4> parts{"", "\u00bc", "\u00bd", "\u00be"};
        const auto whole = count / 4;
        const std::string_view part = parts[static_cast<std::size_t>(count % 4)];
        std::string text = number < 0.0 && count != 0 ? "-" : "";
        if (whole != 0 || part.empty()) {
            text += std::to_string(whole);
        }
        return text.append(part);
    }
    return trimZeros(printFixed(number, decimals));
}

std::string printLength(Length length, Unit unit, double step) {
    const double used = step > 0.0 ? step : usualStep(unit);
    const double number = std::round(length / unitLength(unit) / used) * used;
    const std::string text =
        isDecimal(unit) ? trimZeros(printFixed(number, 2)) : printNumber(number);
    return text + " " + std::string(unitName(unit, number));
}

std::string_view unitName(Unit unit, double number) {
    const bool one = std::abs(number) > 0.0 && std::abs(number) <= 1.0; // "½ wrap"
    const UnitWords words = unitWords(unit);
    return one ? words.one : words.several;
}

std::string printEntered(const Entered& entered) {
    const double size = std::abs(entered.number);
    const double inches = (size - std::floor(size)) * 12.0;
    const bool quarters = std::abs(size * 4.0 - std::round(size * 4.0)) < 1e-9;
    if (entered.unit == Unit::Foot && !quarters && std::abs(inches - std::round(inches)) < 1e-6) {
        return (entered.number < 0.0 ? "-" : "") + printNumber(std::floor(size)) + " ft " +
               printNumber(std::round(inches)) + " in";
    }
    const std::string number = isDecimal(entered.unit) ? trimZeros(printFixed(entered.number, 3))
                                                       : printNumber(entered.number, 3);
    const std::string_view name = unitName(entered.unit, entered.number);
    const std::string_view gap = name.empty() || entered.unit == Unit::Degree ? "" : " ";
    return number + std::string(gap) + std::string(name);
}

std::string withinAbout(Length sigma, Unit unit) {
    // Two-sided 95 % of a normal error.
    const Length half = 1.96 * sigma;
    if (!std::isfinite(half.si()) || half.si() < 0.0) {
        return "not known";
    }
    const std::string begin = "within about ";
    switch (unit) {
    case Unit::Metre:
        return begin + metresInWords(half / metre);
    case Unit::Centimetre:
        return begin + printNumber(nearest(sayable, std::max(half / centimetre, 1.0))) + " cm";
    case Unit::Inch:
        return begin + printNumber(nearest(sayable, std::max(half / inch, 1.0))) + " in";
    case Unit::Yard:
        return begin + (half / yard < 0.8 ? feetInWords(half / foot) : yardsInWords(half / yard));
    default:
        return begin + feetInWords(half / foot);
    }
}

std::string isoDate(std::chrono::year_month_day date) {
    const auto padded = [](unsigned value, std::size_t width) {
        const std::string text = std::to_string(value);
        return std::string(width - std::min(width, text.size()), '0') + text;
    };
    return padded(static_cast<unsigned>(static_cast<int>(date.year())), 4) + "-" +
           padded(static_cast<unsigned>(date.month()), 2) + "-" +
           padded(static_cast<unsigned>(date.day()), 2);
}

} // namespace bedlore
