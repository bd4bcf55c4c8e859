// SPDX-License-Identifier: MIT
#include "core/book/page_meaning.hpp"

// What a book knows that the lines of its pages may lean on.

namespace bedlore {

namespace {

std::vector<SaidAim> saidAims(const Book& book, Id<Water> water) {
    std::vector<SaidAim> aims;
    for (const Aim& aim : book.all<Aim>()) {
        const Visit* visit = aim.text.empty() ? nullptr : book.find(aim.visit);
        const Swim* swim = visit != nullptr ? book.find(visit->swim) : nullptr;
        if (swim != nullptr && swim->water == water) {
            aims.push_back({.swim = swim->name, .label = aim.label});
        }
    }
    return aims;
}

} // namespace

PageContext pageContext(const Book& book, Id<Water> water) {
    PageContext context;
    for (const Reel& reel : book.all<Reel>()) {
        if (reel.spool || !reel.calibration.empty()) {
            context.reels.push_back(reel.name);
        }
    }
    for (const Mark& mark : book.all<Mark>()) {
        if (mark.water == water) {
            context.marks.push_back(mark.name);
        }
    }
    for (const Swim* swim : swimsOf(book, water)) {
        context.swims.push_back(swim->name);
    }
    context.aims = saidAims(book, water);
    context.words.assign(book.all<Word>().begin(), book.all<Word>().end());
    context.answers.assign(book.all<Answer>().begin(), book.all<Answer>().end());
    return context;
}

} // namespace bedlore
