// SPDX-License-Identifier: MIT
#include "core/book/book.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

namespace bedlore {

namespace {

char lower(char c) {
    return static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
}

bool sameName(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
        return lower(x) == lower(y);
    });
}

template <class Record, class Predicate>
const Record* findIf(const Table<Record>& table, Predicate predicate) {
    const auto at = std::find_if(table.begin(), table.end(), predicate);
    return at == table.end() ? nullptr : &*at;
}

template <class Record, class Predicate>
std::vector<const Record*> ordered(const Table<Record>& table, Predicate predicate) {
    std::vector<const Record*> found;
    for (const Record& record : table) {
        if (predicate(record)) {
            found.push_back(&record);
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const Record* a, const Record* b) {
        return a->order < b->order;
    });
    return found;
}

} // namespace

const Water* findWater(const Book& book, const std::string& name) {
    return findIf(book.all<Water>(), [&](const Water& w) { return sameName(w.name, name); });
}

const Swim* findSwim(const Book& book, Id<Water> water, const std::string& name) {
    return findIf(book.all<Swim>(), [&](const Swim& s) {
        return s.water == water && sameName(s.name, name);
    });
}

const Visit* findVisit(const Book& book, Id<Swim> swim, Date date) {
    return findIf(
        book.all<Visit>(), [&](const Visit& v) { return v.swim == swim && v.date == date; });
}

const Reel* findReel(const Book& book, const std::string& name) {
    return findIf(book.all<Reel>(), [&](const Reel& r) { return sameName(r.name, name); });
}

std::vector<const Swim*> swimsOf(const Book& book, Id<Water> water) {
    std::vector<const Swim*> found;
    for (const Swim& swim : book.all<Swim>()) {
        if (swim.water == water) {
            found.push_back(&swim);
        }
    }
    return found;
}

std::vector<const Visit*> visitsOf(const Book& book, Id<Water> water) {
    std::vector<const Visit*> found;
    for (const Visit& visit : book.all<Visit>()) {
        const Swim* swim = book.find(visit.swim);
        if (swim != nullptr && swim->water == water) {
            found.push_back(&visit);
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const Visit* a, const Visit* b) {
        return a->date < b->date;
    });
    return found;
}

std::vector<const Cast*> castsOf(const Book& book, Id<Visit> visit) {
    return ordered(book.all<Cast>(), [&](const Cast& c) { return c.visit == visit; });
}

std::vector<const Reading*> readingsOf(const Book& book, Id<Cast> cast) {
    return ordered(book.all<Reading>(), [&](const Reading& r) { return r.cast == cast; });
}

std::vector<const Aim*> aimsOf(const Book& book, Id<Visit> visit) {
    return ordered(book.all<Aim>(), [&](const Aim& a) { return a.visit == visit; });
}

std::vector<const PageLine*> linesOf(const Book& book, Id<Page> page) {
    return ordered(book.all<PageLine>(), [&](const PageLine& l) { return l.page == page; });
}

} // namespace bedlore
