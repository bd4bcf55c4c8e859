// SPDX-License-Identifier: MIT
#include "core/book/page_former.hpp"

#include <string>
#include <utility>
#include <variant>

namespace bedlore {

namespace {

/// Lines and what hangs on them.
void noteLines(const Book& book, const Page& page, FormerPage& former) {
    for (const PageLine* line : linesOf(book, page.id)) {
        former.lines.emplace(line->id, *line);
        if (line->reading) {
            former.readings.insert(*line->reading);
            const Cast& cast = book.get(book.get(*line->reading).cast);
            former.casts.insert(cast.id);
            if (cast.reel) {
                former.reels.insert(*cast.reel);
            }
        }
        if (line->spot) {
            former.spots.insert(*line->spot);
        }
    }
}

void noteAims(const Book& book, const SaidOfVisit& said, Id<Visit> visit, FormerPage& former) {
    for (const std::string& label : said.labels) {
        if (const Aim* aim = aimLabelled(book, visit, label)) {
            former.aims.insert(aim->id);
            if (const auto* atMark = std::get_if<AimAtMark>(&aim->basis)) {
                former.marks.insert(atMark->mark);
            }
        }
    }
}

/// Visits that the page's text named, as far as they are there.
void noteVisits(const Book& book, const Page& page, FormerPage& former) {
    std::vector<std::optional<Id<Visit>>> visits;
    for (const SaidOfVisit& said : former.said.visits) {
        const Swim* swim = findSwim(book, page.water, said.section.swim);
        const Visit* visit = swim != nullptr && !said.waits()
                                 ? findVisit(book, swim->id, *said.section.date)
                                 : nullptr;
        visits.push_back(visit != nullptr ? std::optional(visit->id) : std::nullopt);
        if (swim != nullptr) {
            former.swims.insert(swim->id);
        }
        if (visit == nullptr) {
            continue;
        }
        former.visits[visit->id].said = &said;
        noteAims(book, said, visit->id, former);
        if (visit->reel) {
            former.reels.insert(*visit->reel);
        }
    }
    for (const std::size_t visit : former.said.visitOfSection) {
        former.visitOfSection.push_back(visits[visit]);
    }
}

/// Marks the visits on which somebody else has a cast.
void noteSharedVisits(const Book& book, FormerPage& former) {
    for (const Cast& cast : book.all<Cast>()) {
        const auto visit = former.visits.find(cast.visit);
        if (visit != former.visits.end() && !former.casts.contains(cast.id)) {
            visit->second.shared = true;
        }
    }
}

} // namespace

FormerPage formerPage(const Book& book, const Page& page, SaidByPage said) {
    FormerPage former;
    former.said = std::move(said);
    noteLines(book, page, former);
    noteVisits(book, page, former);
    noteSharedVisits(book, former);
    return former;
}

} // namespace bedlore
