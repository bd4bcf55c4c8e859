// SPDX-License-Identifier: MIT
#include "gui/document/waiting_pages.hpp"

#include "core/book/page_meaning.hpp"
#include "core/book/page_waiting.hpp"
#include "gui/document/whereabouts.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <set>

namespace bedlore {

namespace {

constexpr std::size_t mostLetters = 32; // of a page's beginning in a list

PageMeaning meaningOf(const Book& book, const Page& page) {
    std::vector<std::string> lines;
    for (const PageLine* line : linesOf(book, page.id)) {
        lines.push_back(line->text);
    }
    return readPage(lines, pageContext(book, page.water));
}

/// The first letters of a line, cut between letters.
std::string beginningOf(const std::string& text) {
    std::size_t letters = 0;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool beginsLetter = (static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U;
        if (beginsLetter && ++letters > mostLetters) {
            return text.substr(0, i) + "…";
        }
    }
    return text;
}

/// The line that he would know the page by: its first that is not a header.
std::string firstWords(const Book& book, Id<Page> page) {
    std::string header;
    for (const PageLine* line : linesOf(book, page)) {
        const std::string bare = line->text.substr(0, line->text.find_last_not_of(" \t") + 1);
        if (bare.empty() || waitsToBeCompleted(bare)) {
            continue;
        }
        if (line->kind != LineKind::Header) {
            return beginningOf(line->text);
        }
        if (header.empty()) {
            header = beginningOf(line->text);
        }
    }
    return header;
}

bool saysSomething(const PageLine& line) {
    return line.kind != LineKind::Header && line.kind != LineKind::Blank &&
           line.text.find_first_not_of(" \t") != std::string::npos &&
           !waitsToBeCompleted(line.text);
}

struct WaitingPage {
    Id<Page> page;
    std::size_t lines = 0;
};

/// In the order of entry, each with its lines that are no headers.
std::vector<WaitingPage> waitingPages(const Book& book) {
    std::vector<WaitingPage> found;
    for (const Water& water : book.all<Water>()) {
        for (const PageVisits& page : pagesAndVisits(book, water.id)) {
            if (!page.visits.empty()) {
                continue;
            }
            const std::vector<const PageLine*> lines = linesOf(book, page.page);
            const auto saying = std::count_if(lines.begin(), lines.end(), [](const PageLine* line) {
                return saysSomething(*line);
            });
            if (saying > 0) {
                found.push_back({page.page, static_cast<std::size_t>(saying)});
            }
        }
    }
    std::sort(found.begin(), found.end(), [](const WaitingPage& a, const WaitingPage& b) {
        return a.page < b.page;
    });
    return found;
}

} // namespace

std::optional<Id<Page>> lastWaitingPage(const Book& book) {
    const std::vector<WaitingPage> pages = waitingPages(book);
    return pages.empty() ? std::nullopt : std::optional(pages.back().page);
}

std::string waitingPagesWords(const Book& book) {
    const std::vector<WaitingPage> pages = waitingPages(book);
    if (pages.empty()) {
        return {};
    }
    std::size_t lines = 0;
    std::set<std::string> lacking;
    for (const WaitingPage& page : pages) {
        lines += page.lines;
        lacking.insert(missingHeaders(meaningOf(book, book.get(page.page)).sections.front()));
    }
    const std::string what =
        lacking.size() == 1 && !lacking.begin()->empty() ? *lacking.begin() : "a swim or a date";
    const std::string count = std::to_string(lines) + (lines == 1 ? " line" : " lines");
    return pages.size() == 1
               ? "A page with " + count + " waits for " + what + "."
               : std::to_string(pages.size()) + " pages with " + count + " wait for " + what + ".";
}

std::string waitingPageWords(const Book& book, Id<Page> page) {
    const PageMeaning meaning = meaningOf(book, book.get(page));
    const std::string lacking = missingHeaders(meaning.sections.front());
    const std::string what = "page without " + (lacking.empty() ? "a visit" : lacking);
    const std::string begins = firstWords(book, page);
    return begins.empty() ? what + ", empty" : what + ", begins: " + begins;
}

std::string waitingReadingsWords(const Book& book, Id<Water> water) {
    struct Waiting {
        std::size_t readings = 0;
        std::size_t pages = 0;
    };
    std::map<std::string, Waiting> byLack;
    for (const Page* page : pagesOf(book, water)) {
        const PageMeaning meaning = meaningOf(book, *page);
        std::set<std::string> here;
        for (const WaitingReadings& waiting : waitingReadings(meaning, saidByPage(meaning))) {
            byLack[waiting.lacking].readings += waiting.count;
            here.insert(waiting.lacking);
        }
        for (const std::string& lacking : here) {
            ++byLack[lacking].pages;
        }
    }
    std::string words;
    for (const auto& [lacking, waiting] : byLack) {
        const bool one = waiting.readings == 1;
        words += words.empty() ? "" : " ";
        words += std::to_string(waiting.readings) + (one ? " reading waits" : " readings wait") +
                 " for " + lacking + " that " + (one ? "its" : "their") +
                 (waiting.pages > 1 ? " pages do" : " page does") + " not say yet.";
    }
    return words;
}

} // namespace bedlore
