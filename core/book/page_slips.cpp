// SPDX-License-Identifier: MIT
#include "core/book/page_slips.hpp"

#include "core/book/page_header.hpp"
#include "core/book/page_tokens.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

/// Words that stand between two numbers in everyday notes: "12 bream 4", "22 lbs 8", "9 till 5".
constexpr std::array<std::string_view, 66> proseWords{
    "carp",   "bream",  "tench",  "roach",  "rudd",    "pike",    "perch", "mirror",  "mirrors",
    "common", "chub",   "barbel", "eels",   "commons", "fish",    "bites", "takes",   "runs",
    "lines",  "casts",  "rods",   "marks",  "pegs",    "swims",   "boats", "boilies", "spombs",
    "spods",  "days",   "hours",  "hour",   "mins",    "minutes", "night", "nights",  "week",
    "weeks",  "months", "years",  "till",   "until",   "past",    "from",  "with",    "then",
    "plus",   "over",   "under",  "before", "after",   "times",   "only",  "degrees", "knots",
    "miles",  "stone",  "pounds", "ounces", "lbs",     "ozs",     "mph",   "march",   "april",
    "june",   "july",   "august"};

LineOffer offer(const std::string& line) {
    return {.words = line + "?", .replacement = line, .answer = {}};
}

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

bool isLetter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// "21.30", "6:15": nobody writes a distance to two places that end so.
bool isTime(std::string_view word) {
    const std::size_t sign = word.find_first_of(".:");
    return sign != std::string_view::npos && word.size() == sign + 3 && sign <= 2 &&
           std::all_of(
               word.begin(), word.end(), [&](char c) { return isDigit(c) || c == word[sign]; });
}

/// Nearer than this nobody feels for the bed, but "2 carp 27" and "1 swan 2" are written often.
constexpr double nearest = 5.0;

bool mayBeDistance(const Token& token) {
    const auto range = readRange(token.text, Unit::One);
    return startsLikeNumber(token.text) && !isTime(token.text) && range && !range->nearer &&
           range->from.number >= nearest;
}

bool mayBeBedWord(std::string_view word) {
    constexpr std::size_t longest = 10;
    const bool isPlain = word.size() >= 2 && word.size() <= longest &&
                         std::all_of(word.begin(), word.end(), isLetter);
    if (!isPlain || readFelt(std::vector{std::string(word)})) {
        return false;
    }
    if (word.size() <= 2) {
        // "am", "lb", "kg" stand behind numbers too.
        return looksLikeCode(word) && !likelyWords(word).empty() && lowered(word) != "st";
    }
    const bool isProse =
        std::find(proseWords.begin(), proseWords.end(), lowered(word)) != proseWords.end();
    return !isProse && (word.size() > 3 || looksLikeCode(word));
}

/// Whether `tokens` are a number, words of the bed and signs, and one of them only a reading has.
bool isRestOfReading(std::span<const Token> tokens) {
    bool isProved = false;
    std::size_t numbers = 0;
    for (std::size_t i = 0; i < tokens.size();) {
        const std::string& text = tokens[i].text;
        std::vector<std::string> words;
        for (std::size_t next = i; next < std::min(i + 3, tokens.size()); ++next) {
            words.push_back(tokens[next].text);
        }
        const auto felt = readFelt(words);
        if (startsLikeNumber(text)) {
            isProved = ++numbers == 1;
        } else if (felt) {
            isProved = isProved || !felt->isPlainWord;
        } else if (text != "?" && text != "!") {
            return false;
        }
        i += felt ? felt->words : 1;
    }
    return isProved && numbers < 2;
}

std::vector<std::string_view> meantBy(std::string_view word) {
    return word.size() <= 3 ? likelyWords(word) : nearestWords(word);
}

/// The parts of "27 krud 4 tap" in the order in which a reading has them.
struct Parts {
    std::string place;
    std::string depth; ///< with a blank before it; empty for none
    std::string rest;  ///< likewise
};

MeasureFault askAbout(const Token& word, const Parts& parts) {
    constexpr std::size_t mostOffered = 3;
    MeasureFault fault{"\"" + word.text + "\" is not a word of the book.", {}};
    for (const std::string_view meant : meantBy(word.text)) {
        if (fault.offers.size() < mostOffered) {
            fault.offers.push_back(
                offer(parts.place + parts.depth + " " + std::string(meant) + parts.rest));
        }
    }
    fault.offers.push_back(offer(parts.place + parts.depth + parts.rest + ", " + word.text));
    return fault;
}

} // namespace

std::optional<MeasureFault> bedWordSlip(std::string_view line) {
    const std::vector<Token> tokens = readTokens(line);
    std::size_t at = 0;
    const bool hasLabel = tokens.size() > 2 && tokens[0].text.size() == 1 &&
                          isLetter(tokens[0].text[0]) && tokens[0].text != "R";
    at += hasLabel ? 1 : 0;
    if (at + 1 >= tokens.size() || !mayBeDistance(tokens[at]) ||
        !mayBeBedWord(tokens[at + 1].text)) {
        return std::nullopt;
    }
    const Token& word = tokens[at + 1];
    const auto behind = std::span(tokens).subspan(at + 2);
    // With nothing behind it, only a word that is one slip from a known one is no prose.
    if (behind.empty() ? !misspelt(word.text) : !isRestOfReading(behind)) {
        return std::nullopt;
    }
    Parts parts{.place = std::string(line.substr(0, tokens[at].end)), .depth = {}, .rest = {}};
    std::size_t rest = word.end;
    if (!behind.empty() && startsLikeNumber(behind.front().text)) {
        const Token& depth = behind.front();
        parts.depth = " " + std::string(line.substr(depth.begin, depth.end - depth.begin));
        rest = depth.end;
    }
    parts.rest = line.substr(rest);
    return askAbout(word, parts);
}

namespace {

constexpr const char* whichDay = "which day? Write it as 2025-04-12.";

/// "date the Gap". A longer line that begins so is prose, and so is "date with a view".
std::optional<MeasureFault> wordWithoutDate(std::string_view line, SwimOfPage swim) {
    constexpr std::size_t mostWords = 5;
    const std::vector<std::string> words = splitWords(line);
    constexpr std::array<std::string_view, 12> links{
        "with", "of", "for", "on", "at", "from", "in", "is", "was", "to", "and", "by"};
    const bool isShort = words.size() > 1 && words.size() <= mostWords &&
                         std::find(links.begin(), links.end(), lowered(words[1])) == links.end();
    if (!isShort || (lowered(words[0]) != "date" && lowered(words[0]) != "date:")) {
        return std::nullopt;
    }
    MeasureFault fault{whichDay, {}};
    if (words.size() == 4) { // "date April 12 2025"
        const std::string dayFirst = "date " + words[2] + " " + words[1] + " " + words[3];
        const auto header = readHeader(dayFirst);
        if (header && header->date) {
            fault.offers.push_back(offer(dayFirst));
        }
    }
    if (fault.offers.empty() && swim == SwimOfPage::Unsaid) {
        const std::size_t rest = line.find(words[1], words[0].size());
        fault.offers.push_back(offer("swim " + std::string(line.substr(rest))));
    }
    return fault;
}

/// "2026-10-10", "12 April 2025", "12/4/2025".
std::optional<MeasureFault> dateWithoutWord(std::string_view line) {
    const auto header = readHeader("date " + std::string(line));
    if (!header || header->key != HeaderLine::Key::Day) {
        return std::nullopt;
    }
    MeasureFault fault{"is this the day of the page?", {}};
    if (header->date) {
        fault.offers.push_back(offer("date " + std::string(line)));
    } else if (line.find(' ') == std::string_view::npos) {
        fault.offers = header->meaning.offers;
    }
    return fault.offers.empty() ? std::nullopt : std::optional(std::move(fault));
}

} // namespace

std::optional<MeasureFault> dateSlip(std::string_view line, SwimOfPage swim) {
    auto fault = wordWithoutDate(line, swim);
    return fault ? fault : dateWithoutWord(line);
}

} // namespace bedlore
