// SPDX-License-Identifier: MIT
#include "gui/window/where_choices.hpp"

#include "gui/document/waiting_pages.hpp"
#include "gui/widgets/choice_line.hpp"
#include "gui/window/desk.hpp"

#include <QCoreApplication>

#include <algorithm>
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

/// The visits of the swim that he is at.
std::vector<Choice> visitChoices(Desk& desk, std::optional<Id<Visit>> shown) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    std::vector<Choice> choices;
    for (const Visit* visit : visitsOf(*book, *here.water)) {
        if (visit->swim == here.swim) {
            choices.push_back(choice(
                desk, visitWords(*visit), visit->id == shown, whereaboutsOf(*book, visit->id)));
        }
    }
    return choices;
}

void showVisit(ChoiceLine& line, Desk& desk) {
    const auto book = desk.document().book();
    const Whereabouts& here = desk.whereabouts();
    const std::vector<Id<Page>> waiting =
        here.water ? pagesWithoutVisit(*book, *here.water) : std::vector<Id<Page>>{};
    const std::optional<Id<Page>> page = desk.shownPage();
    const bool isWaiting =
        page && std::find(waiting.begin(), waiting.end(), *page) != waiting.end();
    const std::optional<Id<Visit>> shown =
        isWaiting || desk.showsNewPage() ? std::nullopt : here.visit;
    std::vector<Choice> choices;
    if (here.water) {
        choices = visitChoices(desk, shown);
    }
    for (const Id<Page> other : waiting) {
        choices.push_back(
            {.words = QString::fromStdString(waitingPageWords(*book, other)),
             .isChosen = page == other,
             .choose = [&desk, other] { desk.goToPage(other); }});
    }
    choices.push_back(
        {.words = tr("New page"),
         .isChosen = false,
         .choose = [&desk] { desk.newPage(); },
         .startsGroup = !choices.empty()});
    const QString words = isWaiting ? QString::fromStdString(waitingPageWords(*book, *page))
                          : shown   ? QString::fromStdString(visitWords(book->get(*shown)))
                                    : tr("a new page");
    line.setPart(2, words, std::move(choices));
}

} // namespace

void showWhereabouts(ChoiceLine& line, Desk& desk) {
    showWater(line, desk);
    showSwim(line, desk);
    showVisit(line, desk);
}

} // namespace bedlore
