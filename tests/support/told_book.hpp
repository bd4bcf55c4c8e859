// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <ostream>
#include <set>
#include <sstream>
#include <string>

// What a book holds, in words and without ids: two books that say the same of a water are told
// alike.

namespace bedlore::testing {

/// A visit with its aims, casts and readings, in the order of fishing.
inline void tellVisit(std::ostream& out, const Book& book, const Visit& visit) {
    out << book.get(visit.swim).name << ' ' << static_cast<int>(visit.date.year()) << '-'
        << static_cast<unsigned>(visit.date.month()) << '-'
        << static_cast<unsigned>(visit.date.day()) << ' '
        << (visit.sticks ? visit.sticks->text : "") << ' ' << (visit.level ? visit.level->text : "")
        << '\n';
    for (const Aim* aim : aimsOf(book, visit.id)) {
        out << "  aim " << aim->label << ' ' << aim->basis.index() << ' ' << aim->text << '\n';
    }
    for (const Cast* cast : castsOf(book, visit.id)) {
        out << "  cast " << cast->order << ' ' << (cast->aim ? book.get(*cast->aim).label : "-")
            << ' ' << (cast->reel ? book.get(*cast->reel).name : "-") << '\n';
        for (const Reading* reading : readingsOf(book, cast->id)) {
            out << "    " << reading->order << ' ' << reading->from.text << ' '
                << (reading->depth ? reading->depth->value.text : "") << ' ' << reading->note
                << '\n';
        }
    }
}

/// Visits, aims, casts, readings and spots with what makes them out, in the order of fishing, and
/// how many there are of each record.
inline std::string told(const Book& book, Id<Water> water) {
    std::ostringstream out;
    for (const Visit* visit : visitsOf(book, water)) {
        tellVisit(out, book, *visit);
    }
    std::set<std::string> spots;
    for (const Spot& spot : book.all<Spot>()) {
        std::string words = spot.name;
        for (const LengthUsed& used : spot.lengths) {
            const auto month = static_cast<unsigned>(book.get(*used.visit).date.month());
            words += ' ' + used.rod + ' ' + used.length.text + " on " + std::to_string(month);
        }
        spots.insert(words);
    }
    for (const std::string& spot : spots) {
        out << spot << '\n';
    }
    out << book.all<Swim>().size() << " swims " << book.all<Mark>().size() << " marks "
        << book.all<Reel>().size() << " reels " << book.all<Spot>().size() << " spots "
        << book.all<Cast>().size() << " casts " << book.all<Reading>().size() << " readings\n";
    return out.str();
}

} // namespace bedlore::testing
