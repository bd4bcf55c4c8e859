// SPDX-License-Identifier: MIT
#include "core/io/import_visits.hpp"

#include "core/io/import_text.hpp"
#include "core/reduction/water_level.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>

namespace bedlore {

namespace {

constexpr double sameMetres = 1e-6;

bool sameSticks(const Entered& a, const Entered& b) {
    const auto first = fixedLength(a);
    const auto second = fixedLength(b);
    return first && second && std::abs((*first - *second) / metre) <= sameMetres;
}

} // namespace

VisitList::VisitList(const Book& book, const Water& water, FaultList& faults)
    : book_(book)
    , water_(water)
    , faults_(faults) {
    for (const Swim& swim : book.all<Swim>()) {
        if (swim.water == water.id) {
            swimByName_.emplace(lowerCase(swim.name), swim.id);
        }
    }
    for (const Visit& visit : book.all<Visit>()) {
        visitBySwimAndDate_.emplace(std::pair(visit.swim, visit.date), visit.id);
    }
    for (const Reading& reading : book.all<Reading>()) {
        int& last = lastReading_[reading.cast];
        last = std::max(last, reading.order);
    }
}

VisitWork& VisitList::visitFor(const ReadingRow& row) {
    const auto day = std::chrono::sys_days(row.date).time_since_epoch().count();
    const auto key = lowerCase(row.swim) + '\n' + std::to_string(day);
    const auto [at, isNew] = byKey_.try_emplace(key, nullptr);
    if (isNew) {
        at->second = &visits_.emplace_back();
        open(*at->second, row);
    }
    return *at->second;
}

void VisitList::open(VisitWork& work, const ReadingRow& row) {
    work.swimName = row.swim;
    work.isNew = true;
    work.visit.date = row.date;
    const auto swim = swimByName_.find(lowerCase(row.swim));
    if (swim == swimByName_.end()) {
        return;
    }
    work.swim = swim->second;
    work.swimName = book_.get(swim->second).name;
    const auto visit = visitBySwimAndDate_.find({swim->second, row.date});
    if (visit == visitBySwimAndDate_.end()) {
        return;
    }
    work.isNew = false;
    work.visit = book_.get(visit->second);
    for (const Aim* aim : aimsOf(book_, work.visit.id)) {
        work.aims.emplace(aim->label, aim->id);
        work.nextAim = std::max(work.nextAim, aim->order + 1);
    }
    openCasts(work);
}

void VisitList::openCasts(VisitWork& work) {
    for (const Cast* cast : castsOf(book_, work.visit.id)) {
        work.nextCast = std::max(work.nextCast, cast->order + 1);
        if (cast->name.empty()) {
            continue;
        }
        CastWork& known = addCast();
        known.cast = *cast;
        if (cast->bearing) {
            known.north = cast->bearing->north;
        }
        const Aim* aim = cast->aim ? book_.find(*cast->aim) : nullptr;
        known.aim = aim != nullptr ? aim->label : "";
        const auto last = lastReading_.find(cast->id);
        known.nextReading = last == lastReading_.end() ? 1 : last->second + 1;
        work.named.emplace(cast->name, &known);
    }
}

bool VisitList::takeValues(const ReadingRow& row, VisitWork& work) {
    Visit& visit = work.visit;
    const bool sticksFit =
        !row.stickGap || !visit.sticks || sameSticks(*row.stickGap, *visit.sticks);
    const bool levelFits = !row.level || !visit.level || sameLevel(*row.level, *visit.level);
    if (!sticksFit) {
        faults_.add(
            row.line,
            "stick_gap_ft",
            row.stickGap->text,
            printEntered(*visit.sticks) + ", as this visit has already");
    }
    if (!levelFits) {
        faults_.add(
            row.line,
            "level_m",
            row.level->text,
            printEntered(*visit.level) + ", as this visit has already");
    }
    if (!sticksFit || !levelFits) {
        return false;
    }
    if (row.stickGap && !visit.sticks) {
        visit.sticks = row.stickGap;
        work.changed = true;
    }
    if (row.level && !visit.level) {
        visit.level = row.level;
        work.changed = true;
    }
    return true;
}

bool VisitList::sameLevel(const Entered& a, const Entered& b) const {
    const auto first = measuredLevel(a, water_.levelReference);
    const auto second = measuredLevel(b, water_.levelReference);
    return first && second &&
           std::abs((first->level.aboveDatum - second->level.aboveDatum) / metre) <= sameMetres;
}

} // namespace bedlore
