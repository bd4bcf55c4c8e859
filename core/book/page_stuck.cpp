// SPDX-License-Identifier: MIT
#include "core/book/page_stuck.hpp"

#include "core/book/page_tokens.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <string>

namespace bedlore {

namespace {

bool isLetter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

/// An aim that the page defines, or that a reading above is on.
bool isKnown(std::string_view label, const ReadingRules& rules) {
    const auto& aims = rules.section.aims;
    const bool defined = std::any_of(
        aims.begin(), aims.end(), [&](const AimDraft& aim) { return aim.label == label; });
    return defined || (rules.usedAims != nullptr && rules.usedAims->contains(label));
}

/// Whether a reading says more than how far out it was.
bool saysMore(const Reading& reading) {
    return reading.depth || reading.substrate || reading.cover || reading.drop || reading.pull ||
           reading.outcome || !reading.onLead.empty();
}

/// R and a number is a rod, x and a number so many casts, P14 the swim he is in.
bool isName(std::string_view word, const ReadingRules& rules) {
    const std::string letter = lowered(word.substr(0, 1));
    return letter == "r" || letter == "x" || lowered(word) == lowered(rules.section.swim);
}

} // namespace

std::optional<ReadingLine> readStuckLabel(std::string_view line, const ReadingRules& rules) {
    const std::size_t begin = line.starts_with('+') ? line.find_first_not_of("+ \t") : 0;
    if (begin >= line.size() || !isLetter(line[begin])) {
        return std::nullopt;
    }
    const std::string_view word = line.substr(begin, line.find_first_of(" \t", begin) - begin);
    const std::string_view number = word.substr(1);
    const bool isNumber = number.find('-') != 0 && startsLikeNumber(number);
    const bool known = isKnown(word.substr(0, 1), rules);
    if (!isNumber || (!known && isName(word, rules))) {
        return std::nullopt;
    }
    const std::string spaced =
        std::string(line.substr(0, begin + 1)) + " " + std::string(line.substr(begin + 1));
    ReadingLine read = readReadingLine(spaced, rules);
    const bool isReading = read.meaning.kind == LineKind::Reading && saysMore(read.reading) &&
                           (known || read.reading.note.empty());
    if (!isReading) {
        return std::nullopt;
    }
    read.meaning.remark =
        "taken as aim " + read.aim + " and " + std::string(number) + ": put a blank between them.";
    read.meaning.offers = {
        {.words = read.aim + " " + std::string(number) + "?", .replacement = spaced, .answer = {}}};
    return read;
}

} // namespace bedlore
