// SPDX-License-Identifier: MIT
#include "core/io/import_page.hpp"

#include "core/book/page_edits.hpp"
#include "core/io/import_text.hpp"

#include <algorithm>
#include <unordered_map>
#include <utility>

namespace bedlore {

namespace {

constexpr std::size_t longestLine = 10'000;
constexpr std::size_t mostUnclearNamed = 100;

/// What stands behind `word` on a line that begins with it; none on another line.
std::optional<std::string_view> behind(std::string_view line, std::string_view word) {
    const std::string_view text = trimmed(line);
    if (text.size() <= word.size() || lowerCase(text.substr(0, word.size())) != word ||
        (text[word.size()] != ' ' && text[word.size()] != '\t')) {
        return std::nullopt;
    }
    return trimmed(text.substr(word.size()));
}

/// Takes the next line off `text`.
std::string_view takeLine(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end);
    text.remove_prefix(text.starts_with("\r\n") ? 2 : text.empty() ? 0 : 1);
    return line;
}

/// Says where each reading stood; only the lines know.
void setSources(Edits& edits, Id<ImportedFile> file) {
    std::unordered_map<Id<Reading>, int> lineOf;
    for (const Edit& edit : edits) {
        if (const auto* put = std::get_if<Put<PageLine>>(&edit); put && put->record.reading) {
            lineOf.emplace(*put->record.reading, put->record.order);
        }
    }
    for (Edit& edit : edits) {
        if (auto* put = std::get_if<Put<Reading>>(&edit)) {
            const auto line = lineOf.find(put->record.id);
            if (line != lineOf.end()) {
                put->record.source = SourceLine{.file = file, .line = line->second};
            }
        }
    }
}

/// What the line may have meant, as it is offered beside the page: " yards?".
std::string offersOf(const LineMeaning& line) {
    std::string words;
    for (const LineOffer& offer : line.offers) {
        words += " " + offer.words;
    }
    return words;
}

/// What is to be said of a line, empty for nothing.
std::string wordsOn(const LineMeaning& line) {
    if (!line.unclear.empty()) {
        return "\" is kept, but not clear: " + line.unclear + offersOf(line);
    }
    return line.remark.empty() ? std::string() : "\": " + line.remark + offersOf(line);
}

/// An unclear line is kept and blocks nothing; it is only said. So is what may be a slip.
void noteUnclearLines(
    ImportSession& session,
    const std::string& name,
    const std::vector<TypedLine>& lines,
    const PageMeaning& meaning) {
    std::size_t unclear = 0;
    for (std::size_t i = 0; i < meaning.lines.size(); ++i) {
        const std::string words = wordsOn(meaning.lines[i]);
        if (!words.empty() && ++unclear <= mostUnclearNamed) {
            std::string notice = name + ", line " + std::to_string(i + 1) + ": \"";
            notice += shown(lines[i].text) + words;
            session.notice(std::move(notice));
        }
    }
    if (unclear > mostUnclearNamed) {
        session.notice(
            name + ": " + std::to_string(unclear - mostUnclearNamed) +
            " more lines are to be looked at; the page shows them.");
    }
}

} // namespace

bool isPageText(std::string_view text) {
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        if (!trimmed(line).empty()) {
            return behind(line, "swim").has_value();
        }
    }
    return false;
}

PageText readPageText(std::string_view text, FaultList& faults) {
    const std::size_t mostLines = importFormat(ImportKind::Page).mostRows;
    PageText page;
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        const int number = static_cast<int>(page.lines.size()) + 1;
        if (line.size() > longestLine) {
            faults.addForFile(number, "", line, "a line of at most 10,000 characters");
            return page;
        }
        if (page.lines.size() >= mostLines) {
            faults.addForFile(
                number, "", line, "a page of at most " + std::to_string(mostLines) + " lines");
            return page;
        }
        if (const auto date = behind(line, "date"); date && !page.date) {
            page.date = dateIn(*date);
        }
        page.lines.emplace_back(line);
    }
    return page;
}

Result<void> planPage(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file) {
    Page page;
    page.id = session.ids().take<Page>();
    page.water = session.waterId();
    page.file = file;
    std::vector<TypedLine> typed;
    for (const std::string& line : std::get<PageText>(parsed.content).lines) {
        typed.push_back({.id = std::nullopt, .text = line});
    }
    auto update = updatePage(session.book(), page, typed, session.ids());
    if (!update) {
        return fail(std::move(update).error());
    }
    for (std::string& notice : update->notices) {
        session.notice(parsed.name + ": " + std::move(notice));
    }
    noteUnclearLines(session, parsed.name, typed, update->read.meaning);
    setSources(update->edits, file);
    return session.apply(std::move(update->edits));
}

} // namespace bedlore
