// SPDX-License-Identifier: MIT
#include "core/book/page_reading.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/page_words.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

namespace bedlore {

namespace {

/// No cast with a rod goes farther: about 180 yards.
constexpr double farthestCast = 165.0; // m
constexpr double deepestFloat = 60.0;  // m
constexpr std::string_view pointQuestion = "point in feet";
constexpr std::string_view distanceQuestion = "bare distance";
constexpr std::string_view depthQuestion = "bare depth";

bool startsLikeNumber(std::string_view text) {
    if (text.starts_with('~') || text.starts_with('-') || text.starts_with('+')) {
        text.remove_prefix(1);
    }
    const bool digit = !text.empty() && text[0] >= '0' && text[0] <= '9';
    return digit || text.starts_with("½") || text.starts_with("¼") || text.starts_with("¾");
}

bool isWhole(std::string_view text) {
    return !text.empty() &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Words of a line, with "28 1/2" and "62 yd" made one.
std::vector<std::string> joinMeasures(const std::vector<std::string>& words) {
    static const std::set<std::string> units{
        "yd",
        "yds",
        "yards",
        "ft",
        "feet",
        "m",
        "metres",
        "wraps",
        "wrap",
        "turns",
        "turn",
        "pulls",
        "pull",
        "in"};
    std::vector<std::string> joined;
    for (const std::string& word : words) {
        const bool afterNumber = !joined.empty() && readNumber(joined.back()).has_value();
        const bool fraction =
            afterNumber && isWhole(joined.back()) && readNumber(word) &&
            (word.find('/') != std::string::npos || !startsLikeNumber(word.substr(0, 1)));
        const bool unit = afterNumber && units.contains(lowered(word));
        const bool inches = !joined.empty() && lowered(joined.back()).ends_with(" ft") &&
                            (word.ends_with("in") || word.ends_with("\""));
        if (fraction || unit || inches) {
            joined.back() += " " + word;
        } else {
            joined.push_back(word);
        }
    }
    return joined;
}

struct Range {
    Entered from;
    std::optional<Entered> to;
    bool about = false;
    bool nearer = false;
};

/// "~25", "27-25", "-6t", "28½", "8-10". `bare` may be empty: a bare number is then in `Unit::One`.
std::optional<Range> readRange(std::string_view text, std::optional<Unit> bare) {
    Range range;
    std::string_view rest = text;
    if (rest.starts_with('~')) {
        range.about = true;
        rest.remove_prefix(1);
    }
    const Unit unit = bare.value_or(Unit::One);
    if (rest.starts_with('-')) {
        range.nearer = true;
        rest.remove_prefix(1);
    }
    const auto dash = rest.find('-');
    if (dash == std::string_view::npos) {
        const auto from = readMeasure(rest, unit);
        if (!from || from->number < 0.0) {
            return std::nullopt;
        }
        range.from = *from;
        range.from.text = std::string(text);
        return range;
    }
    const auto to = readMeasure(rest.substr(dash + 1), unit);
    // "27-25w": a unit behind the second number is meant for both.
    const auto from = readMeasure(rest.substr(0, dash), to ? to->unit : unit);
    if (!from || !to || range.nearer || from->number < 0.0 || to->number < 0.0) {
        return std::nullopt;
    }
    range.from = *from;
    range.to = *to;
    return range;
}

std::optional<std::string> answerTo(const PageContext& context, std::string_view question) {
    for (const Answer& answer : context.answers) {
        if (answer.question == question) {
            return answer.answer;
        }
    }
    return std::nullopt;
}

std::optional<Unit> answeredUnit(const PageContext& context, std::string_view question) {
    const auto answer = answerTo(context, question);
    return answer ? unitFromCode(*answer) : std::nullopt;
}

LineOffer unitOffer(std::string words, std::string_view question, Unit unit) {
    return {
        .words = std::move(words),
        .replacement = {},
        .answer = Answer{
            .id = {}, .question = std::string(question), .answer = std::string(unitCode(unit))}};
}

class LineReader {
public:
    LineReader(std::string_view line, const ReadingRules& rules)
        : rules_(rules)
        , line_(line) {}

    ReadingLine run() {
        result_.meaning.kind = LineKind::Note;
        result_.meaning.words = "note";
        words_ = joinMeasures(splitWords(line_));
        takePlus();
        const bool labelled = takeLabel();
        if (at_ >= words_.size() || !startsLikeNumber(words_[at_])) {
            return std::move(result_); // prose, whatever its first letter
        }
        const std::string distance = words_[at_];
        const auto bare = bareDistance();
        const auto range = readRange(distance, bare);
        if (!range || (range->nearer && range->to)) {
            return labelled ? unclear("\"" + distance + "\" is not a distance.") : note();
        }
        ++at_;
        if (!takeRest(labelled)) {
            return note();
        }
        if (!unclear_.empty()) {
            return unclear(unclear_);
        }
        return takeDistance(*range, distance);
    }

private:
    ReadingLine note() {
        ReadingLine result;
        result.meaning.kind = LineKind::Note;
        result.meaning.words = "note";
        return result;
    }

    ReadingLine unclear(std::string what) {
        result_.meaning.kind = LineKind::Unclear;
        result_.meaning.words.clear();
        result_.meaning.unclear = std::move(what);
        return std::move(result_);
    }

    void takePlus() {
        if (!words_.empty() && words_[0].starts_with('+')) {
            result_.newCast = true;
            words_[0].erase(0, 1);
            if (words_[0].empty()) {
                words_.erase(words_.begin());
            }
        }
    }

    bool takeLabel() {
        const bool hasLabel = words_.size() > at_ + 1 && isAimLabel(words_[at_], rules_.section);
        if (hasLabel) {
            result_.aim = words_[at_++];
        }
        return hasLabel;
    }

    std::optional<Unit> bareDistance() const {
        return rules_.bareDistance ? rules_.bareDistance
                                   : answeredUnit(rules_.context, distanceQuestion);
    }
    std::optional<Unit> bareDepth() const {
        return rules_.bareDepth ? rules_.bareDepth : answeredUnit(rules_.context, depthQuestion);
    }

    /// Everything behind the distance. False where the line is prose after all.
    bool takeRest(bool labelled) {
        bool understood = labelled || at_ == words_.size();
        if (at_ < words_.size() && words_[at_] == "--") {
            understood = true;
            ++at_;
        } else if (at_ < words_.size() && startsLikeNumber(words_[at_])) {
            understood = takeDepth(words_[at_]) || understood;
        }
        std::vector<std::string> rest(
            words_.begin() + static_cast<std::ptrdiff_t>(at_), words_.end());
        rest = withTaughtWords(rest, rules_.context.words);
        return takeWords(rest, understood);
    }

    bool takeDepth(const std::string& text) {
        const auto unit = bareDepth();
        const auto range = readRange(text, unit);
        if (!range || range->nearer) {
            return false;
        }
        ++at_;
        DepthEntry depth{
            .value = range->from,
            .to = range->to,
            .method = DepthMethod::Measured,
            .about = range->about};
        if (depth.value.unit == Unit::One) {
            unclear_ = "a depth of " + text + " in what?";
            result_.meaning.offers = {
                unitOffer("feet?", depthQuestion, Unit::Foot),
                unitOffer("pulls?", depthQuestion, Unit::Pull),
                unitOffer("metres?", depthQuestion, Unit::Metre)};
            return true;
        }
        settleDepth(depth, text);
        result_.reading.depth = depth;
        return true;
    }

    void settleDepth(DepthEntry& depth, const std::string& text) {
        if (depth.value.unit == Unit::Pull) {
            depth.method = DepthMethod::FloatPulls;
            if (!rules_.section.visit.floatRig) {
                unclear_ = "pulls need the float: a line such as \"float pulls 12 in + 12 in\".";
            }
            return;
        }
        const auto length = fixedLength(depth.value);
        if (!length) {
            unclear_ = "\"" + text + "\" is not a depth.";
        } else if (*length / metre > deepestFloat) {
            unclear_ = "a depth of " + printEntered(depth.value) + " cannot be.";
        } else if (depth.value.unit == Unit::Foot) {
            settlePoint(depth.value, text);
        }
    }

    /// "11.6" feet is eleven foot six to many: asked once. ".5" alone is read as a half, a comma is
    /// always decimal, and two digits
    /// ".10" or ".11" are inches.
    void settlePoint(Entered& value, const std::string& text) {
        const auto point = text.find('.');
        if (point == std::string::npos) {
            return;
        }
        std::string digits;
        for (std::size_t i = point + 1; i < text.size() && text[i] >= '0' && text[i] <= '9'; ++i) {
            digits += text[i];
        }
        const auto answer = answerTo(rules_.context, pointQuestion);
        const bool certainlyInches = digits == "10" || digits == "11";
        const bool open = digits.size() == 1 && digits != "0" && digits != "5";
        const bool answeredInches = answer == "inches" && digits.size() == 1;
        if (certainlyInches || answeredInches) {
            value.number = std::floor(value.number) + *readDecimal(digits) / 12.0;
        } else if (open && !answer) {
            const std::string feet = printNumber(std::floor(value.number));
            unclear_ = "does " + text + " mean " + feet + " ft " + digits + " in?";
            result_.meaning.offers = {
                {.words = feet + " ft " + digits + " in?",
                 .replacement = {},
                 .answer =
                     Answer{.id = {}, .question = std::string(pointQuestion), .answer = "inches"}},
                {.words = "tenths of a foot?",
                 .replacement = {},
                 .answer =
                     Answer{.id = {}, .question = std::string(pointQuestion), .answer = "tenths"}}};
        }
    }

    void put(const Felt& felt) {
        Reading& reading = result_.reading;
        std::visit(
            Overloaded{
                [&](Substrate kind) {
                    if (reading.substrate && reading.substrate != kind) {
                        reading.otherSubstrate = kind;
                    } else {
                        reading.substrate = kind;
                    }
                },
                [&](Cover kind) { reading.cover = kind; },
                [&](Drop kind) { reading.drop = kind; },
                [&](Pull kind) { reading.pull = kind; },
                [&](OnLead kind) { reading.onLead.push_back(kind); },
                [&](Outcome kind) { reading.outcome = kind; }},
            felt);
    }

    /// "?" and "!" behind a word or by themselves, "x3".
    bool takeFlag(const std::string& word) {
        if (word == "?" || word == "??") {
            result_.reading.sureness = 1;
            return true;
        }
        if (word == "!" || word == "!!") {
            result_.reading.sureness = 3;
            return true;
        }
        const bool agrees = word.size() > 1 && word.size() < 4 &&
                            (word[0] == 'x' || word[0] == 'X') && isWhole(word.substr(1));
        if (agrees) {
            const auto count = readNumber(word.substr(1));
            result_.reading.agreeing = std::max(1, static_cast<int>(count.value_or(1.0)));
        }
        return agrees;
    }

    static std::vector<std::string> splitFlags(const std::vector<std::string>& words) {
        std::vector<std::string> result;
        for (const std::string& word : words) {
            std::string body = word;
            std::string flags;
            while (body.size() > 1 && (body.back() == '?' || body.back() == '!')) {
                flags.insert(flags.begin(), body.back());
                body.pop_back();
            }
            const auto slash = body.find('/');
            const bool edge = slash != std::string::npos && slash > 0 && slash + 1 < body.size() &&
                              !readNumber(body);
            if (edge) {
                result.push_back(body.substr(0, slash));
                result.push_back(body.substr(slash + 1));
            } else {
                result.push_back(body);
            }
            if (!flags.empty()) {
                result.push_back(flags.substr(0, 1));
            }
        }
        return result;
    }

    /// Reads words while they are known; what is left is kept as the reading's note. A short word
    /// that nobody knows is asked about, since it is more likely a code of his own than prose.
    bool takeWords(const std::vector<std::string>& given, bool understood) {
        const std::vector<std::string> words = splitFlags(given);
        std::size_t i = 0;
        while (i < words.size()) {
            if (takeFlag(words[i])) {
                ++i;
                continue;
            }
            const auto felt = readFelt(std::span(words).subspan(i));
            if (!felt) {
                break;
            }
            understood = true;
            put(felt->felt);
            i += felt->words;
        }
        if (!understood) {
            return false;
        }
        if (i < words.size()) {
            takeNote(words, i);
        }
        return true;
    }

    void takeNote(const std::vector<std::string>& words, std::size_t begin) {
        std::string note;
        for (std::size_t i = begin; i < words.size(); ++i) {
            note += (note.empty() ? "" : " ") + words[i];
        }
        const std::string& first = words[begin];
        const bool oneShortWord = begin + 1 == words.size() && first.size() <= 3;
        const bool numberAgain = startsLikeNumber(first) && begin == 0 && result_.reading.depth;
        const auto answer = answerTo(rules_.context, "word " + first);
        if ((oneShortWord && answer != "note") || numberAgain) {
            unclear_ = "\"" + first + "\" is not a word of the book yet.";
            result_.meaning.offers = {
                {.words = "keep it as a note?",
                 .replacement = {},
                 .answer = Answer{.id = {}, .question = "word " + first, .answer = "note"}}};
            return;
        }
        result_.reading.note = note;
    }

    ReadingLine takeDistance(const Range& range, const std::string& typed) {
        Reading& reading = result_.reading;
        reading.from = range.from;
        reading.to = range.to;
        reading.about = range.about;
        reading.mode = range.nearer ? DistanceMode::NearerThanLast : DistanceMode::StillOut;
        if (reading.from.unit == Unit::One) {
            result_.meaning.offers = {
                unitOffer("wraps?", distanceQuestion, Unit::Wrap),
                unitOffer("yards?", distanceQuestion, Unit::Yard),
                unitOffer("metres?", distanceQuestion, Unit::Metre),
                unitOffer("turns?", distanceQuestion, Unit::Turn)};
            return unclear("a distance of " + typed + " in what?");
        }
        if (const std::string fault = distanceFault(reading); !fault.empty()) {
            return unclear(fault);
        }
        if (const std::string fault = tooFar(reading, typed); !fault.empty()) {
            return unclear(fault);
        }
        result_.meaning.kind = LineKind::Reading;
        result_.meaning.words = readingWords(reading, rules_.section.visit);
        return std::move(result_);
    }

    std::string distanceFault(const Reading& reading) const {
        const Unit unit = reading.from.unit;
        const bool length = unit == Unit::Wrap || unit == Unit::Turn || fixedLength(reading.from);
        if (!length || unit == Unit::Inch || unit == Unit::Centimetre) {
            return "\"" + reading.from.text + "\" is not a distance.";
        }
        if (reading.from.number <= 0.0) {
            return "a distance of nothing.";
        }
        if (reading.to &&
            roughMetres(*reading.to, rules_.section) >= roughMetres(reading.from, rules_.section)) {
            return "a stretch runs from far to near, as in \"27-25\".";
        }
        if (unit == Unit::Turn || (reading.to && reading.to->unit == Unit::Turn)) {
            return turnsFault();
        }
        return {};
    }

    std::string turnsFault() const {
        if (rules_.reel.empty()) {
            return "turns of which reel? A line such as \"reel NAME\" says it.";
        }
        const auto& reels = rules_.context.reels;
        const bool measured = std::any_of(reels.begin(), reels.end(), [&](const std::string& name) {
            return lowered(name) == lowered(rules_.reel);
        });
        return measured ? std::string()
                        : "the turns of reel " + rules_.reel +
                              " were never measured over a known length.";
    }

    std::string tooFar(const Reading& reading, const std::string& typed) {
        if (roughMetres(reading.from, rules_.section) <= farthestCast) {
            return {};
        }
        static constexpr std::array<std::pair<Unit, std::string_view>, 2> others{{
            {Unit::Yard, "y"},
            {Unit::Metre, "m"},
        }};
        for (const auto& [unit, suffix] : others) {
            const Entered other{reading.from.number, unit, {}};
            if (roughMetres(other, rules_.section) > farthestCast || reading.to ||
                reading.from.unit == unit || !readNumber(typed)) {
                continue;
            }
            std::string replacement(line_);
            replacement.replace(replacement.find(typed), typed.size(), typed + std::string(suffix));
            const std::string word = unit == Unit::Yard ? "yards?" : "metres?";
            result_.meaning.offers.push_back(
                {.words = word, .replacement = replacement, .answer = {}});
        }
        return printEntered(reading.from) + " is beyond any cast.";
    }

    const ReadingRules& rules_;
    std::string_view line_;
    std::vector<std::string> words_;
    std::size_t at_ = 0;
    std::string unclear_;
    ReadingLine result_;
};

} // namespace

bool isAimLabel(std::string_view word, const PageSection& section) {
    if (word.size() == 1 && word[0] >= 'A' && word[0] <= 'Z') {
        return true;
    }
    return std::any_of(section.aims.begin(), section.aims.end(), [&](const AimDraft& aim) {
        return aim.label == word;
    });
}

std::optional<Entered> readDistance(std::string_view text, std::optional<Unit> bareDistance) {
    const auto measure = readMeasure(text, bareDistance);
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

ReadingLine readReadingLine(std::string_view line, const ReadingRules& rules) {
    return LineReader(line, rules).run();
}

} // namespace bedlore
