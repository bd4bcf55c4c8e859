// SPDX-License-Identifier: MIT
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <array>

namespace bedlore {

namespace {

struct Phrase {
    std::string_view text;
    Felt felt;
};

/// What people write beside the codes and the words of the vocabulary itself.
constexpr std::array<Phrase, 24> phrases{{
    {"hard drop", Drop::Hard},
    {"soft drop", Drop::Soft},
    {"no drop", Drop::Nothing},
    {"no thud", Drop::Nothing},
    {"firm drop", Drop::Hard},
    {"leaf litter", Cover::Leaves},
    {"leaf", Cover::Leaves},
    {"lilies", Cover::Pads},
    {"lily", Cover::Pads},
    {"blanket weed", Cover::SilkWeed},
    {"snags", Cover::Roots},
    {"pea gravel", Substrate::FineGravel},
    {"mussel", Substrate::Mussels},
    {"taps", Pull::Tap},
    {"tapping", Pull::Tap},
    {"gliding", Pull::Glide},
    {"plugs", Pull::Plug},
    {"lead lost", Outcome::LeadLost},
    {"no float", Outcome::FloatNeverShowed},
    {"snag", Outcome::Snagged},
    {"clay on lead", OnLead::Clay},
    {"no feel", Outcome::NothingFelt},
    {"shells", OnLead::Shell},
    {"strand", OnLead::Strands},
}};

template <class Kind>
std::optional<Felt> findTerm(std::span<const Term<Kind>> terms, std::string_view text) {
    for (const Term<Kind>& term : terms) {
        // The drop's one-letter codes depend on letter case and are read elsewhere.
        const bool isCode = term.code.size() > 1 && term.code == text;
        if (isCode || term.word == text) {
            return Felt(term.kind);
        }
    }
    return std::nullopt;
}

std::optional<Felt> findPhrase(std::string_view text) {
    for (const Phrase& phrase : phrases) {
        if (phrase.text == text) {
            return phrase.felt;
        }
    }
    // The bottom before the drop and the lead: "soft" and "clay" alone say what lies there.
    for (const auto& found :
         {findTerm(substrateTerms(), text),
          findTerm(coverTerms(), text),
          findTerm(dropTerms(), text),
          findTerm(pullTerms(), text),
          findTerm(onLeadTerms(), text),
          findTerm(outcomeTerms(), text)}) {
        if (found) {
            return found;
        }
    }
    return std::nullopt;
}

/// Words that stand behind a number in everyday notes as well ("6 free baits").
constexpr std::array<std::string_view, 12> plainWords{
    "free",
    "clean",
    "hard",
    "soft",
    "clear",
    "black",
    "stick",
    "lock",
    "plug",
    "none",
    "snagged",
    "snag"};

} // namespace

std::string lowered(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return result;
}

std::string_view trimmedText(std::string_view text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::vector<std::string> splitWords(std::string_view text) {
    std::vector<std::string> words;
    std::size_t at = 0;
    while ((at = text.find_first_not_of(" \t\r", at)) != std::string_view::npos) {
        const std::size_t end = std::min(text.find_first_of(" \t\r", at), text.size());
        words.emplace_back(text.substr(at, end - at));
        at = end;
    }
    return words;
}

std::optional<FeltWords> readFelt(std::span<const std::string> words) {
    if (words.empty()) {
        return std::nullopt;
    }
    if (words.front() == "D" || words.front() == "d") {
        return FeltWords{.felt = words.front() == "D" ? Drop::Hard : Drop::Soft, .words = 1};
    }
    for (std::size_t count = std::min<std::size_t>(words.size(), 3); count > 0; --count) {
        std::string text;
        for (std::size_t i = 0; i < count; ++i) {
            text += (i == 0 ? "" : " ") + lowered(words[i]);
        }
        if (const auto felt = findPhrase(text)) {
            const bool plain =
                std::find(plainWords.begin(), plainWords.end(), text) != plainWords.end();
            return FeltWords{.felt = *felt, .words = count, .isPlainWord = plain};
        }
    }
    return std::nullopt;
}

} // namespace bedlore
