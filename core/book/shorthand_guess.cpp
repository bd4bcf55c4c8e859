// SPDX-License-Identifier: MIT
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <utility>

// What to ask about a word that the vocabulary does not know.

namespace bedlore {

namespace {

/// Small words of everyday notes: a line that goes on with one of them goes on as prose.
constexpr std::array<std::string_view, 84> smallWords{
    "a",   "an",  "the", "at",  "on",  "in",  "of",  "no",  "not", "but", "for", "to",
    "off", "up",  "one", "two", "six", "ten", "out", "was", "is",  "it",  "and", "all",
    "few", "lot", "bit", "big", "old", "new", "top", "end", "far", "by",  "as",  "or",
    "so",  "too", "had", "has", "did", "saw", "got", "hit", "my",  "me",  "i",   "he",
    "we",  "bar", "gap", "if",  "mix", "its", "day", "try", "may", "yet", "now", "ago",
    "via", "per", "any", "how", "who", "why", "can", "see", "let", "put", "set", "run",
    "ran", "dip", "low", "lip", "use", "due", "odd", "mid", "sun", "wet", "dry", "rod"};

bool isLetter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Calls `visit(word)` for every word of the vocabulary, the bottom first.
template <class Visit>
void forEachWord(Visit visit) {
    const auto in = [&](const auto& terms) {
        for (const auto& term : terms) {
            visit(term.word);
        }
    };
    in(substrateTerms());
    in(coverTerms());
    in(pullTerms());
    in(dropTerms());
    in(onLeadTerms());
}

/// Whether the letters of `code` stand in `word` in their order, the first at its front.
bool abbreviates(std::string_view code, std::string_view word) {
    if (code.empty() || code.front() != word.front()) {
        return false;
    }
    std::size_t at = 0;
    for (const char c : code) {
        at = word.find(c, at);
        if (at == std::string_view::npos) {
            return false;
        }
        ++at;
    }
    return true;
}

/// How many letters have to be changed, put in or taken out to make `a` of `b` (Levenshtein).
std::size_t lettersApart(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i + 1);
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t changed = diagonal + (a[i] == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({changed, diagonal + 1, row[j] + 1});
        }
    }
    return row.back();
}

} // namespace

std::optional<std::string>
taughtMeaning(std::string_view word, std::span<const Word> words, std::span<const Answer> answers) {
    const auto same = [&](std::string_view taught) {
        return taught == word || (word.size() > 1 && lowered(taught) == lowered(word));
    };
    for (const Word& taught : words) {
        if (same(taught.text)) {
            return taught.meaning;
        }
    }
    const std::string_view prefix = "word ";
    for (const Answer& answer : answers) {
        const std::string_view question = answer.question;
        if (question.starts_with(prefix) && same(question.substr(prefix.size()))) {
            return answer.answer;
        }
    }
    return std::nullopt;
}

std::string wordQuestion(std::string_view word) {
    return "word " + (word.size() > 1 ? lowered(word) : std::string(word));
}

bool looksLikeCode(std::string_view word) {
    const bool letters =
        !word.empty() && word.size() <= 3 && std::all_of(word.begin(), word.end(), isLetter);
    return letters &&
           std::find(smallWords.begin(), smallWords.end(), lowered(word)) == smallWords.end();
}

std::vector<std::string_view> likelyWords(std::string_view code) {
    const std::string wanted = lowered(code);
    std::vector<std::string_view> found;
    forEachWord([&](std::string_view word) {
        const bool fits = abbreviates(wanted, word);
        const bool known = std::find(found.begin(), found.end(), word) != found.end();
        if (fits && !known && found.size() < 5) {
            found.push_back(word);
        }
    });
    return found;
}

std::vector<std::string_view> nearestWords(std::string_view word) {
    constexpr std::size_t mostApart = 2;
    constexpr std::size_t most = 3;
    const std::string typed = lowered(word);
    std::vector<std::pair<std::size_t, std::string_view>> found;
    forEachWord([&](std::string_view known) {
        const std::size_t apart = lettersApart(typed, known);
        const bool isNew = std::none_of(
            found.begin(), found.end(), [&](const auto& other) { return other.second == known; });
        const bool isNear = apart <= mostApart && 2 * apart <= std::max(typed.size(), known.size());
        if (isNew && isNear && known.find(' ') == std::string_view::npos) {
            found.emplace_back(apart, known);
        }
    });
    std::stable_sort(
        found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string_view> words;
    for (std::size_t i = 0; i < std::min(found.size(), most); ++i) {
        words.push_back(found[i].second);
    }
    return words;
}

bool isOneSlip(std::string_view a, std::string_view b) {
    const auto [x, y] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
    const std::string_view restA = a.substr(static_cast<std::size_t>(x - a.begin()));
    const std::string_view restB = b.substr(static_cast<std::size_t>(y - b.begin()));
    const auto behind = [](std::string_view text, std::size_t n) {
        return text.size() >= n ? text.substr(n) : std::string_view("\n");
    };
    const bool swapped = restA.size() >= 2 && restB.size() >= 2 && restA[0] == restB[1] &&
                         restA[1] == restB[0] && restA.substr(2) == restB.substr(2);
    return swapped || behind(restA, 1) == behind(restB, 1) || behind(restA, 1) == restB ||
           restA == behind(restB, 1);
}

std::optional<std::string_view> misspelt(std::string_view word) {
    const std::string typed = lowered(word);
    std::optional<std::string_view> found;
    if (typed == "shelf") { // a form of the bed, not a slip of "shell"
        return found;
    }
    forEachWord([&](std::string_view known) {
        const bool comparable = typed.size() >= 5 && known.size() >= 5 &&
                                known.find(' ') == std::string_view::npos &&
                                typed.front() == known.front();
        // "sticks" and "clears" are verbs of his prose, not slips.
        const bool onlyPlural = typed == std::string(known) + "s";
        if (comparable && !onlyPlural && typed != known && isOneSlip(typed, known)) {
            found = known;
        }
    });
    return found;
}

} // namespace bedlore
