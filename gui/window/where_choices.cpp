// SPDX-License-Identifier: MIT
#include "gui/window/where_choices.hpp"

#include "gui/document/waiting_pages.hpp"
#include "gui/widgets/choice_line.hpp"
#include "gui/window/desk.hpp"

#include <QCoreApplication>

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("bedlore::WhereChoices", text);
}

Choice choice(Desk& desk, const std::string& words, bool isChosen, const Whereabouts& where) {
    return {.words = QString::fromStdString(words), .isChosen = isChosen, .choose = [&desk, where] {
                desk.goTo(where);
            }};
}

void showWater(ChoiceLine& line, Desk& desk) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    std::vector<Choice> choices;
    for (const Water& water : book->all<Water>()) {
        choices.push_back(choice(
            desk,
            water.name,
            water.id == here.water,
            {.water = water.id, .swim = std::nullopt, .visit = std::nullopt}));
    }
    const QString name =
        here.water ? QString::fromStdString(book->get(*here.water).name) : desk.document().name();
    line.setPart(0, name, std::move(choices));
}

void showSwim(ChoiceLine& line, Desk& desk) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    std::vector<Choice> choices;
    if (here.water) {
        for (const Swim* swim : swimsOf(*book, *here.water)) {
            choices.push_back(choice(
                desk,
                swim->name,
                swim->id == here.swim,
                {.water = here.water, .swim = swim->id, .visit = std::nullopt}));
        }
    }
    const QString name = here.swim ? QString::fromStdString(book->get(*here.swim).name) : QString();
    line.setPart(1, name, std::move(choices));
}

/// The pages that speak of a visit, in the order of entry.
std::vector<Id<Page>> pagesOf(Id<Visit> visit, const std::vector<PageVisits>& pages) {
    std::vector<Id<Page>> own;
    for (const PageVisits& page : pages) {
        if (std::find(page.visits.begin(), page.visits.end(), visit) != page.visits.end()) {
            own.push_back(page.page);
        }
    }
    return own;
}

/// "12 April 2025, page 2": one day may fill several pages.
QString pageWords(const Visit& visit, std::size_t page) {
    const QString day = QString::fromStdString(visitWords(visit));
    return page == 0 ? day : tr("%1, page %2").arg(day).arg(page + 1);
}

/// The visits of the swim that he is at, each of their pages by itself.
std::vector<Choice>
visitChoices(Desk& desk, std::optional<Id<Visit>> shown, const std::vector<PageVisits>& pages) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    std::vector<Choice> choices;
    for (const Visit* visit : visitsOf(*book, *here.water)) {
        if (visit->swim != here.swim) {
            continue;
        }
        const Whereabouts where = whereaboutsOf(*book, visit->id);
        const std::vector<Id<Page>> own = pagesOf(visit->id, pages);
        if (own.empty()) {
            choices.push_back(choice(desk, visitWords(*visit), visit->id == shown, where));
        }
        for (std::size_t i = 0; i < own.size(); ++i) {
            const bool isShown = own.size() == 1 || desk.shownPage() == own[i];
            choices.push_back(
                {.words = pageWords(*visit, i),
                 .isChosen = visit->id == shown && isShown,
                 .choose = [&desk, where, page = own[i]] {
                     desk.goTo(where);
                     // Another page may name the day too, without a reading of it.
                     if (desk.shownPage() != page) {
                         desk.goToPage(page);
                     }
                 }});
        }
    }
    return choices;
}

/// The visit that he is at, and which of its pages he reads.
QString shownWords(Desk& desk, Id<Visit> visit, const std::vector<PageVisits>& pages) {
    const std::vector<Id<Page>> own = pagesOf(visit, pages);
    const auto page = desk.shownPage();
    const auto at = page ? std::find(own.begin(), own.end(), *page) : own.end();
    const auto number = at != own.end() ? static_cast<std::size_t>(at - own.begin()) : 0;
    return pageWords(desk.document().book()->get(visit), number);
}

/// The pages that can be gone to from here, and what the one that he reads is called.
struct PageChoices {
    std::vector<Choice> choices;
    QString shown;
};

PageChoices pageChoices(Desk& desk) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    const std::vector<PageVisits> pages =
        here.water ? pagesAndVisits(*book, *here.water) : std::vector<PageVisits>{};
    std::vector<Id<Page>> waiting; // no choice of a visit leads there
    for (const PageVisits& one : pages) {
        if (one.visits.empty()) {
            waiting.push_back(one.page);
        }
    }
    const std::optional<Id<Page>> page = desk.shownPage();
    const bool isWaiting =
        page && std::find(waiting.begin(), waiting.end(), *page) != waiting.end();
    const std::optional<Id<Visit>> shown =
        isWaiting || desk.showsNewPage() ? std::nullopt : here.visit;
    PageChoices all;
    if (here.water) {
        all.choices = visitChoices(desk, shown, pages);
    }
    for (const Id<Page> other : waiting) {
        all.choices.push_back(
            {.words = QString::fromStdString(waitingPageWords(*book, other)),
             .isChosen = page == other,
             .choose = [&desk, other] { desk.goToPage(other); }});
    }
    all.shown = isWaiting ? QString::fromStdString(waitingPageWords(*book, *page))
                : shown   ? shownWords(desk, *shown, pages)
                          : tr("a new page");
    return all;
}

void showVisit(ChoiceLine& line, Desk& desk) {
    PageChoices pages = pageChoices(desk);
    const bool isFirst = pages.choices.empty();
    pages.choices.push_back(
        {.words = tr("New page"),
         .isChosen = false,
         .choose = [&desk] { desk.newPage(); },
         .startsGroup = !isFirst});
    line.setPart(2, pages.shown, std::move(pages.choices));
}

} // namespace

void showWhereabouts(ChoiceLine& line, Desk& desk) {
    showWater(line, desk);
    showSwim(line, desk);
    showVisit(line, desk);
}

bool stepPage(Desk& desk, int by) {
    const std::vector<Choice> choices = pageChoices(desk).choices;
    const auto chosen = std::find_if(
        choices.begin(), choices.end(), [](const Choice& one) { return one.isChosen; });
    // A new page stands after all others.
    const auto next = (chosen - choices.begin()) + by;
    if (next < 0 || next >= std::ssize(choices)) {
        return false;
    }
    choices[static_cast<std::size_t>(next)].choose();
    return true;
}

} // namespace bedlore
