// SPDX-License-Identifier: MIT
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

struct Spelling {
    std::string_view typed;
    std::string_view plain;
};

/// What keyboards and phones put in place of the plain signs. A fraction sign becomes " 1/2", so
/// that "28½" and "28 1/2" are one case.
constexpr std::array<Spelling, 28> spellings{{
    {"½", " 1/2"},   {"¼", " 1/4"},   {"¾", " 3/4"},   {"⅓", " 1/3"},   {"⅔", " 2/3"},
    {"⅛", " 1/8"},   {"⅜", " 3/8"},   {"⅝", " 5/8"},   {"⅞", " 7/8"},   {"⁄", "/"},
    {"′", "'"},      {"’", "'"},      {"‘", "'"},      {"´", "'"},      {"″", "\""},
    {"”", "\""},     {"“", "\""},     {"''", "\""},    {"−", "-"},      {"–", "-"},
    {"º", "°"},      {"\u00a0", " "}, {"\u2009", " "}, {"\u202f", " "}, {"\t", " "},
    {"\u2007", " "}, {"‛", "'"},      {"ʹ", "'"},
}};

std::string plainSigns(std::string_view text) {
    std::string plain;
    plain.reserve(text.size() + 4);
    while (!text.empty()) {
        const char first = text.front();
        const bool isPlain =
            static_cast<unsigned char>(first) < 0x80 && first != '\t' && first != '\'';
        if (isPlain) {
            plain += first;
            text.remove_prefix(1);
            continue;
        }
        const auto at = std::find_if(spellings.begin(), spellings.end(), [&](const Spelling& s) {
            return text.substr(0, s.typed.size()) == s.typed;
        });
        if (at == spellings.end()) {
            plain += first;
            text.remove_prefix(1);
        } else {
            plain += at->plain;
            text.remove_prefix(at->typed.size());
        }
    }
    return plain;
}

constexpr std::string_view blanks = " \t\r\n";

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// Reads a measure from its front, piece by piece.
class Scanner {
public:
    explicit Scanner(std::string_view text)
        : rest_(text) {}

    [[nodiscard]] bool atEnd() const { return rest_.empty(); }
    [[nodiscard]] std::string_view rest() const { return rest_; }

    void skipBlanks() {
        const std::size_t first = rest_.find_first_not_of(blanks);
        rest_.remove_prefix(first == std::string_view::npos ? rest_.size() : first);
    }

    bool take(char c) {
        if (rest_.empty() || rest_.front() != c) {
            return false;
        }
        rest_.remove_prefix(1);
        return true;
    }

    std::string_view digits() {
        const auto end = std::find_if_not(rest_.begin(), rest_.end(), isDigit);
        const std::string_view found =
            rest_.substr(0, static_cast<std::size_t>(end - rest_.begin()));
        rest_.remove_prefix(found.size());
        return found;
    }

    /// "28", "28.5", "28,5", ".5", "28 1/2", "1/2"; no sign.
    std::optional<double> number() {
        if (const auto fraction = properFraction()) {
            return fraction;
        }
        const std::string_view whole = digits();
        if (const auto decimal = decimalPart(whole)) {
            return decimal;
        }
        if (whole.empty()) {
            return std::nullopt;
        }
        const Scanner before = *this;
        skipBlanks();
        if (const auto fraction = properFraction()) {
            return toDouble(whole).value_or(0.0) + *fraction;
        }
        *this = before;
        return toDouble(whole);
    }

private:
    static std::optional<double> toDouble(std::string_view digits) {
        double value = 0.0;
        const auto [end, error] =
            std::from_chars(digits.data(), digits.data() + digits.size(), value);
        const bool whole = error == std::errc{} && end == digits.data() + digits.size();
        return whole ? std::optional(value) : std::nullopt;
    }

    std::optional<double> decimalPart(std::string_view whole) {
        const Scanner before = *this;
        if (take('.') || take(',')) {
            const std::string_view decimals = digits();
            if (!decimals.empty()) {
                return toDouble(
                    std::string(whole.empty() ? "0" : whole) + "." + std::string(decimals));
            }
        }
        *this = before;
        return std::nullopt;
    }

    /// "1/2" of a part: below one, and of a kind that sticks and rulers have, so that a date
    /// ("12/4") or a score is none.
    std::optional<double> properFraction() {
        constexpr std::array<double, 5> parts{2.0, 3.0, 4.0, 8.0, 16.0};
        const Scanner before = *this;
        const auto above = toDouble(digits());
        const bool ruled = take('/');
        const auto below = toDouble(digits());
        const bool continues = !rest_.empty() && (rest_.front() == '/' || rest_.front() == '.');
        if (above && ruled && below && !continues && *above > 0.0 && *above < *below &&
            std::find(parts.begin(), parts.end(), *below) != parts.end()) {
            return *above / *below;
        }
        *this = before;
        return std::nullopt;
    }

    std::string_view rest_;
};

struct UnitWord {
    std::string_view word;
    Unit unit;
};

/// What may stand behind a number, in lower case.
constexpr std::array<UnitWord, 55> unitWords{{
    {"m", Unit::Metre},          {"metre", Unit::Metre},
    {"metres", Unit::Metre},     {"meter", Unit::Metre},
    {"meters", Unit::Metre},     {"cm", Unit::Centimetre},
    {"y", Unit::Yard},           {"yd", Unit::Yard},
    {"yds", Unit::Yard},         {"yard", Unit::Yard},
    {"yards", Unit::Yard},       {"'", Unit::Foot},
    {"ft", Unit::Foot},          {"foot", Unit::Foot},
    {"feet", Unit::Foot},        {"\"", Unit::Inch},
    {"in", Unit::Inch},          {"ins", Unit::Inch},
    {"inch", Unit::Inch},        {"inches", Unit::Inch},
    {"w", Unit::Wrap},           {"wrap", Unit::Wrap},
    {"wraps", Unit::Wrap},       {"t", Unit::Turn},
    {"turn", Unit::Turn},        {"turns", Unit::Turn},
    {"p", Unit::Pull},           {"pull", Unit::Pull},
    {"pulls", Unit::Pull},       {"step", Unit::Step},
    {"steps", Unit::Step},       {"s", Unit::Second},
    {"sec", Unit::Second},       {"secs", Unit::Second},
    {"second", Unit::Second},    {"seconds", Unit::Second},
    {"°", Unit::Degree},         {"deg", Unit::Degree},
    {"degs", Unit::Degree},      {"degree", Unit::Degree},
    {"degrees", Unit::Degree},   {"fist", Unit::Fist},
    {"fists", Unit::Fist},       {"finger", Unit::Finger},
    {"fingers", Unit::Finger},   {"o'clock", Unit::ClockHour},
    {"oclock", Unit::ClockHour}, {"kg", Unit::Kilogram},
    {"lb", Unit::Pound},         {"lbs", Unit::Pound},
    {"oz", Unit::Ounce},         {"l", Unit::Litre},
    {"litres", Unit::Litre},     {"load", Unit::Load},
    {"loads", Unit::Load},
}};

std::optional<Unit> unitOf(std::string_view word) {
    std::string lower(word);
    std::transform(lower.begin(), lower.end(), lower.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    for (const auto& [candidate, unit] : unitWords) {
        if (candidate == lower) {
            return unit;
        }
    }
    return std::nullopt;
}

/// The part behind the feet of "11'6", "11'6\"", "11 ft 6 in": a bare number only where it touches
/// the foot mark, since a number after a blank is another measure.
std::optional<double> inchesBehindFeet(std::string_view rest) {
    Scanner scanner(rest);
    scanner.skipBlanks();
    const bool apart = scanner.rest().size() != rest.size();
    const auto inches = scanner.number();
    const std::string_view mark = trimmed(scanner.rest());
    const bool marked = unitOf(mark) == Unit::Inch;
    if (!inches || *inches >= 12.0 || !(marked || (mark.empty() && !apart))) {
        return std::nullopt;
    }
    return inches;
}

/// The number with its unit, `rest` being what stands behind the number.
std::optional<Entered> withUnit(double number, std::string_view rest, std::optional<Unit> bare) {
    const std::string_view word = trimmed(rest);
    if (word.empty()) {
        return bare ? std::optional(Entered{number, *bare}) : std::nullopt;
    }
    if (const auto unit = unitOf(word)) {
        return Entered{number, *unit};
    }
    constexpr std::array<std::string_view, 4> footMarks{"'", "ft", "foot", "feet"};
    for (const std::string_view mark : footMarks) {
        if (word.substr(0, mark.size()) == mark && number == std::floor(number)) {
            if (const auto inches = inchesBehindFeet(word.substr(mark.size()))) {
                return Entered{number + *inches / 12.0, Unit::Foot};
            }
        }
    }
    return std::nullopt;
}

} // namespace

std::optional<double> readNumber(std::string_view text) {
    const auto measure = readMeasure(text, Unit::One);
    return measure && measure->unit == Unit::One ? std::optional(measure->number) : std::nullopt;
}

std::optional<double> readDecimal(std::string_view text) {
    std::string_view digits = trimmed(text);
    if (digits.size() > 1 && digits.front() == '+' && digits[1] != '-') {
        digits.remove_prefix(1);
    }
    double value = 0.0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    const bool whole = error == std::errc{} && end == digits.data() + digits.size();
    return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<Entered> readMeasure(std::string_view text, std::optional<Unit> bare) {
    const std::string plain = plainSigns(text);
    Scanner scanner(trimmed(plain));
    const bool negative = scanner.take('-');
    if (!negative) {
        scanner.take('+');
    }
    scanner.skipBlanks();
    const auto number = scanner.number();
    if (!number || !std::isfinite(*number)) {
        return std::nullopt;
    }
    auto measure = withUnit(*number, scanner.rest(), bare);
    if (measure) {
        measure->number = negative ? -measure->number : measure->number;
        measure->text = std::string(trimmed(text));
    }
    return measure;
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
    case Unit::Wrap:
    case Unit::Turn:
    case Unit::Pull:
    case Unit::Step:
    case Unit::Second:
    case Unit::Degree:
    case Unit::Fist:
    case Unit::Finger:
    case Unit::ClockHour:
    case Unit::Kilogram:
    case Unit::Pound:
    case Unit::Ounce:
    case Unit::Litre:
    case Unit::Load:
    case Unit::One:
        return std::nullopt;
    }
    return std::nullopt;
}

} // namespace bedlore
