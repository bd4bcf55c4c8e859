// SPDX-License-Identifier: MIT
#include "core/book/taught.hpp"

#include "core/book/page_edits.hpp"
#include "core/book/page_measures.hpp"
#include "core/book/page_tokens.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <utility>

namespace bedlore {

namespace {

constexpr std::string_view wordPrefix = "word ";

std::string meaningWords(std::string_view meaning) {
    return meaning == onlyANote ? "only a note" : std::string(meaning);
}

std::vector<Taught::Choice> unitChoices(std::span<const Unit> units) {
    std::vector<Taught::Choice> choices;
    for (const Unit unit : units) {
        choices.push_back({unitWord(unit), std::string(unitCode(unit))});
    }
    return choices;
}

/// ", the Point, 12 April 2025" behind the question proper.
std::string ofWhichVisit(const std::string& question, std::string_view proper) {
    return question.substr(std::min(proper.size(), question.size()));
}

Taught taughtBy(const Word& word) {
    return {
        .record = word.id,
        .asked = word.text,
        .meaning = meaningWords(word.meaning),
        .isWord = true,
        .choices = {}};
}

Taught taughtBy(const Answer& answer) {
    const std::string& question = answer.question;
    Taught taught{
        .record = answer.id,
        .asked = question,
        .meaning = answer.answer,
        .isWord = false,
        .choices = {}};
    if (question.starts_with(wordPrefix)) {
        taught.asked = question.substr(wordPrefix.size());
        taught.meaning = meaningWords(answer.answer);
        taught.isWord = true;
    } else if (question == pointQuestion) {
        taught.asked = "11.6 in feet";
        taught.choices = {{"11 ft 6 in", "inches"}, {"tenths of a foot", "tenths"}};
    } else if (question.starts_with(bareDistanceQuestion)) {
        taught.asked = "bare distances" + ofWhichVisit(question, bareDistanceQuestion);
        taught.choices = unitChoices(bareDistanceUnits);
    } else if (question.starts_with(bareDepthQuestion)) {
        taught.asked = "bare depths" + ofWhichVisit(question, bareDepthQuestion);
        taught.choices = unitChoices(bareDepthUnits);
    }
    for (const Taught::Choice& choice : taught.choices) {
        if (choice.value == answer.answer) {
            taught.meaning = choice.words;
        }
    }
    return taught;
}

/// The first word of `meaning` that the vocabulary does not know; none where it knows them all.
std::optional<std::string> unknownIn(const std::string& meaning) {
    const std::vector<std::string> words = splitWords(meaning);
    std::size_t i = 0;
    while (i < words.size()) {
        const auto felt = readFelt(std::span(words).subspan(i));
        if (!felt) {
            return words[i];
        }
        i += felt->words;
    }
    return std::nullopt;
}

bool isOneWord(const std::string& text) {
    const auto tokens = readTokens(text);
    return tokens.size() == 1 && tokens[0].text == text && !startsLikeNumber(text);
}

std::vector<std::string> textsOf(const Book& book, Id<Page> page) {
    std::vector<std::string> texts;
    for (const PageLine* line : linesOf(book, page)) {
        texts.push_back(line->text);
    }
    return texts;
}

bool sameMeaning(const PageMeaning& a, const PageMeaning& b) {
    const auto sameLine = [](const LineMeaning& x, const LineMeaning& y) {
        return x.kind == y.kind;
    };
    const auto sameReading = [](const ReadingDraft& x, const ReadingDraft& y) {
        return x.castIndex == y.castIndex && x.reading == y.reading;
    };
    return std::equal(a.lines.begin(), a.lines.end(), b.lines.begin(), b.lines.end(), sameLine) &&
           std::equal(
               a.readings.begin(),
               a.readings.end(),
               b.readings.begin(),
               b.readings.end(),
               sameReading);
}

std::vector<TypedLine> asTyped(const Book& book, Id<Page> page) {
    std::vector<TypedLine> lines;
    for (const PageLine* line : linesOf(book, page)) {
        lines.push_back({.id = line->id, .text = line->text});
    }
    return lines;
}

} // namespace

std::vector<Taught> taughtIn(const Book& book) {
    std::vector<Taught> words;
    std::vector<Taught> answers;
    for (const Word& word : book.all<Word>()) {
        words.push_back(taughtBy(word));
    }
    for (const Answer& answer : book.all<Answer>()) {
        Taught taught = taughtBy(answer);
        (taught.isWord ? words : answers).push_back(std::move(taught));
    }
    std::stable_sort(words.begin(), words.end(), [](const Taught& a, const Taught& b) {
        return lowered(a.asked) < lowered(b.asked);
    });
    words.insert(
        words.end(),
        std::make_move_iterator(answers.begin()),
        std::make_move_iterator(answers.end()));
    return words;
}

Result<Edits>
teach(const Book& book, const std::string& text, const std::string& meaning, IdSource& ids) {
    const std::string word(trimmedText(text));
    const std::string means(trimmedText(meaning));
    if (!isOneWord(word)) {
        return fail(inputError(
            "\"" + word +
            "\" cannot be taught: write one word of your own, such as gv, without "
            "figures before it."));
    }
    if (means.empty()) {
        return fail(inputError("Write what " + word + " means, such as gravel or hard drop."));
    }
    if (means != onlyANote) {
        if (const auto unknown = unknownIn(means)) {
            return fail(inputError(
                "\"" + *unknown +
                "\" is not a word of the book: use words such as gravel, low "
                "weed, hard drop or tap."));
        }
    }
    Edits edits;
    for (const Taught& taught : taughtIn(book)) {
        const bool same =
            taught.isWord &&
            (taught.asked == word || (word.size() > 1 && lowered(taught.asked) == lowered(word)));
        if (same) {
            const Edits gone = forget(book, taught.record);
            edits.insert(edits.end(), gone.begin(), gone.end());
        }
    }
    edits.emplace_back(Put<Word>{{.id = ids.take<Word>(), .text = word, .meaning = means}});
    return edits;
}

Edits answerAnew(const Book& book, const Taught& taught, const std::string& value) {
    const auto* id = std::get_if<Id<Answer>>(&taught.record);
    const Answer* answer = id != nullptr ? book.find(*id) : nullptr;
    if (answer == nullptr) {
        return {};
    }
    Answer anew = *answer;
    anew.answer = value;
    return {Put<Answer>{std::move(anew)}};
}

Edits forget(const Book& book, const TaughtRecord& record) {
    return std::visit(
        [&]<class Record>(Id<Record> id) -> Edits {
            return book.find(id) != nullptr ? Edits{Remove<Record>{id}} : Edits{};
        },
        record);
}

Result<Edits> withPagesReread(const Book& book, Edits taught, IdSource& ids) {
    const Result<Applied> after = applyEdits(book, taught);
    if (!after) {
        return fail(after.error());
    }
    const Result<Edits> pages = rereadPages(book, after->book, std::nullopt, ids);
    if (!pages) {
        return fail(pages.error());
    }
    taught.insert(taught.end(), pages->begin(), pages->end());
    return taught;
}

Result<Edits>
rereadPages(const Book& before, const Book& now, std::optional<Id<Page>> except, IdSource& ids) {
    Edits edits;
    Book book = now;
    for (const Page& page : now.all<Page>()) {
        if (page.id == except || before.find(page.water) == nullptr) {
            continue;
        }
        const PageContext former = pageContext(before, page.water);
        const std::vector<std::string> texts = textsOf(book, page.id);
        if (sameMeaning(readPage(texts, former), readPage(texts, pageContext(book, page.water)))) {
            continue;
        }
        const Result<PageUpdate> update =
            updatePage(book, page, asTyped(book, page.id), ids, {.context = &former});
        if (!update) {
            return fail(update.error());
        }
        Result<Applied> applied = applyEdits(book, update->edits);
        if (!applied) {
            return fail(applied.error());
        }
        book = std::move(applied->book);
        edits.insert(edits.end(), update->edits.begin(), update->edits.end());
    }
    return edits;
}

std::vector<std::string_view> vocabulary() {
    std::vector<std::string_view> words;
    const auto add = [&](const auto& terms) {
        for (const auto& term : terms) {
            if (std::find(words.begin(), words.end(), term.word) == words.end()) {
                words.push_back(term.word);
            }
        }
    };
    add(substrateTerms());
    add(coverTerms());
    add(dropTerms());
    // "hard" and "soft" alone say what the bed is made of.
    words.insert(words.end(), {"hard drop", "soft drop", "no drop"});
    add(pullTerms());
    add(onLeadTerms());
    add(outcomeTerms());
    return words;
}

} // namespace bedlore
