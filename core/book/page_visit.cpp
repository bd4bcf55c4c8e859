// SPDX-License-Identifier: MIT
#include "core/book/page_visit.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/shorthand.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

Id<Mark> markNamed(EditPlan& plan, Id<Water> water, const std::string& name) {
    for (const Mark& mark : plan.book().all<Mark>()) {
        if (mark.water == water && lowered(mark.name) == lowered(name)) {
            return mark.id;
        }
    }
    Mark mark;
    mark.water = water;
    mark.name = name;
    return plan.add(std::move(mark));
}

template <class T>
void say(std::optional<T>& field, const std::optional<T>& said, bool shared) {
    if (said || !shared) {
        field = said;
    }
}

void sayHeaders(Visit& visit, const PageSection& section, bool shared) {
    const Visit& said = section.visit;
    say(visit.level, said.level, shared);
    say(visit.sticks, said.sticks, shared);
    say(visit.bareDistance, said.bareDistance, shared);
    say(visit.bareDepth, said.bareDepth, shared);
    say(visit.floatRig, said.floatRig, shared);
    say(visit.tipHeight, said.tipHeight, shared);
    if (said.sticks || !shared) {
        visit.wrapCounts = said.wrapCounts;
    }
    if (said.bearingSource != BearingSource::Unsaid || !shared) {
        visit.bearingSource = said.bearingSource;
    }
    if (!said.note.empty() || !shared) {
        visit.note = said.note;
    }
}

/// The visit of that swim and date; else the section's former one, if it is this page's alone,
/// moved there; else a new one.
Visit visitFor(const EditPlan& plan, Id<Swim> swim, Date date, const FormerVisit& former) {
    if (const Visit* there = findVisit(plan.book(), swim, date)) {
        return *there;
    }
    Visit visit;
    if (former.visit && !former.shared) {
        if (const Visit* before = plan.book().find(*former.visit)) {
            visit = *before;
        }
    }
    visit.swim = swim;
    visit.date = date;
    return visit;
}

Id<Aim> aimNamed(EditPlan& plan, Id<Visit> visit, const std::string& label, int order) {
    for (const Aim* aim : aimsOf(plan.book(), visit)) {
        if (aim->label == label) {
            return aim->id;
        }
    }
    Aim aim;
    aim.visit = visit;
    aim.order = order;
    aim.label = label;
    return plan.add(std::move(aim));
}

AimBasis basisOf(
    EditPlan& plan,
    Id<Water> water,
    const AimDraft& draft,
    const std::map<std::string, Id<Aim>>& aims) {
    const auto other = [&](const std::string& label) -> std::optional<Id<Aim>> {
        const auto found = aims.find(label);
        const bool usable = found != aims.end() && label != draft.label;
        return usable ? std::optional(found->second) : std::nullopt;
    };
    return std::visit(
        Overloaded{
            [](const AimDraft::WithoutAngle&) -> AimBasis { return AimWithoutAngle{}; },
            [&](const AimDraft::AtMark& basis) -> AimBasis {
                return AimAtMark{markNamed(plan, water, basis.mark), basis.offset};
            },
            [](const AimDraft::AtBearing& basis) -> AimBasis {
                return AimAtBearing{basis.bearing};
            },
            [&](const AimDraft::FromAim& basis) -> AimBasis {
                const auto id = other(basis.other);
                return id ? AimBasis(AimFromAim{*id, basis.offset}) : AimWithoutAngle{};
            },
            [](const AimDraft::AtClock& basis) -> AimBasis { return AimAtClock{basis.hour}; },
            [&](const AimDraft::LeftOf& basis) -> AimBasis {
                const auto id = other(basis.other);
                return id ? AimBasis(AimLeftOf{*id}) : AimWithoutAngle{};
            }},
        draft.basis);
}

/// Puts the aims that a section defines or only uses, behind those that earlier sections of the
/// page spoke of.
class AimPutter {
public:
    AimPutter(EditPlan& plan, Id<Water> water, const FormerVisit& former, SectionRecords& records)
        : plan_(plan)
        , water_(water)
        , said_(former.saidAims)
        , records_(records) {
        for (const Aim* aim : aimsOf(plan.book(), records.visit)) {
            order_ += said_.contains(aim->id) ? 1 : 0;
        }
    }

    void run(const PageSection& section, const std::vector<std::string>& labels) {
        // All aims are there before any hangs on another.
        for (const AimDraft& draft : section.aims) {
            ensure(draft.label);
        }
        for (const std::string& label : labels) {
            if (!label.empty()) {
                ensure(label);
            }
        }
        for (const AimDraft& draft : section.aims) {
            Aim aim = placed(draft.label);
            aim.basis = basisOf(plan_, water_, draft, records_.aims);
            aim.text = draft.text;
            plan_.put(std::move(aim));
            said_.insert(records_.aims.at(draft.label));
        }
        for (const std::string& label : labels) {
            if (!label.empty() && !said_.contains(records_.aims.at(label))) {
                Aim aim = placed(label);
                aim.basis = AimWithoutAngle{};
                aim.text.clear();
                plan_.put(std::move(aim));
            }
        }
    }

private:
    void ensure(const std::string& label) {
        if (!records_.aims.contains(label)) {
            const int last = 1000000; // until it gets its own place
            records_.aims.emplace(label, aimNamed(plan_, records_.visit, label, last));
        }
    }
    Aim placed(const std::string& label) {
        Aim aim = plan_.book().get(records_.aims.at(label));
        if (!said_.contains(aim.id)) {
            aim.order = ++order_;
        }
        return aim;
    }

    EditPlan& plan_;
    Id<Water> water_;
    std::set<Id<Aim>> said_;
    SectionRecords& records_;
    int order_ = 0;
};

} // namespace

Id<Swim> swimNamed(EditPlan& plan, Id<Water> water, const std::string& name) {
    if (const Swim* there = findSwim(plan.book(), water, name)) {
        return there->id;
    }
    Swim swim;
    swim.water = water;
    swim.name = name;
    return plan.add(std::move(swim));
}

Id<Reel> reelNamed(EditPlan& plan, const std::string& name) {
    if (const Reel* there = findReel(plan.book(), name)) {
        return there->id;
    }
    Reel reel;
    reel.name = name;
    return plan.add(std::move(reel));
}

std::optional<SectionRecords> putSection(
    EditPlan& plan,
    Id<Water> water,
    const PageSection& section,
    const std::vector<std::string>& labels,
    const FormerVisit& former) {
    if (section.swim.empty() || !section.date) {
        return std::nullopt;
    }
    const Id<Swim> swim = swimNamed(plan, water, section.swim);
    Visit visit = visitFor(plan, swim, *section.date, former);
    const bool itsOwn = !visit.id.isValid() || (visit.id == former.visit && !former.shared);
    sayHeaders(visit, section, !itsOwn);
    if (!section.reel.empty() || itsOwn) {
        visit.reel =
            section.reel.empty() ? std::nullopt : std::optional(reelNamed(plan, section.reel));
    }
    if (!visit.id.isValid()) {
        visit.id = plan.newId<Visit>();
    }
    SectionRecords records{.visit = visit.id, .aims = {}};
    plan.put(std::move(visit));
    AimPutter(plan, water, former, records).run(section, labels);
    return records;
}

} // namespace bedlore
