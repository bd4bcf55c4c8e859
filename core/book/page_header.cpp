// SPDX-License-Identifier: MIT
#include "core/book/page_header.hpp"

#include "core/book/page_aim.hpp"
#include "core/book/page_tokens.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"
#include "core/units/month_name.hpp"

#include <algorithm>
#include <array>
#include <charconv>

namespace bedlore {

namespace {

using Key = HeaderLine::Key;

constexpr std::array<std::pair<std::string_view, Key>, 14> keys{{
    {"swim", Key::Swim},
    {"peg", Key::Swim},
    {"date", Key::Day},
    {"level", Key::Level},
    {"sticks", Key::Sticks},
    {"reel", Key::Reel},
    {"distances", Key::Distances},
    {"depths", Key::Depths},
    {"float", Key::Float},
    {"aim", Key::Aim},
    {"tip", Key::Tip},
    {"bearings", Key::Bearings},
    {"note", Key::Note},
    {"notes", Key::Note},
}};

std::optional<int> readWhole(std::string_view text) {
    int value = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool whole = fault == std::errc{} && end == text.data() + text.size() && !text.empty();
    return whole && text.front() != '-' ? std::optional(value) : std::nullopt;
}

std::optional<Date> makeDate(std::optional<int> y, std::optional<int> m, std::optional<int> d) {
    if (!y || !m || !d || *m < 1 || *d < 1) {
        return std::nullopt;
    }
    const Date date{
        std::chrono::year{*y},
        std::chrono::month{static_cast<unsigned>(*m)},
        std::chrono::day{static_cast<unsigned>(*d)}};
    return date.ok() && *y >= 1900 && *y < 2200 ? std::optional(date) : std::nullopt;
}

std::optional<int> readMonth(std::string_view text) {
    const std::string wanted = lowered(text);
    for (unsigned number = 1; number <= 12; ++number) {
        const std::string month = lowered(monthName(std::chrono::month{number}));
        if (wanted.size() >= 3 && month.starts_with(wanted)) {
            return static_cast<int>(number);
        }
    }
    return std::nullopt;
}

std::optional<int> readWeekday(std::string_view text) {
    constexpr std::array<std::string_view, 7> days{
        "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};
    const std::string wanted = lowered(text);
    for (std::size_t i = 0; i < days.size(); ++i) {
        if (wanted.size() >= 3 && days[i].starts_with(wanted)) {
            return static_cast<int>(i);
        }
    }
    return std::nullopt;
}

/// 2025-04-12, 12 April 2025 or Sat 12 Apr 2025. Digits alone with strokes differ from country to
/// country and are asked about.
std::optional<Date> readDate(std::string_view text) {
    if (text.size() == 10 && text[4] == '-' && text[7] == '-') {
        return makeDate(
            readWhole(text.substr(0, 4)),
            readWhole(text.substr(5, 2)),
            readWhole(text.substr(8, 2)));
    }
    auto words = splitWords(text);
    if (words.size() == 4 && readWeekday(words[0])) {
        words.erase(words.begin());
    }
    if (words.size() == 3) {
        return makeDate(readWhole(words[2]), readMonth(words[1]), readWhole(words[0]));
    }
    return std::nullopt;
}

void setUnclear(HeaderLine& header, std::string what, std::vector<LineOffer> offers = {}) {
    header.meaning.kind = LineKind::Unclear;
    header.meaning.unclear = std::move(what);
    header.meaning.offers = std::move(offers);
}

/// Reads "swim P14", "note …", "reel big one": any text.
bool setText(HeaderLine& header, std::string_view rest) {
    header.text = std::string(rest);
    switch (header.key) {
    case Key::Swim:
        header.meaning.words = "swim " + header.text;
        break;
    case Key::Reel:
        header.meaning.words = "reel " + header.text;
        break;
    default:
        header.meaning.words = "note";
        break;
    }
    return !rest.empty();
}

/// "12/4/2025" or "12.4.2025", day first and month first.
std::vector<LineOffer> dateOffers(std::string_view text) {
    std::string blanked(text);
    std::replace(blanked.begin(), blanked.end(), '/', ' ');
    std::replace(blanked.begin(), blanked.end(), '.', ' ');
    const auto words = splitWords(blanked);
    std::vector<LineOffer> offers;
    if (words.size() != 3) {
        return offers;
    }
    const auto year = readWhole(words[2]);
    const auto fullYear = year && *year < 100 ? std::optional(*year + 2000) : year;
    const auto offer = [&](std::size_t day, std::size_t month) {
        const auto date = makeDate(fullYear, readWhole(words[month]), readWhole(words[day]));
        if (date && (offers.empty() || offers[0].words != printDate(*date) + "?")) {
            offers.push_back(
                {.words = printDate(*date) + "?",
                 .replacement = "date " + printDate(*date),
                 .answer = {}});
        }
    };
    offer(0, 1);
    offer(1, 0);
    return offers;
}

bool setDate(HeaderLine& header, std::string_view rest) {
    header.date = readDate(rest);
    if (header.date) {
        header.meaning.words = printDate(*header.date);
        return true;
    }
    const auto words = splitWords(rest);
    const bool begins = startsLikeNumber(rest) || (!words.empty() && readWeekday(words[0]));
    if (begins) {
        setUnclear(header, "which day? Write it as 2025-04-12.", dateOffers(rest));
    }
    return begins;
}

/// "2 steps", "2 steps showing", "0.35 m", "-10 cm".
bool setLevel(HeaderLine& header, std::string_view rest) {
    std::string_view count = rest;
    constexpr std::string_view showing = " showing";
    if (lowered(count).ends_with(showing)) {
        count = trimmedText(count.substr(0, count.size() - showing.size()));
    }
    auto measure = readMeasure(count, Unit::One);
    const bool isLevel = measure && (measure->unit == Unit::Step || fixedLength(*measure));
    if (isLevel) {
        header.measure = Entered{measure->number, measure->unit, std::string(rest)};
        header.meaning.words = "water level " + printEntered(*measure);
        return true;
    }
    if (measure && measure->unit == Unit::One) {
        const std::string line = "level " + std::string(rest);
        setUnclear(
            header,
            "level in what?",
            {{.words = "metres?", .replacement = line + " m", .answer = {}},
             {.words = "feet?", .replacement = line + " ft", .answer = {}},
             {.words = "steps?", .replacement = line + " steps", .answer = {}}});
        return true;
    }
    if (startsLikeNumber(rest)) {
        setUnclear(header, R"(a level is a length or steps, as in "0.35 m" or "2 steps".)");
        return true;
    }
    return false;
}

bool setSticks(HeaderLine& header, std::string_view rest) {
    std::string text = lowered(rest);
    constexpr std::string_view both = "there and back";
    if (const auto at = text.find(both); at != std::string::npos) {
        header.wrapCounts = WrapCounts::ThereAndBack;
        rest = trimmedText(rest.substr(0, at));
        while (!rest.empty() && rest.back() == ',') {
            rest = trimmedText(rest.substr(0, rest.size() - 1));
        }
    }
    auto measure = readMeasure(rest, Unit::One);
    const bool certainlyFeet =
        measure && measure->unit == Unit::One && measure->number >= 6.0 && measure->number <= 20.0;
    if (certainlyFeet) {
        measure->unit = Unit::Foot; // nobody puts sticks six metres apart
    }
    const auto length = measure ? fixedLength(*measure) : std::nullopt;
    if (length && *length > 0.3 * metre && *length < 10.0 * metre) {
        header.measure = measure;
        header.meaning.words = "a wrap is " + printEntered(*measure);
        if (header.wrapCounts == WrapCounts::ThereAndBack) {
            header.meaning.words += " there and back";
        }
        return true;
    }
    if (measure && measure->unit == Unit::One) {
        const std::string line = "sticks " + std::string(rest);
        setUnclear(
            header,
            "sticks how far apart, in what?",
            {{.words = "feet?", .replacement = line + " ft", .answer = {}},
             {.words = "metres?", .replacement = line + " m", .answer = {}}});
        return true;
    }
    if (!startsLikeNumber(rest) && splitWords(rest).size() > 1) {
        return false;
    }
    setUnclear(header, "how far apart are the sticks? As in \"sticks 12 ft\".");
    return true;
}

/// Whether a bare distance, or a bare depth, may be in that unit.
bool mayBeBare(Unit unit, bool isDistance) {
    if (unit == Unit::Metre || unit == Unit::Foot) {
        return true;
    }
    return isDistance ? unit == Unit::Wrap || unit == Unit::Turn || unit == Unit::Yard
                      : unit == Unit::Pull;
}

bool setUnit(HeaderLine& header, std::string_view rest) {
    if (lowered(rest).starts_with("in ")) {
        rest = trimmedText(rest.substr(3));
    }
    const std::string text = "1 " + lowered(rest);
    const auto measure = readMeasure(text, std::nullopt);
    if (!measure && splitWords(rest).size() > 1) {
        return false;
    }
    const bool distances = header.key == Key::Distances;
    if (measure && measure->number == 1.0 && mayBeBare(measure->unit, distances)) {
        header.unit = measure->unit;
        header.meaning.words = std::string("a bare ") + (distances ? "distance" : "depth") +
                               " is in " + std::string(unitName(measure->unit));
    } else {
        setUnclear(
            header,
            distances ? "distances in wraps, turns, yd, m or ft?" : "depths in ft, pulls or m?");
    }
    return true;
}

/// "pulls 12 in + 12 in"
bool setFloat(HeaderLine& header, std::string_view rest) {
    for (const std::string_view word : {"pulls ", "pull "}) {
        if (lowered(rest).starts_with(word)) {
            rest = trimmedText(rest.substr(word.size()));
            break;
        }
    }
    const auto plus = rest.find('+');
    if (plus == std::string_view::npos || !startsLikeNumber(rest)) {
        if (startsLikeNumber(rest)) {
            setUnclear(
                header, "pull length + what the rig adds, as in \"float pulls 12 in + 12 in\".");
            return true;
        }
        return false;
    }
    const auto pull = readMeasure(trimmedText(rest.substr(0, plus)), std::nullopt);
    const auto offset = readMeasure(trimmedText(rest.substr(plus + 1)), std::nullopt);
    if (pull && offset && fixedLength(*pull) && fixedLength(*offset) &&
        *fixedLength(*pull) > Length{}) {
        header.rig = FloatRig{.pull = *pull, .offset = *offset};
        header.meaning.words =
            "a pull is " + printEntered(*pull) + ", the rig adds " + printEntered(*offset);
    } else {
        setUnclear(header, "pull length + what the rig adds, as in \"float pulls 12 in + 12 in\".");
    }
    return true;
}

bool setTip(HeaderLine& header, std::string_view rest) {
    const auto measure = readMeasure(rest, std::nullopt);
    if (measure && fixedLength(*measure)) {
        header.measure = measure;
        header.meaning.words = "rod tip " + printEntered(*measure) + " above the water";
        return true;
    }
    if (startsLikeNumber(rest)) {
        setUnclear(header, "how high is the rod tip above the water? As in \"tip 6 ft\".");
        return true;
    }
    return false;
}

bool setBearings(HeaderLine& header, std::string_view rest) {
    static constexpr std::array<std::pair<std::string_view, BearingSource>, 6> sources{{
        {"phone", BearingSource::Phone},
        {"compass", BearingSource::SightingCompass},
        {"marks", BearingSource::Mark},
        {"photo", BearingSource::Photo},
        {"map", BearingSource::Map},
        {"guess", BearingSource::Guess},
    }};
    const std::string text = lowered(rest);
    for (const auto& [word, source] : sources) {
        if (text == word || text == "by " + std::string(word)) {
            header.source = source;
            header.meaning.words = "directions by " + std::string(word);
            return true;
        }
    }
    return false;
}

bool setAim(HeaderLine& header, std::string_view line, std::string_view rest) {
    TypedAim aim = readAim(line, rest);
    if (!aim.aim) {
        return false;
    }
    header.aim = std::move(aim.aim);
    header.meaning = std::move(aim.meaning);
    return true;
}

bool setValue(HeaderLine& header, std::string_view line, std::string_view rest) {
    switch (header.key) {
    case Key::Swim:
    case Key::Reel:
    case Key::Note:
        return setText(header, rest);
    case Key::Day:
        return setDate(header, rest);
    case Key::Level:
        return setLevel(header, rest);
    case Key::Sticks:
        return setSticks(header, rest);
    case Key::Distances:
    case Key::Depths:
        return setUnit(header, rest);
    case Key::Float:
        return setFloat(header, rest);
    case Key::Tip:
        return setTip(header, rest);
    case Key::Bearings:
        return setBearings(header, rest);
    case Key::Aim:
        return setAim(header, line, rest);
    }
    return false;
}

/// A header's word, and what stands behind it.
struct Headed {
    std::string word; ///< in small letters
    std::string_view rest;
};

Headed splitHead(std::string_view line) {
    const std::string_view text = trimmedText(line);
    const std::size_t end = std::min(text.find_first_of(" \t:"), text.size());
    Headed headed{.word = lowered(text.substr(0, end)), .rest = trimmedText(text.substr(end))};
    if (headed.rest.starts_with(':')) {
        headed.rest = trimmedText(headed.rest.substr(1));
    }
    return headed;
}

/// A new page has its first words written already: who types the whole line behind them says the
/// one header. A note may well begin with its own word.
bool isDoubled(const Headed& headed, Key key) {
    return key != Key::Note && splitHead(headed.rest).word == headed.word;
}

} // namespace

std::string printDate(Date date) {
    return std::to_string(static_cast<unsigned>(date.day())) + " " +
           std::string(date.ok() ? monthName(date.month()) : "?") + " " +
           std::to_string(static_cast<int>(date.year()));
}

std::optional<std::string_view> misspeltHeader(std::string_view line) {
    const Headed headed = splitHead(line);
    if (headed.word.empty()) {
        return std::nullopt;
    }
    for (const auto& [word, key] : keys) {
        // Any text would do for these; "feel" and "swam" are words of his prose.
        const bool takesAnyText = key == Key::Swim || key == Key::Reel || key == Key::Note;
        // Three letters are one slip from half the language: "top 6 ft", "air".
        const bool isShort = word.size() < 4 && headed.word.size() <= word.size();
        const bool isLikely = !takesAnyText && headed.word != word &&
                              headed.word.front() == word.front() && isOneSlip(headed.word, word);
        if (!isLikely) {
            continue;
        }
        if (isShort && !(key == Key::Aim && headed.rest.find('=') != std::string_view::npos)) {
            continue;
        }
        const auto header = readHeader(std::string(word) + " " + std::string(headed.rest));
        if (header && header->meaning.kind == LineKind::Header) {
            return word;
        }
    }
    return std::nullopt;
}

std::optional<HeaderLine> readHeader(std::string_view line) {
    const Headed headed = splitHead(line);
    const auto key = std::find_if(keys.begin(), keys.end(), [&](const auto& candidate) {
        return candidate.first == headed.word;
    });
    if (key == keys.end()) {
        return std::nullopt;
    }
    if (isDoubled(headed, key->second)) {
        if (auto once = readHeader(headed.rest)) {
            return once;
        }
    }
    HeaderLine header;
    header.key = key->second;
    header.meaning.kind = LineKind::Header;
    return setValue(header, trimmedText(line), headed.rest) ? std::optional(std::move(header))
                                                            : std::nullopt;
}

} // namespace bedlore
