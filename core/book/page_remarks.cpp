// SPDX-License-Identifier: MIT
#include "core/book/page_remarks.hpp"

#include "core/book/page_aim.hpp"
#include "core/book/page_header.hpp"
#include "core/book/page_slips.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <set>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace bedlore {

namespace {

constexpr std::size_t mostOffered = 4;
constexpr std::size_t mostNamed = 8;

using Labels = std::vector<std::string>;

bool contains(const Labels& labels, const std::string& label) {
    return std::find(labels.begin(), labels.end(), label) != labels.end();
}

void add(Labels& labels, const std::string& label) {
    if (!label.empty() && !contains(labels, label)) {
        labels.push_back(label);
    }
}

/// The aims that are said for a section: those of its own lines first.
Labels saidFor(const PageSection& section, const PageContext& context) {
    Labels said;
    for (const AimDraft& aim : section.aims) {
        add(said, aim.label);
        add(said, hangsOn(aim));
    }
    for (const SaidAim& aim : context.aims) {
        if (!section.swim.empty() && lowered(aim.swim) == lowered(section.swim)) {
            add(said, aim.label);
        }
    }
    return said;
}

std::string listed(const Labels& labels) {
    std::string words;
    for (std::size_t i = 0; i < std::min(labels.size(), mostNamed); ++i) {
        words += (words.empty() ? "" : ", ") + labels[i];
    }
    return labels.size() > mostNamed ? words + ", …" : words;
}

/// The line on another aim; empty where its label does not stand at its front as it was read.
std::string onAim(std::string_view line, std::string_view label, const std::string& other) {
    const std::size_t begin = std::min(line.find_first_not_of("+ \t"), line.size());
    if (lowered(line.substr(begin, label.size())) != lowered(label)) {
        return {};
    }
    return std::string(line.substr(0, begin)) + other +
           std::string(line.substr(begin + label.size()));
}

void remark(LineMeaning& meaning, std::string_view line, const std::string& label, Labels said) {
    meaning.remark = label + " is not among the aims said so far (" + listed(said) +
                     "): another name for one of them, or a new one?";
    said.resize(std::min(said.size(), mostOffered));
    for (const std::string& other : said) {
        if (std::string mended = onAim(line, label, other); !mended.empty()) {
            meaning.offers.push_back(
                {.words = other + "?", .replacement = std::move(mended), .answer = {}});
        }
    }
    meaning.offers.push_back(
        {.words = "a new aim", .replacement = {}, .answer = {}, .above = "aim " + label});
}

/// What a note may have been meant to be.
using Slip = MeasureFault;

LineOffer offer(const std::string& line) {
    return {.words = line + "?", .replacement = line, .answer = {}};
}

std::vector<std::string_view> wordsOf(std::string_view text) {
    std::vector<std::string_view> words;
    for (std::size_t at = text.find_first_not_of(" \t"); at != std::string_view::npos;) {
        const std::size_t end = std::min(text.find_first_of(" \t", at), text.size());
        words.push_back(text.substr(at, end - at));
        at = text.find_first_not_of(" \t", end);
    }
    return words;
}

bool beginsWithDigit(std::string_view word) {
    return !word.empty() && word.front() >= '0' && word.front() <= '9';
}

std::optional<Slip> slipInAHeadersWord(std::string_view text) {
    const auto meant = misspeltHeader(text);
    if (!meant) {
        return std::nullopt;
    }
    const std::size_t end = std::min(text.find_first_of(" \t:"), text.size());
    return Slip{
        .what = "did you mean \"" + std::string(*meant) + "\"?",
        .offers = {
            {.words = std::string(*meant) + "?",
             .replacement = std::string(*meant) + std::string(text.substr(end)),
             .answer = {}}}};
}

/// "aim A 210 magnetic". Words behind the letter would do for a mark's name, and for prose.
std::optional<Slip> aimWithoutItsSign(std::string_view text) {
    const std::vector<std::string_view> words = wordsOf(text);
    if (words.size() < 3 || lowered(words[0]) != "aim" || !beginsWithDigit(words[2])) {
        return std::nullopt;
    }
    const auto direction = static_cast<std::size_t>(words[2].data() - text.data());
    const std::string rest = std::string(words[1]) + " = " + std::string(text.substr(direction));
    const TypedAim aim = readAim(text, rest);
    const bool hasAngle = aim.aim && (std::holds_alternative<AimDraft::AtBearing>(aim.aim->basis) ||
                                      std::holds_alternative<AimDraft::AtClock>(aim.aim->basis));
    if (!hasAngle) {
        return std::nullopt;
    }
    return Slip{
        .what = "the direction of an aim stands behind \"=\"",
        .offers = {offer(std::string(words[0]) + " " + rest)}};
}

/// "23 -3 gr": a depth above the water, or a stretch with a blank in it.
std::optional<Slip> depthBelowZero(std::string_view text) {
    const std::vector<std::string_view> words = wordsOf(text);
    for (std::size_t i = 0; i + 1 < std::min<std::size_t>(words.size(), 3); ++i) {
        const std::string_view next = words[i + 1];
        if (!beginsWithDigit(words[i]) || next.front() != '-' || !beginsWithDigit(next.substr(1))) {
            continue;
        }
        const auto end = static_cast<std::size_t>(words[i].data() - text.data()) + words[i].size();
        const auto sign = static_cast<std::size_t>(next.data() - text.data());
        const auto joinedBy = [&](char between) {
            return std::string(text.substr(0, end)).append(1, between).append(text, sign + 1);
        };
        return Slip{
            .what = "a depth is not below zero: is it a depth, or a stretch?",
            .offers = {offer(joinedBy(' ')), offer(joinedBy('-'))}};
    }
    return std::nullopt;
}

/// The line without the word for its depth of 0; empty where that is not told apart.
std::string withoutItsNought(std::string_view text) {
    const std::vector<std::string_view> words = wordsOf(text);
    for (std::size_t i = 1; i < words.size(); ++i) {
        const bool isNought = words[i].front() == '0' &&
                              words[i].find_first_of("123456789") == std::string_view::npos;
        if (isNought && beginsWithDigit(words[i])) {
            const auto at = static_cast<std::size_t>(words[i].data() - text.data());
            std::string_view rest = text.substr(at + words[i].size());
            rest.remove_prefix(std::min(rest.find_first_not_of(" \t"), rest.size()));
            return std::string(trimmedText(std::string(text.substr(0, at)).append(rest)));
        }
    }
    return {};
}

/// The line with a point before the last figure of its depth, a whole number; empty where that is
/// not told apart.
std::string withTenthOf(std::string_view text, double depth) {
    const std::vector<std::string_view> words = wordsOf(text);
    // The first number is how far out it was, which may be as large.
    const auto distance = std::find_if(words.begin(), words.end(), beginsWithDigit);
    for (auto word = distance; word != words.end() && ++word != words.end();) {
        const bool isWhole = word->find_first_not_of("0123456789") == std::string_view::npos;
        double number = 0.0;
        for (const char figure : *word) {
            number = 10.0 * number + (figure - '0');
        }
        if (isWhole && number == depth) {
            const auto end = static_cast<std::size_t>(word->data() - text.data()) + word->size();
            return std::string(text.substr(0, end - 1)).append(1, '.').append(text, end - 1);
        }
    }
    return {};
}

/// Asks about the depths that `doubts` has something to ask about, but for those that he is sure
/// of: `sure` says so of one with a key, `mended` gives the line that it may have been, if any.
template <class Doubts, class Mended>
void remarkOnDepths(
    std::span<const std::string> lines,
    PageMeaning& meaning,
    const Doubts& doubts,
    const char* sure,
    const Mended& mended) {
    constexpr int surest = 3;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Reading || !line.draft || !line.remark.empty()) {
            continue;
        }
        const Reading& reading = meaning.readings[*line.draft].reading;
        const std::string asked =
            reading.depth && reading.sureness != surest ? doubts(*reading.depth) : std::string();
        if (asked.empty()) {
            continue;
        }
        const std::string text(trimmedText(lines[i]));
        line.remark = asked;
        line.offers.push_back({.words = sure, .replacement = text + " !", .answer = {}});
        if (const std::string other = mended(text, *reading.depth); !other.empty()) {
            line.offers.push_back(offer(other));
        }
    }
}

/// The first slip of those that a note may hide.
std::optional<Slip> slipIn(std::string_view text, SwimOfPage swim) {
    for (const auto& look : {slipInAHeadersWord, aimWithoutItsSign, depthBelowZero}) {
        if (auto slip = look(text)) {
            return slip;
        }
    }
    auto slip = dateSlip(text, swim);
    return slip ? slip : bedWordSlip(text);
}

} // namespace

void remarkOnNoDepth(std::span<const std::string> lines, PageMeaning& meaning) {
    const auto doubts = [](const DepthEntry& depth) -> std::string {
        const bool isNought =
            !depth.to && depth.method != DepthMethod::FloatPulls && !(depth.value.number > 0.0);
        return isNought ? "a depth of 0 is where the water ends: is the bed bare there, or was no "
                          "depth taken?"
                        : "";
    };
    const auto mended = [](const std::string& text, const DepthEntry&) {
        return withoutItsNought(text);
    };
    remarkOnDepths(lines, meaning, doubts, "bare, sure", mended);
}

void remarkOnGreatDepth(std::span<const std::string> lines, PageMeaning& meaning) {
    // Deep reservoirs have 30 to 60 ft where a bank angler reaches (common practice).
    static constexpr Length most = 60.0_ft;
    const auto doubts = [](const DepthEntry& depth) -> std::string {
        const std::optional<Length> length = fixedLength(depth.value);
        return length && *length > most
                   ? "a depth of " + printEntered(depth.value) +
                         " is more than deep reservoirs have: is it what you read?"
                   : "";
    };
    const auto mended = [](const std::string& text, const DepthEntry& depth) {
        return withTenthOf(text, depth.value.number);
    };
    remarkOnDepths(lines, meaning, doubts, "yes, sure", mended);
}

void askAboutSlips(std::span<const std::string> lines, PageMeaning& meaning) {
    const bool isSaid = std::any_of(
        meaning.sections.begin(), meaning.sections.end(), [](const PageSection& section) {
            return !section.swim.empty();
        });
    const SwimOfPage swim = isSaid ? SwimOfPage::Said : SwimOfPage::Unsaid;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Note) {
            continue;
        }
        const std::string_view text = trimmedText(lines[i]);
        std::optional<Slip> slip = slipIn(text, swim);
        if (!slip) {
            continue;
        }
        line.kind = LineKind::Unclear;
        line.words.clear();
        line.unclear = std::move(slip->what);
        line.offers = std::move(slip->offers);
        line.offers.push_back(
            {.words = "only a note?", .replacement = "note " + std::string(text), .answer = {}});
    }
}

void remarkOnUnsaidAims(
    std::span<const std::string> lines, const PageContext& context, PageMeaning& meaning) {
    std::vector<Labels> said;
    for (const PageSection& section : meaning.sections) {
        said.push_back(saidFor(section, context));
    }
    std::set<std::pair<std::size_t, std::string>> asked;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        LineMeaning& line = meaning.lines[i];
        if (line.kind != LineKind::Reading || !line.draft) {
            continue;
        }
        const CastDraft& cast = meaning.casts[meaning.readings[*line.draft].castIndex];
        const Labels& known = said[cast.section];
        const bool isSaid = known.empty() || cast.aim.empty() || contains(known, cast.aim);
        if (!isSaid && line.remark.empty() && asked.insert({cast.section, cast.aim}).second) {
            remark(line, trimmedText(lines[i]), cast.aim, known);
        }
    }
}

} // namespace bedlore
