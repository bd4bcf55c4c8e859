// SPDX-License-Identifier: MIT
#include "core/book/page_spot.hpp"

#include "core/book/page_measures.hpp"
#include "core/book/page_tokens.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <utility>
#include <vector>

namespace bedlore {

namespace {

/// Without the word "spot" before it and quotes around it.
std::string_view nameOf(std::string_view text) {
    constexpr std::string_view spot = "spot ";
    if (lowered(text.substr(0, spot.size())) == spot) {
        text = trimmedText(text.substr(spot.size()));
    }
    for (const auto& [open, close] :
         {std::pair<std::string_view, std::string_view>{"\"", "\""},
          {"\u201c", "\u201d"},
          {"'", "'"}}) {
        const bool quoted = text.size() > open.size() + close.size() && text.starts_with(open) &&
                            text.ends_with(close);
        if (quoted) {
            text = text.substr(open.size(), text.size() - open.size() - close.size());
        }
    }
    return trimmedText(text);
}

void setUnclear(SpotLine& line, MeasureFault fault) {
    line.meaning.kind = LineKind::Unclear;
    line.meaning.words.clear();
    line.meaning.unclear = std::move(fault.what);
    line.meaning.offers = std::move(fault.offers);
}

/// "rods 26¾ spod 26"
void readLengths(std::string_view text, const ReadingRules& rules, SpotLine& line) {
    std::string rod;
    for (const Token& token : readTokens(text)) {
        const auto length = readDistance(token.text, bareDistance(rules));
        if (length && !rod.empty()) {
            line.spot.lengths.push_back({.rod = rod, .visit = {}, .length = *length});
            line.meaning.words += ", " + rod + " " + printEntered(*length);
            rod.clear();
        } else if (token.text != ",") {
            rod += (rod.empty() ? "" : " ") + token.text;
        }
    }
    if (!rod.empty()) {
        setUnclear(line, {"the length of \"" + rod + "\" is missing or not a distance.", {}});
    }
}

} // namespace

std::optional<SpotLine> readSpotLine(std::string_view text, const ReadingRules& rules) {
    const auto equals = text.find('=');
    if (equals == std::string_view::npos || equals == 0) {
        return std::nullopt;
    }
    const std::string_view name = nameOf(trimmedText(text.substr(0, equals)));
    const std::string_view rest = text.substr(equals + 1);
    auto stroke = rest.find(" / ");
    const std::string_view place = rest.substr(0, stroke);
    const std::vector<Token> tokens = readTokens(place);
    const bool isSpot = !name.empty() && tokens.size() >= 2 &&
                        isAimLabel(tokens[0].text, rules.section) &&
                        startsLikeNumber(tokens[1].text);
    if (!isSpot) {
        return std::nullopt;
    }
    SpotLine line;
    line.spot.name = std::string(name);
    line.spot.aim = tokens[0].text;
    Token distance = tokens[1];
    distance.begin += equals + 1;
    distance.end += equals + 1;
    const auto length = readDistance(distance.text, bareDistance(rules).value_or(Unit::One));
    Reading where;
    where.from = length.value_or(Entered{});
    if (const auto bare = readNumber(distance.text); bare && !bareDistance(rules)) {
        where.from = {*bare, Unit::One, distance.text};
    } else if (!length) {
        setUnclear(line, {"\"" + distance.text + "\" is not a distance.", {}});
        return line;
    }
    if (auto fault = distanceFault(where, distance, text, rules)) {
        setUnclear(line, std::move(*fault));
        return line;
    }
    line.spot.lineOut = *length;
    line.meaning.kind = LineKind::Spot;
    line.meaning.words =
        "spot " + line.spot.name + ": aim " + line.spot.aim + ", " + printEntered(*length);
    if (stroke != std::string_view::npos) {
        readLengths(rest.substr(stroke + 3), rules, line);
    }
    if (line.meaning.kind == LineKind::Spot && tokens.size() > 2) {
        line.spot.note = std::string(trimmedText(place.substr(tokens[2].begin)));
        line.meaning.words += ", \u201c" + line.spot.note + "\u201d";
    }
    return line;
}

} // namespace bedlore
