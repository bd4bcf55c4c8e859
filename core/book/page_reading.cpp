// SPDX-License-Identifier: MIT
#include "core/book/page_reading.hpp"

#include "core/book/page_felt.hpp"
#include "core/book/page_measures.hpp"
#include "core/book/page_questions.hpp"
#include "core/book/page_slips.hpp"
#include "core/book/page_stuck.hpp"
#include "core/book/page_tokens.hpp"
#include "core/book/page_words.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

bool isWhole(std::string_view text) {
    return !text.empty() &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// "C2": R and a digit is a rod.
bool isLetterAndDigit(std::string_view word) {
    return word.size() == 2 && word[0] >= 'A' && word[0] <= 'Z' && word[0] != 'R' &&
           isWhole(word.substr(1));
}

/// "a 28 9": typed without the shift key.
bool isSmallLetter(std::string_view word) {
    return word.size() == 1 && word[0] >= 'a' && word[0] <= 'z';
}

/// "04.15": no distance is written with a nought before it, a time of day is.
bool isTimeOfDay(std::string_view word) {
    return word.size() == 5 && word[0] == '0' && (word[2] == '.' || word[2] == ':') &&
           isWhole(word.substr(0, 2)) && isWhole(word.substr(3));
}

/// A guessed one is believed where the whole line is understood as a reading.
enum class Label { None, Guessed, New, Known };

/// What stands behind the distance.
struct Rest {
    bool dashed = false;                 ///< "--" where a depth would be
    bool bareDepth = false;              ///< a depth without a unit of its own
    bool felt = false;                   ///< a word that only a reading has
    bool plainFelt = false;              ///< a word that prose has too
    std::optional<std::size_t> leftover; ///< the first token that is not understood
    bool markedNote = false;             ///< a comma or bracket begins the leftover
    std::optional<MeasureFault> fault;
};

class LineReader {
public:
    LineReader(std::string_view line, const ReadingRules& rules)
        : rules_(rules)
        , line_(line)
        , tokens_(readTokens(line)) {}

    ReadingLine run() {
        takePlus();
        takeLabel();
        if (atEnd() || !startsLikeNumber(word()) ||
            (label_ == Label::None && isTimeOfDay(word()))) {
            return note();
        }
        const Token distance = tokens_[at_++];
        scanRest();
        const auto range = readRange(distance.text, bareDistance(rules_));
        const bool usable = range && !(range->nearer && range->to) && isDistance(range->from.unit);
        if (!usable) {
            return looksLikeReading() && (label_ != Label::None || result_.reading.depth)
                       ? unclear({"\"" + distance.text + "\" is not a distance.", {}})
                       : note();
        }
        if (!isReading()) {
            return note();
        }
        if (auto fault = leftoverFault()) {
            return unclear(std::move(*fault));
        }
        if (rest_.fault) {
            return unclear(std::move(*rest_.fault));
        }
        return finish(*range, distance);
    }

private:
    [[nodiscard]] bool atEnd() const { return at_ >= tokens_.size(); }
    [[nodiscard]] const std::string& word() const { return tokens_[at_].text; }

    static ReadingLine note() {
        ReadingLine result;
        result.meaning.kind = LineKind::Note;
        result.meaning.words = "note";
        return result;
    }

    ReadingLine unclear(MeasureFault fault) {
        result_.meaning.kind = LineKind::Unclear;
        result_.meaning.words.clear();
        result_.meaning.unclear = std::move(fault.what);
        result_.meaning.offers = std::move(fault.offers);
        return std::move(result_);
    }

    void takePlus() {
        if (tokens_.empty() || !tokens_[0].text.starts_with('+')) {
            return;
        }
        result_.newCast = true;
        plusTouches_ = tokens_[0].text.size() > 1;
        if (plusTouches_) {
            tokens_[0].text.erase(0, 1);
            ++tokens_[0].begin;
        } else {
            at_ = 1;
        }
    }

    void takeLabel() {
        if (at_ + 1 >= tokens_.size()) {
            return;
        }
        std::string text = word();
        const bool isNamed = isAimLabel(text, rules_.section);
        if (!isNamed && !isLetterAndDigit(text) && !isSmallLetter(text)) {
            return;
        }
        if (!isNamed && isSmallLetter(text)) {
            text[0] = static_cast<char>(text[0] - 'a' + 'A');
        }
        const bool used = rules_.usedAims != nullptr && rules_.usedAims->contains(text);
        const auto& aims = rules_.section.aims;
        const bool defined = std::any_of(
            aims.begin(), aims.end(), [&](const AimDraft& aim) { return aim.label == text; });
        label_ = !isNamed ? Label::Guessed : used || defined ? Label::Known : Label::New;
        result_.aim = text;
        ++at_;
        if (word() == ":" && at_ + 1 < tokens_.size()) {
            ++at_;
        }
    }

    static bool isDistance(Unit unit) {
        return unit == Unit::One || unit == Unit::Wrap || unit == Unit::Turn ||
               unit == Unit::Yard || unit == Unit::Metre || unit == Unit::Foot;
    }

    /// Takes the depth, words and signs as far as they are known.
    void scanRest() {
        takeSigns();
        if (isLooseDash()) {
            rest_.fault = looseDash();
            at_ = tokens_.size();
        } else if (!atEnd() && (word() == "--" || word() == "-")) {
            rest_.dashed = true;
            ++at_;
        } else if (!atEnd() && startsLikeNumber(word())) {
            takeDepth();
        }
        while (!atEnd() && (takeSigns() || takeFelt() || takeLaterDepth() || skipLink())) {
        }
        if (!atEnd()) {
            rest_.leftover = at_;
            const char first = word().front();
            const bool behindComma = tokens_[at_ - 1].text == "," || tokens_[at_ - 1].text == ";";
            rest_.markedNote = behindComma || first == '(' || first == '"' || first == '[' ||
                               word().starts_with("\u201c");
        }
    }

    [[nodiscard]] bool isLooseDash() const {
        return at_ + 1 < tokens_.size() && word() == "-" && startsLikeNumber(tokens_[at_ + 1].text);
    }

    /// "28 - 9" may be a stretch or a place and its depth.
    MeasureFault looseDash() {
        rest_.felt = true;
        return looseDashFault(line_, tokens_[at_ - 1], tokens_[at_ + 1]);
    }

    /// "?", "!", "x3". Commas are passed over.
    bool takeSigns() {
        const std::size_t before = at_;
        while (!atEnd() && takeSign()) {
            ++at_;
        }
        return at_ != before;
    }

    bool takeSign() {
        const std::string& text = word();
        Reading& reading = result_.reading;
        if (text == "?" || text == "!") {
            reading.sureness = text == "?" ? 1 : 3;
            return true;
        }
        std::string_view count = text;
        const bool times =
            count.starts_with('x') || count.starts_with('X') || count.starts_with("\u00d7");
        count.remove_prefix(times ? (count.starts_with("\u00d7") ? 2 : 1) : 0);
        if (times && isWhole(count) && count.size() < 3) {
            reading.agreeing = std::max(1, static_cast<int>(readNumber(count).value_or(1.0)));
            return true;
        }
        return text == "," || text == ";";
    }

    bool takeDepth() {
        const auto typed = readDepth(word(), rules_);
        if (!typed) {
            return false;
        }
        result_.reading.depth = typed->depth;
        rest_.fault = typed->fault;
        rest_.bareDepth = !typed->hasOwnUnit;
        ++at_;
        return true;
    }

    /// A depth behind the words has to say its unit: "28 gr 9'".
    bool takeLaterDepth() {
        if (result_.reading.depth || !startsLikeNumber(word())) {
            return false;
        }
        const auto typed = readDepth(word(), rules_);
        return typed && typed->hasOwnUnit && takeDepth();
    }

    [[nodiscard]] std::string_view textOf(std::size_t first, std::size_t count) const {
        const std::size_t begin = tokens_[first].begin;
        return line_.substr(begin, tokens_[first + count - 1].end - begin);
    }

    /// A word or phrase of the vocabulary, his own shorthand before it.
    bool takeFelt() {
        const std::string& text = word();
        const auto taught = taughtMeaning(text, rules_.context.words, rules_.context.answers);
        if (taught && *taught != onlyANote) {
            return takeTaught(*taught);
        }
        std::vector<std::string> words;
        for (std::size_t i = at_; i < std::min(at_ + 3, tokens_.size()); ++i) {
            words.push_back(tokens_[i].text);
        }
        const auto felt = taught ? std::nullopt : readFelt(words);
        if (!felt) {
            return false;
        }
        put(*felt, textOf(at_, felt->words));
        at_ += felt->words;
        return true;
    }

    bool takeTaught(const std::string& meaning) {
        const std::vector<std::string> words = splitWords(meaning);
        std::size_t i = 0;
        while (i < words.size()) {
            const auto felt = readFelt(std::span(words).subspan(i));
            if (!felt) {
                return false;
            }
            put(*felt, word());
            rest_.felt = true;
            i += felt->words;
        }
        ++at_;
        return !words.empty();
    }

    void put(const FeltWords& found, std::string_view typed) {
        (found.isPlainWord ? rest_.plainFelt : rest_.felt) = true;
        if (!addFelt(result_.reading, found.felt)) {
            extra_ += (extra_.empty() ? "" : ", ") + std::string(typed);
        }
    }

    /// "gr and si", "thud with tap": a link between two words that are known.
    bool skipLink() {
        const std::string text = lowered(word());
        const bool link = text == "and" || text == "&" || text == "with" || text == "+";
        if (!link || at_ + 1 >= tokens_.size()) {
            return false;
        }
        ++at_;
        if (takeFelt()) {
            return true;
        }
        --at_;
        return false;
    }

    /// Whether the words by themselves say that this is a reading, and nothing speaks against it.
    [[nodiscard]] bool looksLikeReading() const {
        return !rest_.leftover && (result_.reading.depth || rest_.felt || rest_.plainFelt ||
                                   rest_.dashed || label_ == Label::New || label_ == Label::Known);
    }

    [[nodiscard]] bool isReading() const {
        const bool proseFollows = rest_.leftover && !rest_.markedNote;
        const bool proved = result_.reading.depth || rest_.felt || rest_.dashed;
        switch (label_) {
        case Label::Known:
            return true;
        case Label::New:
            return proved || rest_.plainFelt || !proseFollows;
        case Label::Guessed:
            return proved && !rest_.leftover;
        case Label::None:
            break;
        }
        if (!proved && !rest_.plainFelt) {
            // A distance alone, but "+6" alone is a top-up.
            return !rest_.leftover && !plusTouches_;
        }
        return proved || !proseFollows;
    }

    /// What is not understood is kept as the reading's note where it is prose. Figures, a short
    /// code and a slip of the fingers are asked about: they were meant to say something.
    std::optional<MeasureFault> leftoverFault() {
        if (!rest_.leftover || rest_.markedNote) {
            return std::nullopt;
        }
        const Token& first = tokens_[*rest_.leftover];
        if (isFigures(*rest_.leftover)) {
            return figuresFault(line_, first);
        }
        if (looksLikeCode(first.text) &&
            taughtMeaning(first.text, rules_.context.words, rules_.context.answers) !=
                std::string(onlyANote)) {
            return unknownCodeFault(first);
        }
        if (const auto meant = misspelt(first.text)) {
            return misspeltFault(line_, first, *meant);
        }
        const bool saysNothing = !rest_.felt && !rest_.plainFelt && !result_.reading.depth;
        if (auto slip = saysNothing ? bedWordSlip(line_) : std::nullopt) {
            return slip;
        }
        const bool doubtful = label_ == Label::None && rest_.bareDepth && !rest_.felt &&
                              !rest_.plainFelt && !rest_.dashed;
        if (doubtful) {
            return doubtfulFault(line_, first);
        }
        return std::nullopt;
    }

    /// A number that does not begin prose ("9 shows"): another one follows, a known word, or
    /// nothing.
    [[nodiscard]] bool isFigures(std::size_t at) const {
        if (!startsLikeNumber(tokens_[at].text)) {
            return false;
        }
        if (at + 1 >= tokens_.size()) {
            return true;
        }
        const std::vector<std::string> next{tokens_[at + 1].text};
        return startsLikeNumber(next[0]) || readFelt(next).has_value();
    }

    ReadingLine finish(const Range& range, const Token& distance) {
        Reading& reading = result_.reading;
        reading.from = range.from;
        reading.to = range.to;
        reading.about = range.about;
        reading.mode = range.nearer ? DistanceMode::NearerThanLast : DistanceMode::StillOut;
        reading.note = extra_;
        if (rest_.leftover) {
            reading.note += reading.note.empty() ? "" : ", ";
            reading.note += trimmedText(line_.substr(tokens_[*rest_.leftover].begin));
        }
        if (auto fault = distanceFault(reading, distance, line_, rules_)) {
            return unclear(std::move(*fault));
        }
        result_.meaning.kind = LineKind::Reading;
        result_.meaning.words = readingWords(reading, rules_.section.visit);
        return std::move(result_);
    }

    const ReadingRules& rules_;
    std::string_view line_;
    std::vector<Token> tokens_;
    std::size_t at_ = 0;
    bool plusTouches_ = false;
    Label label_ = Label::None;
    Rest rest_;
    std::string extra_; ///< known words for which the reading has no more room
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

ReadingLine readReadingLine(std::string_view line, const ReadingRules& rules) {
    ReadingLine read = LineReader(line, rules).run();
    if (read.meaning.kind == LineKind::Note) {
        if (auto stuck = readStuckLabel(line, rules)) {
            return *std::move(stuck);
        }
    }
    return read;
}

} // namespace bedlore
