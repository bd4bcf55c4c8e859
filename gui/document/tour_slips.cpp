// SPDX-License-Identifier: MIT
#include "gui/document/tour_slips.hpp"

#include "core/book/page_meaning.hpp"
#include "gui/document/practice_book.hpp"
#include "gui/document/whereabouts.hpp"

#include <algorithm>
#include <cstddef>
#include <sstream>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

using Lines = std::vector<std::string>;

Lines linesIn(std::string_view text) {
    std::istringstream in{std::string(text)};
    Lines lines;
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    return lines;
}

Lines linesNow(const Book& book, Id<Visit> visit) {
    Lines lines;
    if (const auto page = pageOf(book, visit)) {
        for (const PageLine* line : linesOf(book, *page)) {
            lines.push_back(line->text);
        }
    }
    return lines;
}

/// The lines of the visit's page that some step asks to change, as they came.
Lines linesToMend(const Book& book, Id<Visit> visit) {
    Lines lines;
    for (std::size_t i = 0; i < tourStepCount; ++i) {
        const auto step = static_cast<TourStep>(i);
        const auto place = tourLine(book, step);
        if (place && place->visit == visit) {
            lines.emplace_back(tourMending(step).planted);
            lines.emplace_back(tourMending(step).alsoPlanted);
        }
    }
    return lines;
}

bool isIn(const Lines& lines, const std::string& line) {
    return std::find(lines.begin(), lines.end(), line) != lines.end();
}

/// A reading without the letters that it was typed in.
Reading asMeant(Reading reading) {
    const auto forget = [](std::optional<Entered>& entered) {
        if (entered) {
            entered->text.clear();
        }
    };
    reading.from.text.clear();
    forget(reading.to);
    if (reading.depth) {
        reading.depth->value.text.clear();
        forget(reading.depth->to);
    }
    return reading;
}

/// What a line says, to be compared with another: the aim and the reading, or a header's words.
struct Said {
    std::string words;
    Reading reading;
    friend bool operator==(const Said&, const Said&) = default;
};

std::optional<Said> saidBy(const PageMeaning& page, const Lines& lines, std::size_t index) {
    const LineMeaning& meaning = page.lines[index];
    if (meaning.kind == LineKind::Reading && meaning.draft) {
        const ReadingDraft& draft = page.readings[*meaning.draft];
        return Said{page.casts[draft.castIndex].aim, asMeant(draft.reading)};
    }
    return meaning.kind == LineKind::Header ? std::optional(Said{lines[index], {}}) : std::nullopt;
}

} // namespace

std::optional<TourSlip> tourSlip(const Book& book, TourStep step) {
    const auto place = tourLine(book, step);
    if (!place) {
        return std::nullopt;
    }
    const Visit& visit = book.get(place->visit);
    const Swim& swim = book.get(visit.swim);
    const Lines came = linesIn(practicePage(swim.name, visit.date));
    const Lines now = linesNow(book, visit.id);
    const PageContext context = pageContext(book, swim.water);
    const PageMeaning meantNow = readPage(now, context);
    std::vector<Said> left;
    for (std::size_t i = 0; i < now.size(); ++i) {
        if (auto said = saidBy(meantNow, now, i)) {
            left.push_back(std::move(*said));
        }
    }
    const PageMeaning meant = readPage(came, context);
    const Lines mayChange = linesToMend(book, visit.id);
    for (std::size_t i = 0; i < came.size(); ++i) {
        const auto said = saidBy(meant, came, i);
        if (!said || isIn(mayChange, came[i])) {
            continue;
        }
        const auto found = std::find(left.begin(), left.end(), *said);
        if (found == left.end()) {
            return TourSlip{.line = came[i], .stillStands = isIn(now, came[i])};
        }
        left.erase(found); // a line that came twice has to be there twice
    }
    return std::nullopt;
}

} // namespace bedlore
