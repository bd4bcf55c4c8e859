// SPDX-License-Identifier: MIT
#include "core/book/page_measures.hpp"

#include "core/book/page_header.hpp"
#include "core/book/page_words.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

/// No cast with a rod goes farther: about 180 yards.
constexpr double farthestCast = 165.0; // m
constexpr double deepestFloat = 60.0;  // m

/// A bare number is asked about once for each visit: his next page may be in other units.
std::string ofVisit(std::string_view question, const PageSection& section) {
    std::string whole(question);
    if (!section.swim.empty()) {
        whole += ", " + section.swim;
    }
    if (section.date) {
        whole += ", " + printDate(*section.date);
    }
    return whole;
}

std::optional<std::string> answerTo(const PageContext& context, std::string_view question) {
    for (const Answer& answer : context.answers) {
        if (answer.question == question) {
            return answer.answer;
        }
    }
    return std::nullopt;
}

std::optional<Unit> answeredUnit(const ReadingRules& rules, std::string_view question) {
    const auto answer = answerTo(rules.context, ofVisit(question, rules.section));
    return answer ? unitFromCode(*answer) : std::nullopt;
}

LineOffer answerOffer(std::string words, std::string question, std::string_view answer) {
    return {
        .words = std::move(words),
        .replacement = {},
        .answer = Answer{.id = {}, .question = std::move(question), .answer = std::string(answer)}};
}

MeasureFault unitFault(
    std::string what,
    std::string_view question,
    const PageSection& section,
    std::span<const Unit> units) {
    MeasureFault fault{.what = std::move(what), .offers = {}};
    for (const Unit unit : units) {
        fault.offers.push_back(
            answerOffer(unitWord(unit) + "?", ofVisit(question, section), unitCode(unit)));
    }
    return fault;
}

bool isInTurns(const Reading& reading) {
    return reading.from.unit == Unit::Turn || (reading.to && reading.to->unit == Unit::Turn);
}

std::optional<MeasureFault> turnsFault(const ReadingRules& rules) {
    if (rules.reel.empty()) {
        return MeasureFault{
            .what = "turns of which reel? A line such as \"reel NAME\" says it.", .offers = {}};
    }
    const auto& reels = rules.context.reels;
    const bool measured = std::any_of(reels.begin(), reels.end(), [&](const std::string& name) {
        return lowered(name) == lowered(rules.reel);
    });
    if (measured) {
        return std::nullopt;
    }
    return MeasureFault{
        .what = "the turns of reel " + rules.reel +
                " were never measured: count them over a known length and enter both.",
        .offers = {}};
}

/// Beyond any cast: the same number in another unit is offered where it would not be.
std::optional<MeasureFault> tooFar(
    const Reading& reading, const Token& typed, std::string_view line, const ReadingRules& rules) {
    if (roughMetres(reading.from, rules.section) <= farthestCast) {
        return std::nullopt;
    }
    struct Other {
        Unit unit;
        std::string_view suffix;
        std::string_view words;
    };
    static constexpr std::array<Other, 3> others{{
        {Unit::Yard, "y", "yards?"},
        {Unit::Metre, "m", "metres?"},
        {Unit::Foot, " ft", "feet?"},
    }};
    MeasureFault fault{.what = printEntered(reading.from) + " is beyond any cast.", .offers = {}};
    const bool bare = readNumber(typed.text).has_value();
    for (const Other& other : others) {
        const Entered instead{reading.from.number, other.unit, {}};
        const bool fits = roughMetres(instead, rules.section) <= farthestCast;
        if (bare && fits && !reading.to && reading.from.unit != other.unit) {
            std::string replacement(line);
            replacement.insert(typed.end, other.suffix);
            fault.offers.push_back(
                {.words = std::string(other.words), .replacement = replacement, .answer = {}});
        }
    }
    return fault;
}

/// "11.6" feet is eleven foot six to many: asked once. ".10" and ".11" are inches whatever he
/// answers, ".5" is a half until he says that the point means inches, a comma is always decimal,
/// and so are other numbers of two digits (".25").
std::optional<MeasureFault>
settlePoint(Entered& value, std::string_view text, const PageContext& context) {
    const auto point = text.find('.');
    if (point == std::string_view::npos) {
        return std::nullopt;
    }
    std::string digits;
    for (const char c : text.substr(point + 1)) {
        if (c < '0' || c > '9') {
            break;
        }
        digits += c;
    }
    const auto answer = answerTo(context, pointQuestion);
    const bool certainlyInches = digits == "10" || digits == "11";
    const bool open = digits.size() == 1 && digits != "0" && digits != "5";
    const bool saidInches = answer == "inches" && digits.size() == 1 && digits != "0";
    if (certainlyInches || saidInches) {
        value.number = std::floor(value.number) + *readDecimal(digits) / 12.0;
        return std::nullopt;
    }
    if (!open || answer) {
        return std::nullopt;
    }
    const std::string inches = printNumber(std::floor(value.number)) + " ft " + digits + " in";
    const std::string asked(pointQuestion);
    return MeasureFault{
        .what = "does " + std::string(text) + " mean " + inches + "?",
        .offers = {
            answerOffer(inches + "?", asked, "inches"),
            answerOffer("tenths of a foot?", asked, "tenths")}};
}

std::optional<MeasureFault>
settleDepth(TypedDepth& typed, std::string_view text, const ReadingRules& rules) {
    DepthEntry& depth = typed.depth;
    if (depth.value.unit == Unit::One) {
        return unitFault(
            "a depth of " + std::string(text) + " in what?",
            bareDepthQuestion,
            rules.section,
            bareDepthUnits);
    }
    if (depth.value.unit == Unit::Pull) {
        depth.method = DepthMethod::FloatPulls;
        if (!rules.section.visit.floatRig) {
            return MeasureFault{
                .what = "pulls need the float: a line such as \"float pulls 12 in + 12 in\".",
                .offers = {}};
        }
        return std::nullopt;
    }
    const auto length = fixedLength(depth.value);
    if (!length) {
        return MeasureFault{.what = "\"" + std::string(text) + "\" is not a depth.", .offers = {}};
    }
    if (*length / metre > deepestFloat) {
        return MeasureFault{
            .what = "a depth of " + printEntered(depth.value) + " cannot be.", .offers = {}};
    }
    if (depth.value.unit != Unit::Foot) {
        return std::nullopt;
    }
    auto fault = settlePoint(depth.value, depth.value.text, rules.context);
    if (!fault && depth.to) {
        fault = settlePoint(*depth.to, depth.to->text, rules.context);
    }
    return fault;
}

} // namespace

std::string unitWord(Unit unit) {
    switch (unit) {
    case Unit::Foot:
        return "feet";
    case Unit::Yard:
        return "yards";
    case Unit::Metre:
        return "metres";
    default: // the others are words already
        return std::string(unitName(unit));
    }
}

std::vector<Answer>
answersRenamed(const PageContext& context, const PageSection& before, const PageSection& now) {
    std::vector<Answer> renamed;
    for (const std::string_view question : {bareDistanceQuestion, bareDepthQuestion}) {
        const std::string asked = ofVisit(question, now);
        for (const Answer& answer : context.answers) {
            if (answer.question == ofVisit(question, before) && !answerTo(context, asked)) {
                renamed.push_back({.id = answer.id, .question = asked, .answer = answer.answer});
                break;
            }
        }
    }
    return renamed;
}

std::optional<Unit> bareDistance(const ReadingRules& rules) {
    return rules.bareDistance ? rules.bareDistance : answeredUnit(rules, bareDistanceQuestion);
}

std::optional<Unit> bareDepth(const ReadingRules& rules) {
    return rules.bareDepth ? rules.bareDepth : answeredUnit(rules, bareDepthQuestion);
}

std::optional<MeasureFault> distanceFault(
    const Reading& reading, const Token& typed, std::string_view line, const ReadingRules& rules) {
    const auto says = [](std::string what) {
        return MeasureFault{.what = std::move(what), .offers = {}};
    };
    const Unit unit = reading.from.unit;
    if (unit == Unit::One) {
        return unitFault(
            "a distance of " + typed.text + " in what?",
            bareDistanceQuestion,
            rules.section,
            bareDistanceUnits);
    }
    if (reading.from.number <= 0.0) {
        return says("a distance of nothing.");
    }
    const bool nearer = !reading.to || roughMetres(*reading.to, rules.section) <
                                           roughMetres(reading.from, rules.section);
    if (!nearer || (reading.to && reading.mode == DistanceMode::NearerThanLast)) {
        return says("a stretch runs from far to near, as in \"27-25\".");
    }
    if (isInTurns(reading)) {
        if (auto fault = turnsFault(rules)) {
            return fault;
        }
    }
    return tooFar(reading, typed, line, rules);
}

std::optional<TypedDepth> readDepth(std::string_view text, const ReadingRules& rules) {
    const auto range = readRange(text, bareDepth(rules));
    if (!range || range->nearer) {
        return std::nullopt;
    }
    TypedDepth typed{
        .depth =
            {.value = range->from,
             .to = range->to,
             .method = DepthMethod::Measured,
             .about = range->about},
        .fault = {},
        .hasOwnUnit = range->hasOwnUnit};
    const Unit unit = typed.depth.value.unit;
    const bool counted =
        unit == Unit::One || unit == Unit::Pull || unit == Unit::Wrap || unit == Unit::Turn;
    if (!counted && !fixedLength(typed.depth.value)) {
        return std::nullopt; // kilograms, loads: prose
    }
    typed.fault = settleDepth(typed, text, rules);
    if (typed.depth.to && typed.depth.to->number < typed.depth.value.number) {
        std::swap(*typed.depth.to, typed.depth.value);
    }
    return typed;
}

std::optional<Entered> readDistance(std::string_view text, std::optional<Unit> bare) {
    const auto measure = readMeasure(text, bare);
    const bool length = measure && measure->number > 0.0 &&
                        (measure->unit == Unit::Wrap || measure->unit == Unit::Turn ||
                         fixedLength(*measure).has_value());
    return length ? measure : std::nullopt;
}

double roughMetres(const Entered& distance, const PageSection& section) {
    if (const auto fixed = fixedLength(distance)) {
        return *fixed / metre;
    }
    if (distance.unit == Unit::Wrap) {
        return distance.number * (wrapSize(section.visit) / metre);
    }
    return distance.number * 0.9;
}

} // namespace bedlore
