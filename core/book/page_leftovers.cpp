// SPDX-License-Identifier: MIT
#include "core/book/page_leftovers.hpp"

#include <algorithm>
#include <set>

namespace bedlore {

namespace {

/// Whether nothing is known about it but its name.
template <class Record>
bool isBare(const Record& record) {
    Record bare;
    bare.id = record.id;
    bare.name = record.name;
    if constexpr (requires { bare.water; }) {
        bare.water = record.water;
    }
    return bare == record;
}

template <class Record>
void removeIfBare(EditPlan& plan, const std::set<Id<Record>>& ids) {
    for (const Id<Record> id : ids) {
        const Record* record = plan.book().find(id);
        if (record != nullptr && isBare(*record)) {
            plan.removeIfUnused(id);
        }
    }
}

} // namespace

void removeBare(
    EditPlan& plan, Id<Water> water, const FormerPage& former, const PageMeaning& meaning) {
    std::set<Id<Swim>> swims = former.swims;
    for (const PageSection& section : meaning.sections) {
        const Swim* named = findSwim(plan.book(), water, section.swim);
        if (section.date && named != nullptr) {
            swims.erase(named->id);
        }
    }
    removeIfBare(plan, swims);
    removeIfBare(plan, former.marks);
    removeIfBare(plan, former.reels);
}

} // namespace bedlore
