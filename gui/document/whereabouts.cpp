// SPDX-License-Identifier: MIT
#include "gui/document/whereabouts.hpp"

#include "core/book/page_meaning.hpp"
#include "core/units/format.hpp"
#include "core/units/month_name.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace bedlore {

namespace {

std::optional<Id<Visit>> latestVisitOf(const Book& book, Id<Water> water) {
    const std::vector<const Visit*> visits = visitsOf(book, water);
    return visits.empty() ? std::nullopt : std::optional(visits.back()->id);
}

/// What its headers say, for a page without a reading yet.
std::vector<Id<Visit>> visitsByHeaders(const Book& book, const Page& page) {
    std::vector<std::string> lines;
    for (const PageLine* line : linesOf(book, page.id)) {
        lines.push_back(line->text);
    }
    std::vector<Id<Visit>> visits;
    for (const PageSection& section : readPage(lines, pageContext(book, page.water)).sections) {
        const Swim* swim = findSwim(book, page.water, section.swim);
        const Visit* visit =
            swim != nullptr && section.date ? findVisit(book, swim->id, *section.date) : nullptr;
        if (visit != nullptr) {
            visits.push_back(visit->id);
        }
    }
    return visits;
}

} // namespace

std::optional<Id<Visit>> latestVisitOf(const Book& book, Id<Swim> swim) {
    std::optional<Id<Visit>> latest;
    for (const Visit* visit : visitsOf(book, book.get(swim).water)) {
        if (visit->swim == swim) {
            latest = visit->id;
        }
    }
    return latest;
}

Whereabouts settled(const Book& book, const Whereabouts& wanted) {
    if (wanted.visit && book.find(*wanted.visit) != nullptr) {
        return whereaboutsOf(book, *wanted.visit);
    }
    if (wanted.swim && book.find(*wanted.swim) != nullptr) {
        if (const auto visit = latestVisitOf(book, *wanted.swim)) {
            return whereaboutsOf(book, *visit);
        }
        return {.water = book.get(*wanted.swim).water, .swim = wanted.swim, .visit = std::nullopt};
    }
    const Table<Water>& waters = book.all<Water>();
    if (waters.empty()) {
        return {};
    }
    const bool there = wanted.water && book.find(*wanted.water) != nullptr;
    const Id<Water> water = there ? *wanted.water : waters.begin()->id;
    if (const auto visit = latestVisitOf(book, water)) {
        return whereaboutsOf(book, *visit);
    }
    const std::vector<const Swim*> swims = swimsOf(book, water);
    return {
        .water = water,
        .swim = swims.empty() ? std::nullopt : std::optional(swims.front()->id),
        .visit = std::nullopt};
}

Whereabouts whereaboutsOf(const Book& book, Id<Visit> visit) {
    const Swim& swim = book.get(book.get(visit).swim);
    return {.water = swim.water, .swim = swim.id, .visit = visit};
}

std::vector<const Page*> pagesOf(const Book& book, Id<Water> water) {
    std::vector<const Page*> pages;
    for (const Page& page : book.all<Page>()) {
        if (page.water == water) {
            pages.push_back(&page);
        }
    }
    return pages;
}

std::vector<Id<Visit>> visitsOf(const Book& book, Id<Page> page) {
    std::vector<Id<Visit>> visits;
    const auto add = [&visits](Id<Visit> visit) {
        if (std::find(visits.begin(), visits.end(), visit) == visits.end()) {
            visits.push_back(visit);
        }
    };
    for (const PageLine* line : linesOf(book, page)) {
        if (line->reading) {
            add(book.get(book.get(*line->reading).cast).visit);
        }
    }
    for (const Id<Visit> visit : visitsByHeaders(book, book.get(page))) {
        add(visit);
    }
    return visits;
}

bool isOfVisit(const Book& book, Id<Page> page, Id<Visit> visit) {
    const std::vector<const PageLine*> lines = linesOf(book, page);
    const bool isFelt = std::any_of(lines.begin(), lines.end(), [&](const PageLine* line) {
        return line->reading && book.get(book.get(*line->reading).cast).visit == visit;
    });
    if (isFelt) {
        return true;
    }
    const std::vector<Id<Visit>> named = visitsByHeaders(book, book.get(page));
    return std::find(named.begin(), named.end(), visit) != named.end();
}

std::vector<PageVisits> pagesAndVisits(const Book& book, Id<Water> water) {
    std::map<Id<Page>, std::set<Id<Visit>>> felt;
    for (const PageLine& line : book.all<PageLine>()) {
        if (line.reading) {
            felt[line.page].insert(book.get(book.get(*line.reading).cast).visit);
        }
    }
    std::vector<PageVisits> all;
    for (const Page* page : pagesOf(book, water)) {
        const auto found = felt.find(page->id);
        if (found != felt.end()) {
            all.push_back(
                {.page = page->id, .visits = {found->second.begin(), found->second.end()}});
        } else {
            all.push_back({.page = page->id, .visits = visitsOf(book, page->id)});
        }
    }
    return all;
}

std::optional<Id<Page>> pageOf(const Book& book, Id<Visit> visit) {
    const Id<Water> water = book.get(book.get(visit).swim).water;
    for (const Page* page : pagesOf(book, water)) {
        const std::vector<Id<Visit>> visits = visitsOf(book, page->id);
        if (std::find(visits.begin(), visits.end(), visit) != visits.end()) {
            return page->id;
        }
    }
    return std::nullopt;
}

std::string dateWords(Date date) {
    const std::string name(monthName(date.month()));
    return std::to_string(static_cast<unsigned>(date.day())) + " " + name + " " +
           std::to_string(static_cast<int>(date.year()));
}

std::string visitWords(const Visit& visit) {
    std::string words = dateWords(visit.date);
    if (visit.level) {
        words += ", level " + printEntered(*visit.level);
    }
    return words;
}

} // namespace bedlore
