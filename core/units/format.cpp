// SPDX-License-Identifier: MIT
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>
#include <utility>

namespace bedlore {

namespace {

/// Longest written form first, so that "ft" is not read as "f" and a rest.
struct UnitSpelling {
    std::string_view text;
    Unit unit;
};
constexpr std::array<UnitSpelling, 45> spellings{{
    {"metres", Unit::Metre},
    {"metre", Unit::Metre},
    {"meters", Unit::Metre},
    {"meter", Unit::Metre},
    {"centimetres", Unit::Centimetre},
    {"centimetre", Unit::Centimetre},
    {"yards", Unit::Yard},
    {"yard", Unit::Yard},
    {"yds", Unit::Yard},
    {"feet", Unit::Foot},
    {"foot", Unit::Foot},
    {"inches", Unit::Inch},
    {"inch", Unit::Inch},
    {"wraps", Unit::Wrap},
    {"wrap", Unit::Wrap},
    {"turns", Unit::Turn},
    {"turn", Unit::Turn},
    {"pulls", Unit::Pull},
    {"pull", Unit::Pull},
    {"steps", Unit::Step},
    {"step", Unit::Step},
    {"seconds", Unit::Second},
    {"degrees", Unit::Degree},
    {"degree", Unit::Degree},
    {"fists", Unit::Fist},
    {"fist", Unit::Fist},
    {"fingers", Unit::Finger},
    {"finger", Unit::Finger},
    {"sec", Unit::Second},
    {"deg", Unit::Degree},
    {"cm", Unit::Centimetre},
    {"yd", Unit::Yard},
    {"ft", Unit::Foot},
    {"in", Unit::Inch},
    {"m", Unit::Metre},
    {"y", Unit::Yard},
    {"w", Unit::Wrap},
    {"t", Unit::Turn},
    {"p", Unit::Pull},
    {"s", Unit::Second},
    {"\u00b0", Unit::Degree},
    {"'", Unit::Foot},
    {"\u2032", Unit::Foot},
    {"\u2019", Unit::Foot},
    {"\"", Unit::Inch},
}};

constexpr std::array<std::pair<std::string_view, double>, 7> fractionSigns{{
    {"\u00bc", 0.25},
    {"\u00bd", 0.5},
    {"\u00be", 0.75},
    {"\u2153", 1.0 / 3.0},
    {"\u2154", 2.0 / 3.0},
    {"\u215b", 0.125},
    {"\u215e", 0.875},
}};

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// Digits with at most one point or comma, no sign, no exponent.
std::optional<double> readPlain(std::string_view text) {
    std::string plain(text);
    std::replace(plain.begin(), plain.end(), ',', '.');
    const bool shaped =
        !plain.empty() && isDigit(plain.back()) &&
        std::count(plain.begin(), plain.end(), '.') <= 1 &&
        std::all_of(plain.begin(), plain.end(), [](char c) { return isDigit(c) || c == '.'; });
    return shaped ? readDecimal(plain) : std::nullopt;
}

std::optional<double> readSimpleFraction(std::string_view text) {
    const auto slash = text.find('/');
    if (slash == std::string_view::npos) {
        return std::nullopt;
    }
    const auto above = text.substr(0, slash);
    const auto below = text.substr(slash + 1);
    const bool whole = !above.empty() && !below.empty() &&
                       std::all_of(above.begin(), above.end(), isDigit) &&
                       std::all_of(below.begin(), below.end(), isDigit);
    const auto a = whole ? readPlain(above) : std::nullopt;
    const auto b = whole ? readPlain(below) : std::nullopt;
    // A fraction of a person's is less than one; "12/4" is a date or a slip.
    return a && b && *a < *b ? std::optional(*a / *b) : std::nullopt;
}

std::optional<double> readUnsigned(std::string_view text) {
    for (const auto& [sign, value] : fractionSigns) {
        if (text.ends_with(sign)) {
            const auto whole = trimmed(text.substr(0, text.size() - sign.size()));
            if (whole.empty()) {
                return value;
            }
            const bool digits = std::all_of(whole.begin(), whole.end(), isDigit);
            const auto number = digits ? readPlain(whole) : std::nullopt;
            return number ? std::optional(*number + value) : std::nullopt;
        }
    }
    if (text.find('/') == std::string_view::npos) {
        return readPlain(text);
    }
    const auto gap = text.find_last_of(" \t");
    if (gap == std::string_view::npos) {
        return readSimpleFraction(text);
    }
    const auto whole = trimmed(text.substr(0, gap));
    const bool digits = std::all_of(whole.begin(), whole.end(), isDigit);
    const auto number = digits ? readPlain(whole) : std::nullopt;
    const auto part = readSimpleFraction(trimmed(text.substr(gap)));
    return number && part ? std::optional(*number + *part) : std::nullopt;
}

struct Suffix {
    std::string_view number;
    Unit unit;
};

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

std::optional<Suffix> splitUnit(std::string_view text) {
    std::string lowered(text);
    std::transform(lowered.begin(), lowered.end(), lowered.begin(), lower);
    for (const UnitSpelling& spelling : spellings) {
        if (lowered.ends_with(spelling.text)) {
            return Suffix{
                .number = trimmed(text.substr(0, text.size() - spelling.text.size())),
                .unit = spelling.unit};
        }
    }
    return std::nullopt;
}

/// 11'6, 11'6", 11 ft 6 in: feet and inches as decimal feet.
std::optional<double> readFeetAndInches(std::string_view text) {
    static constexpr std::array<std::string_view, 5> feetSigns{
        "'", "\u2032", "\u2019", "ft", "feet"};
    for (const std::string_view sign : feetSigns) {
        const auto at = text.find(sign);
        if (at == std::string_view::npos) {
            continue;
        }
        const auto feet = readNumber(trimmed(text.substr(0, at)));
        auto rest = trimmed(text.substr(at + sign.size()));
        for (const std::string_view end :
             {"\"", "\u2033", "\u201d", "inches", "inch", "in", "''"}) {
            if (rest.ends_with(end)) {
                rest = trimmed(rest.substr(0, rest.size() - end.size()));
                break;
            }
        }
        const auto inches = rest.empty() ? std::nullopt : readNumber(rest);
        if (feet && inches && *feet >= 0.0 && *feet == std::floor(*feet) && *inches >= 0.0 &&
            *inches < 12.0) {
            return *feet + *inches / 12.0;
        }
    }
    return std::nullopt;
}

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

} // namespace

std::optional<double> readDecimal(std::string_view text) {
    const auto plain = trimmed(text);
    const auto start = plain.starts_with('+') ? plain.substr(1) : plain;
    double value = 0.0;
    const auto [end, fault] = std::from_chars(start.data(), start.data() + start.size(), value);
    const bool whole = fault == std::errc{} && end == start.data() + start.size();
    return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<double> readNumber(std::string_view text) {
    auto plain = trimmed(text);
    double sign = 1.0;
    for (const std::string_view minus : {"-", "\u2212"}) {
        if (plain.starts_with(minus)) {
            sign = -1.0;
            plain = trimmed(plain.substr(minus.size()));
        }
    }
    if (plain.starts_with('+')) {
        plain = trimmed(plain.substr(1));
    }
    const auto number = readUnsigned(plain);
    return number ? std::optional(sign * *number) : std::nullopt;
}

std::optional<Entered> readMeasure(std::string_view text, std::optional<Unit> bare) {
    const auto plain = trimmed(text);
    if (const auto number = readNumber(plain)) {
        return bare ? std::optional(Entered{*number, *bare, std::string(plain)}) : std::nullopt;
    }
    if (const auto feet = readFeetAndInches(plain)) {
        return Entered{*feet, Unit::Foot, std::string(plain)};
    }
    if (const auto suffix = splitUnit(plain)) {
        if (const auto number = readNumber(suffix->number)) {
            return Entered{*number, suffix->unit, std::string(plain)};
        }
    }
    return std::nullopt;
}

std::optional<Length> fixedLength(const Entered& entered) {
    switch (entered.unit) {
    case Unit::Metre:
        return entered.number * metre;
    case Unit::Centimetre:
        return entered.number * centimetre;
    case Unit::Yard:
        return entered.number * yard;
    case Unit::Foot:
        return entered.number * foot;
    case Unit::Inch:
        return entered.number * inch;
    default:
        return std::nullopt;
    }
}

std::string printFixed(double number, int decimals) {
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
    const bool decimal = unit == Unit::Metre || unit == Unit::Centimetre;
    const std::string text = decimal ? trimZeros(printFixed(number, 2)) : printNumber(number);
    return text + " " + std::string(unitName(unit, number));
}

std::string_view unitName(Unit unit, double number) {
    const bool one = std::abs(std::abs(number) - 1.0) < 1e-9;
    switch (unit) {
    case Unit::Wrap:
        return one ? "wrap" : "wraps";
    case Unit::Turn:
        return one ? "turn" : "turns";
    case Unit::Pull:
        return one ? "pull" : "pulls";
    case Unit::Step:
        return one ? "step" : "steps";
    case Unit::Fist:
        return one ? "fist" : "fists";
    case Unit::Finger:
        return one ? "finger" : "fingers";
    case Unit::ClockHour:
        return "o'clock";
    case Unit::Load:
        return one ? "load" : "loads";
    case Unit::Degree:
        return "\u00b0";
    case Unit::One:
        return "";
    default:
        return unitCode(unit);
    }
}

std::string printEntered(const Entered& entered) {
    const std::string_view name = unitName(entered.unit, entered.number);
    const std::string_view gap = name.empty() || entered.unit == Unit::Degree ? "" : " ";
    return printNumber(entered.number) + std::string(gap) + std::string(name);
}

std::string withinAbout(Length sigma, Unit unit) {
    const Length half = 1.96 * sigma;
    if (unit == Unit::Metre) {
        const double metres = half / metre;
        const double step = metres < 0.095 ? 0.05 : metres < 1.0 ? 0.1 : metres < 3.0 ? 0.5 : 1.0;
        const double rounded = std::max(std::round(metres / step), 1.0) * step;
        return "within about " + trimZeros(printFixed(rounded, 2)) + " m";
    }
    const double feet = half / foot;
    if (feet < 0.375) {
        return "within about 3 in";
    }
    if (feet < 0.75) {
        return "within about half a foot";
    }
    if (feet < 1.25) {
        return "within about a foot";
    }
    const double step = feet < 4.0 ? 0.5 : 1.0;
    return "within about " + printNumber(std::round(feet / step) * step) + " ft";
}

std::string printDegrees(Angle angle, int decimals) {
    return trimZeros(printFixed(angle / degree, decimals)) + "\u00b0";
}

} // namespace bedlore
