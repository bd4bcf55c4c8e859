// SPDX-License-Identifier: MIT
#include "core/book/page_tokens.hpp"

#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace bedlore {

namespace {

constexpr std::array<std::string_view, 7> blanks{
    " ", "\t", "\r", "\u00a0", "\u2007", "\u2009", "\u202f"};
constexpr std::array<std::pair<std::string_view, std::string_view>, 4> dashes{
    {{"\u2013", "-"}, {"\u2212", "-"}, {"\u2014", "--"}, {"\u2015", "--"}}};
constexpr std::array<std::string_view, 7> fractionSigns{"½", "¼", "¾", "⅓", "⅔", "⅛", "⅜"};

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

/// Bytes of the blank at the front, zero for none.
std::size_t blankAt(std::string_view text) {
    for (const std::string_view blank : blanks) {
        if (text.starts_with(blank)) {
            return blank.size();
        }
    }
    return 0;
}

std::string withPlainDashes(std::string_view word) {
    std::string plain(word);
    for (const auto& [dash, hyphen] : dashes) {
        for (auto at = plain.find(dash); at != std::string::npos; at = plain.find(dash)) {
            plain.replace(at, dash.size(), hyphen);
        }
    }
    return plain;
}

/// A word without the signs behind it, then each sign by itself; an edge such as "gr/si" as two.
void addWord(std::string_view line, std::size_t begin, std::size_t end, std::vector<Token>& out) {
    constexpr std::string_view signs = ",;:?!";
    std::size_t body = end;
    while (body > begin && signs.find(line[body - 1]) != std::string_view::npos) {
        --body;
    }
    const std::string_view word = line.substr(begin, body - begin);
    const std::size_t stroke = word.find('/');
    const bool edge = stroke != std::string_view::npos && stroke > 0 && stroke + 1 < word.size() &&
                      !isDigit(word[stroke - 1]) && !isDigit(word[stroke + 1]);
    if (edge) {
        addWord(line, begin, begin + stroke, out);
        addWord(line, begin + stroke + 1, body, out);
    } else if (!word.empty()) {
        out.push_back({.text = withPlainDashes(word), .begin = begin, .end = body});
    }
    for (; body < end; ++body) {
        out.push_back({.text = std::string(1, line[body]), .begin = body, .end = body + 1});
    }
}

std::vector<Token> splitLine(std::string_view line) {
    std::vector<Token> tokens;
    std::size_t at = 0;
    while (at < line.size()) {
        if (const std::size_t blank = blankAt(line.substr(at))) {
            at += blank;
            continue;
        }
        const std::size_t begin = at;
        while (at < line.size() && blankAt(line.substr(at)) == 0) {
            ++at;
        }
        addWord(line, begin, at, tokens);
    }
    return tokens;
}

/// "1/2", "½", also with something behind it ("1/2-27", "½w").
bool startsWithFraction(std::string_view text) {
    if (std::any_of(fractionSigns.begin(), fractionSigns.end(), [&](std::string_view sign) {
            return text.starts_with(sign);
        })) {
        return true;
    }
    std::size_t end = 0;
    while (end < text.size() && (isDigit(text[end]) || text[end] == '/')) {
        ++end;
    }
    return text.substr(0, end).find('/') != std::string_view::npos &&
           readNumber(text.substr(0, end)).has_value();
}

/// Whether `text` ends in a whole number to which a fraction can be added.
bool endsWithWhole(std::string_view text) {
    std::size_t begin = text.size();
    while (begin > 0 && isDigit(text[begin - 1])) {
        --begin;
    }
    const bool alone =
        begin == 0 || text[begin - 1] == '-' || text[begin - 1] == '~' || text[begin - 1] == '+';
    return begin < text.size() && alone && startsLikeNumber(text);
}

bool endsInFeet(std::string_view text) {
    if (!startsLikeNumber(text)) {
        return false;
    }
    const std::string word = lowered(text);
    for (const std::string_view mark : {"ft", "feet", "foot", "'", "\u2032", "\u2019"}) {
        if (word.ends_with(mark)) {
            return true;
        }
    }
    return false;
}

bool isInchWord(std::string_view text) {
    const std::string word = lowered(text);
    return word == "in" || word == "inch" || word == "inches" || word == "\"";
}

bool endsInInches(std::string_view text) {
    const auto measure = startsLikeNumber(text) ? readMeasure(text, std::nullopt) : std::nullopt;
    return measure && measure->unit == Unit::Inch;
}

/// Units that may stand apart from their number. "in" is none of them ("9 in weed"), nor are
/// letters that may be somebody's shorthand.
bool isUnitApart(std::string_view text) {
    constexpr std::array<std::string_view, 24> units{
        "yd",    "yds",    "yards", "yard", "ft",    "feet", "foot",  "m",
        "metre", "metres", "wraps", "wrap", "turns", "turn", "pulls", "pull",
        "kg",    "lb",     "lbs",   "oz",   "loads", "load", "cm",    "inches"};
    const std::string word = lowered(text);
    return std::find(units.begin(), units.end(), word) != units.end();
}

bool endsInNumber(std::string_view text) {
    return startsLikeNumber(text) && readRange(text, Unit::One).has_value() &&
           (isDigit(text.back()) || static_cast<unsigned char>(text.back()) >= 0x80);
}

class Joiner {
public:
    explicit Joiner(std::vector<Token> tokens)
        : tokens_(std::move(tokens)) {}

    std::vector<Token> run() {
        for (std::size_t i = 0; i < tokens_.size(); ++i) {
            i += joined_.empty() ? addNew(i) : addTo(i);
        }
        return std::move(joined_);
    }

private:
    /// Tokens beyond this one that were used up as well.
    std::size_t addNew(std::size_t i) {
        joined_.push_back(tokens_[i]);
        return 0;
    }

    [[nodiscard]] const std::string* next(std::size_t i) const {
        return i + 1 < tokens_.size() ? &tokens_[i + 1].text : nullptr;
    }

    void glue(std::size_t i, std::string_view between) {
        joined_.back().text.append(between).append(tokens_[i].text);
        joined_.back().end = tokens_[i].end;
    }

    std::size_t addTo(std::size_t i) {
        const std::string& word = tokens_[i].text;
        const std::string& last = joined_.back().text;
        const std::string* behind = next(i);
        if (last == "~" && startsLikeNumber(word)) {
            glue(i, "");
            return 0;
        }
        if (endsInFeet(last) && startsLikeNumber(word) && behind != nullptr &&
            isInchWord(*behind)) {
            glue(i, " ");
            glue(i + 1, " ");
            return 1;
        }
        const bool inches = endsInFeet(last) && endsInInches(word);
        const bool fraction = endsWithWhole(last) && startsWithFraction(word);
        const bool unit = isUnitApart(word) && endsInNumber(last);
        if (inches || fraction || unit) {
            glue(i, " ");
            return 0;
        }
        return addRange(i);
    }

    /// "27- 25", "27 to 25".
    std::size_t addRange(std::size_t i) {
        const std::string& word = tokens_[i].text;
        std::string& last = joined_.back().text;
        const bool between = lowered(word) == "to";
        const std::string* behind = next(i);
        const auto isEnd = [](const std::string& text) {
            return !text.empty() && (isDigit(text[0]) || startsWithFraction(text));
        };
        const bool single = startsLikeNumber(last) && readMeasure(last, Unit::One).has_value();
        if (between && single && behind != nullptr && isEnd(*behind)) {
            last += '-';
            glue(i + 1, "");
            return 1;
        }
        const bool open = last.size() > 1 && last.back() == '-' &&
                          readMeasure(last.substr(0, last.size() - 1), Unit::One).has_value();
        if (open && startsLikeNumber(last) && isEnd(word)) {
            glue(i, "");
            return 0;
        }
        return addNew(i);
    }

    std::vector<Token> tokens_;
    std::vector<Token> joined_;
};

} // namespace

std::vector<Token> readTokens(std::string_view line) {
    return Joiner(splitLine(line)).run();
}

bool startsLikeNumber(std::string_view text) {
    if (text.starts_with('~') || text.starts_with('-') || text.starts_with('+')) {
        text.remove_prefix(1);
    }
    return (!text.empty() && isDigit(text[0])) ||
           std::any_of(fractionSigns.begin(), fractionSigns.end(), [&](std::string_view sign) {
               return text.starts_with(sign);
           });
}

std::optional<Range> readRange(std::string_view text, std::optional<Unit> bare) {
    Range range;
    std::string_view rest = text;
    if (rest.starts_with('~')) {
        range.about = true;
        rest.remove_prefix(1);
    }
    if (rest.starts_with('-')) {
        range.nearer = true;
        rest.remove_prefix(1);
    }
    const auto dash = rest.find('-');
    const std::string_view near = dash == std::string_view::npos ? rest : rest.substr(dash + 1);
    const std::string_view far = rest.substr(0, dash);
    const auto farOwn = readMeasure(far, std::nullopt);
    const auto nearOwn = readMeasure(near, std::nullopt);
    const Unit unit = farOwn ? farOwn->unit : nearOwn ? nearOwn->unit : bare.value_or(Unit::One);
    const auto from = farOwn ? farOwn : readMeasure(far, unit);
    const auto to = nearOwn ? nearOwn : readMeasure(near, unit);
    if (!from || !to || !startsLikeNumber(near) || from->number < 0.0 || to->number < 0.0) {
        return std::nullopt;
    }
    range.hasOwnUnit = farOwn || nearOwn;
    range.from = *from;
    if (dash == std::string_view::npos) {
        range.from.text = std::string(text);
    } else {
        range.to = *to;
    }
    return range;
}

} // namespace bedlore
