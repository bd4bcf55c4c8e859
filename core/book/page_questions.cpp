// SPDX-License-Identifier: MIT
#include "core/book/page_questions.hpp"

#include "core/book/shorthand.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

/// A comma makes the rest a note on the reading; the word "note" makes the line one.
std::vector<LineOffer> noteOffers(std::string_view line, const Token& first) {
    std::string before(line.substr(0, first.begin));
    before.erase(before.find_last_not_of(" \t") + 1);
    return {
        {.words = "a note on the reading?",
         .replacement = before + ", " + std::string(line.substr(first.begin)),
         .answer = {}},
        {.words = "only a note?", .replacement = "note " + std::string(line), .answer = {}}};
}

/// `line` with `text` in place of what stands from `begin` up to `end`.
std::string
replaced(std::string_view line, std::size_t begin, std::size_t end, std::string_view text) {
    return std::string(line).replace(begin, end - begin, text);
}

} // namespace

MeasureFault looseDashFault(std::string_view line, const Token& before, const Token& behind) {
    const auto without = [&](std::string_view between) {
        return replaced(line, before.end, behind.begin, between);
    };
    return {
        "a stretch, or a place and its depth?",
        {{.words = "a stretch?", .replacement = without("-"), .answer = {}},
         {.words = "a depth?", .replacement = without(" "), .answer = {}}}};
}

MeasureFault figuresFault(std::string_view line, const Token& figures) {
    return {
        "\"" + figures.text +
            "\" stands behind the reading: one place on a line, its depth next to it.",
        noteOffers(line, figures)};
}

MeasureFault unknownCodeFault(const Token& code) {
    MeasureFault fault{"\"" + code.text + "\" is not a word of the book yet.", {}};
    const std::string question = wordQuestion(code.text);
    const auto offer = [&](std::string words, std::string_view answer) {
        fault.offers.push_back(
            {.words = std::move(words),
             .replacement = {},
             .answer = Answer{.id = {}, .question = question, .answer = std::string(answer)}});
    };
    for (const std::string_view meant : likelyWords(code.text)) {
        offer(std::string(meant) + "?", meant);
    }
    offer("only a note?", onlyANote);
    return fault;
}

MeasureFault misspeltFault(std::string_view line, const Token& typed, std::string_view meant) {
    return {
        "\"" + typed.text + "\" is not a word of the book.",
        {{.words = std::string(meant) + "?",
          .replacement = replaced(line, typed.begin, typed.end, meant),
          .answer = {}},
         noteOffers(line, typed).front()}};
}

MeasureFault doubtfulFault(std::string_view line, const Token& prose) {
    return {
        "is this a reading? \"" + std::string(line.substr(prose.begin)) + "\" is not understood.",
        noteOffers(line, prose)};
}

} // namespace bedlore
