// SPDX-License-Identifier: MIT
#include "gui/document/private_things.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

template <class Record>
void addOf(const Book& book, Id<Water> water, std::vector<PrivateChoice>& choices) {
    std::vector<PrivateChoice> found;
    for (const Record& record : book.all<Record>()) {
        if (record.water == water) {
            found.push_back(
                {.what = record.id, .name = record.name, .isPrivate = record.isPrivate});
        }
    }
    std::stable_sort(
        found.begin(), found.end(), [](const PrivateChoice& a, const PrivateChoice& b) {
            return a.name < b.name;
        });
    choices.insert(choices.end(), found.begin(), found.end());
}

} // namespace

std::vector<PrivateChoice> privateChoices(const Book& book, Id<Water> water) {
    std::vector<PrivateChoice> choices;
    addOf<Spot>(book, water, choices);
    addOf<Mark>(book, water, choices);
    return choices;
}

Edits putPrivate(const Book& book, const std::vector<PrivateChoice>& chosen) {
    Edits edits;
    for (const PrivateChoice& choice : chosen) {
        std::visit(
            [&]<class Record>(Id<Record> id) {
                const Record* former = book.find(id);
                if (former == nullptr || former->isPrivate == choice.isPrivate) {
                    return;
                }
                Record record = *former;
                record.isPrivate = choice.isPrivate;
                edits.emplace_back(Put<Record>{std::move(record)});
            },
            choice.what);
    }
    return edits;
}

} // namespace bedlore
