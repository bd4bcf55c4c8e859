// SPDX-License-Identifier: MIT
#include "core/reduction/notes.hpp"

#include <algorithm>
#include <cstddef>
#include <unordered_map>
#include <utility>

namespace bedlore {

namespace {

/// Where a cast's notes stand: visit, then cast within it.
using CastPlace = std::pair<std::size_t, std::size_t>;

template <class T, class Order>
void sortByOrder(std::vector<T>& items, Order order) {
    std::stable_sort(
        items.begin(), items.end(), [&](const T& a, const T& b) { return order(a) < order(b); });
}

/// The visits of a water, with nothing in them yet but their aims and casts in order.
std::vector<VisitNotes> visitsWithCasts(const Book& book, Id<Water> water) {
    std::vector<VisitNotes> notes;
    std::unordered_map<Id<Visit>, std::size_t> visitAt;
    for (const Visit* visit : visitsOf(book, water)) {
        visitAt[visit->id] = notes.size();
        notes.push_back({.visit = visit, .aims = {}, .casts = {}});
    }
    for (const Aim& aim : book.all<Aim>()) {
        if (const auto at = visitAt.find(aim.visit); at != visitAt.end()) {
            notes[at->second].aims.push_back(&aim);
        }
    }
    for (const Cast& cast : book.all<Cast>()) {
        if (const auto at = visitAt.find(cast.visit); at != visitAt.end()) {
            notes[at->second].casts.push_back({.cast = &cast, .readings = {}});
        }
    }
    for (VisitNotes& visit : notes) {
        sortByOrder(visit.aims, [](const Aim* aim) { return aim->order; });
        sortByOrder(visit.casts, [](const CastNotes& cast) { return cast.cast->order; });
    }
    return notes;
}

} // namespace

std::vector<VisitNotes> notesOf(const Book& book, Id<Water> water) {
    std::vector<VisitNotes> notes = visitsWithCasts(book, water);
    std::unordered_map<Id<Cast>, CastPlace> castAt;
    for (std::size_t v = 0; v < notes.size(); ++v) {
        for (std::size_t c = 0; c < notes[v].casts.size(); ++c) {
            castAt[notes[v].casts[c].cast->id] = {v, c};
        }
    }
    for (const Reading& reading : book.all<Reading>()) {
        if (const auto at = castAt.find(reading.cast); at != castAt.end()) {
            notes[at->second.first].casts[at->second.second].readings.push_back(&reading);
        }
    }
    for (VisitNotes& visit : notes) {
        for (CastNotes& cast : visit.casts) {
            sortByOrder(cast.readings, [](const Reading* reading) { return reading->order; });
        }
    }
    return notes;
}

} // namespace bedlore
