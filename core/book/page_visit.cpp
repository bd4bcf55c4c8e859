// SPDX-License-Identifier: MIT
#include "core/book/page_visit.hpp"

#include "core/base/overloaded.hpp"
#include "core/book/page_header.hpp"
#include "core/book/shorthand.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

void addLabel(std::vector<std::string>& labels, const std::string& label) {
    if (!label.empty() && std::find(labels.begin(), labels.end(), label) == labels.end()) {
        labels.push_back(label);
    }
}

template <class T>
void overlay(std::optional<T>& field, const std::optional<T>& said) {
    if (said) {
        field = said;
    }
}

/// What a second section of the same visit adds.
void addSection(PageSection& all, const PageSection& more) {
    overlay(all.visit.level, more.visit.level);
    overlay(all.visit.bareDistance, more.visit.bareDistance);
    overlay(all.visit.bareDepth, more.visit.bareDepth);
    overlay(all.visit.floatRig, more.visit.floatRig);
    overlay(all.visit.tipHeight, more.visit.tipHeight);
    if (more.visit.sticks) {
        all.visit.sticks = more.visit.sticks;
        all.visit.wrapCounts = more.visit.wrapCounts;
    }
    if (more.visit.bearingSource != BearingSource::Unsaid) {
        all.visit.bearingSource = more.visit.bearingSource;
    }
    if (!more.visit.note.empty()) {
        all.visit.note += (all.visit.note.empty() ? "" : "\n") + more.visit.note;
    }
    if (!more.reel.empty()) {
        all.reel = more.reel;
    }
    for (const AimDraft& aim : more.aims) {
        const auto same = std::find_if(all.aims.begin(), all.aims.end(), [&](const AimDraft& a) {
            return a.label == aim.label;
        });
        if (same == all.aims.end()) {
            all.aims.push_back(aim);
        } else {
            *same = aim;
        }
    }
}

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

Id<Swim> swimNamed(
    EditPlan& plan, Id<Water> water, const std::string& name, std::vector<std::string>& notices) {
    if (const Swim* there = findSwim(plan.book(), water, name)) {
        return there->id;
    }
    notices.push_back("Swim " + name + " is new to this water; it has no place yet.");
    Swim swim;
    swim.water = water;
    swim.name = name;
    return plan.add(std::move(swim));
}

std::string words(const Entered& value) {
    return printEntered(value);
}
std::string words(const FloatRig& rig) {
    return "pulls of " + printEntered(rig.pull) + " + " + printEntered(rig.offset);
}
std::string words(Unit unit) {
    return std::string(unitName(unit));
}

/// Puts what a page says on a visit, field by field.
class HeaderPutter {
public:
    HeaderPutter(
        const SaidOfVisit& now, const VisitBefore& before, std::vector<std::string>& notices)
        : now_(now.section)
        , before_(before.said != nullptr ? before.said->section : PageSection{})
        , shared_(before.shared)
        , notices_(notices) {}

    void run(Visit& visit) {
        const std::optional<Entered> sticksWere = visit.sticks;
        say("level", visit.level, &Visit::level);
        say("sticks", visit.sticks, &Visit::sticks);
        say("bare distances", visit.bareDistance, &Visit::bareDistance);
        say("bare depths", visit.bareDepth, &Visit::bareDepth);
        say("float", visit.floatRig, &Visit::floatRig);
        say("rod tip", visit.tipHeight, &Visit::tipHeight);
        sayPlain(visit.bearingSource, &Visit::bearingSource);
        sayPlain(visit.note, &Visit::note);
        const bool countsAnew = now_.visit.wrapCounts != before_.visit.wrapCounts;
        if (visit.sticks != sticksWere || (now_.visit.sticks && countsAnew)) {
            visit.wrapCounts = now_.visit.wrapCounts;
        }
    }

private:
    /// Only what the page says otherwise than before counts: what somebody else changed since then
    /// is newer.
    template <class T>
    void say(const char* name, std::optional<T>& field, std::optional<T> Visit::*said) {
        const std::optional<T>& now = now_.visit.*said;
        const std::optional<T>& before = before_.visit.*said;
        if (now == before) {
            return;
        }
        if (shared_ && field && now && field != now) {
            notices_.push_back(
                "The visit to " + now_.swim + " on " + printDate(*now_.date) + " had " + name +
                " " + words(*field) + "; this page says " + words(*now) +
                ", which now counts for the whole visit.");
        }
        if (now || (!shared_ && field == before)) {
            field = now;
        }
    }

    template <class T>
    void sayPlain(T& field, T Visit::*said) {
        const T& now = now_.visit.*said;
        const T& before = before_.visit.*said;
        if (now != before && (now != T{} || (!shared_ && field == before))) {
            field = now;
        }
    }

    const PageSection& now_;
    PageSection before_;
    bool shared_;
    std::vector<std::string>& notices_;
};

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

/// Puts the aims that a page defines or only uses. An aim that is there and that the page never
/// defined keeps what others said of it.
class AimPutter {
public:
    AimPutter(
        EditPlan& plan,
        Id<Water> water,
        const VisitBefore& before,
        VisitRecords& records,
        std::vector<std::string>& notices)
        : plan_(plan)
        , water_(water)
        , before_(before)
        , records_(records)
        , notices_(notices) {}

    void run(const SaidOfVisit& now) {
        // All aims are there before any hangs on another.
        for (const std::string& label : now.labels) {
            ensure(label);
        }
        const std::vector<int> orders = ordersFor(now.labels);
        for (std::size_t i = 0; i < now.labels.size(); ++i) {
            const std::string& label = now.labels[i];
            Aim aim = plan_.book().get(records_.aims.at(label));
            const auto& drafts = now.section.aims;
            const auto draft = std::find_if(
                drafts.begin(), drafts.end(), [&](const AimDraft& d) { return d.label == label; });
            // What somebody else made of an aim since the page last spoke of it is newer.
            const bool says = draft != drafts.end();
            if (says && !(aim.order > 0 && saysTheSame(*draft))) {
                noteConflict(aim, *draft);
                aim.basis = basisOf(plan_, water_, *draft, records_.aims);
                aim.text = draft->text;
            } else if (!says && draftBefore(label) != nullptr && !before_.shared) {
                aim.basis = AimWithoutAngle{};
                aim.text.clear();
            }
            aim.order = orders[i];
            plan_.put(std::move(aim));
        }
    }

private:
    void ensure(const std::string& label) {
        if (const Aim* there = aimLabelled(plan_.book(), records_.visit, label)) {
            records_.aims.emplace(label, there->id);
            return;
        }
        Aim aim;
        aim.visit = records_.visit;
        aim.label = label;
        records_.aims.emplace(label, plan_.add(std::move(aim)));
    }

    [[nodiscard]] bool saidBefore(const std::string& label) const {
        const auto* said = before_.said;
        return said != nullptr &&
               std::find(said->labels.begin(), said->labels.end(), label) != said->labels.end();
    }
    void noteConflict(const Aim& aim, const AimDraft& draft) {
        if (before_.shared && !aim.text.empty() && aim.text != draft.text) {
            notices_.push_back(
                "Aim " + aim.label + " of that visit was \"" + aim.text + "\"; this page says \"" +
                draft.text + "\", which now counts.");
        }
    }

    [[nodiscard]] const AimDraft* draftBefore(const std::string& label) const {
        if (before_.said == nullptr) {
            return nullptr;
        }
        const auto& drafts = before_.said->section.aims;
        const auto found = std::find_if(
            drafts.begin(), drafts.end(), [&](const AimDraft& d) { return d.label == label; });
        return found == drafts.end() ? nullptr : &*found;
    }
    [[nodiscard]] bool saysTheSame(const AimDraft& draft) const {
        const AimDraft* before = draftBefore(draft.label);
        return before != nullptr && before->text == draft.text &&
               before->basis.index() == draft.basis.index();
    }

    /// 1, 2, 3 … on a visit of the page's own. Where others have aims on it, all keep their places
    /// and new ones come last.
    [[nodiscard]] std::vector<int> ordersFor(const std::vector<std::string>& labels) const {
        int last = 0;
        bool alone = true;
        for (const Aim* aim : aimsOf(plan_.book(), records_.visit)) {
            last = std::max(last, aim->order);
            const bool isNow = std::find(labels.begin(), labels.end(), aim->label) != labels.end();
            const bool isNew = aim->order == 0;
            alone = alone && (saidBefore(aim->label) || (isNow && isNew));
        }
        std::vector<int> places;
        for (std::size_t i = 0; i < labels.size(); ++i) {
            const int place = plan_.book().get(records_.aims.at(labels[i])).order;
            places.push_back(alone ? static_cast<int>(i) + 1 : place > 0 ? place : ++last);
        }
        return places;
    }

    EditPlan& plan_;
    Id<Water> water_;
    const VisitBefore& before_;
    VisitRecords& records_;
    std::vector<std::string>& notices_;
};

} // namespace

SaidByPage saidByPage(const PageMeaning& meaning) {
    SaidByPage said;
    std::map<std::pair<std::string, Date>, std::size_t> known;
    for (std::size_t i = 0; i < meaning.sections.size(); ++i) {
        const PageSection& section = meaning.sections[i];
        const bool waits = section.swim.empty() || !section.date;
        const auto next = said.visits.size();
        const auto at = waits ? next
                              : known.emplace(std::pair(lowered(section.swim), *section.date), next)
                                    .first->second;
        if (at == next) {
            said.visits.push_back({.section = section, .labels = {}, .firstSection = i});
        } else {
            addSection(said.visits[at].section, section);
        }
        said.visitOfSection.push_back(at);
    }
    for (SaidOfVisit& visit : said.visits) {
        for (const AimDraft& aim : visit.section.aims) {
            addLabel(visit.labels, aim.label);
        }
    }
    for (const CastDraft& cast : meaning.casts) {
        addLabel(said.visits[said.visitOfSection[cast.section]].labels, cast.aim);
    }
    for (const SpotDraft& spot : meaning.spots) {
        addLabel(said.visits[said.visitOfSection[spot.section]].labels, spot.aim);
    }
    return said;
}

const Aim* aimLabelled(const Book& book, Id<Visit> visit, const std::string& label) {
    for (const Aim& aim : book.all<Aim>()) {
        if (aim.visit == visit && aim.label == label) {
            return &aim;
        }
    }
    return nullptr;
}

Id<Reel> reelNamed(EditPlan& plan, const std::string& name, std::vector<std::string>& notices) {
    if (const Reel* there = findReel(plan.book(), name)) {
        return there->id;
    }
    notices.push_back("Reel " + name + " is new; its turns were never measured.");
    Reel reel;
    reel.name = name;
    return plan.add(std::move(reel));
}

VisitRecords putVisit(
    EditPlan& plan,
    Id<Water> water,
    const SaidOfVisit& now,
    const VisitBefore& before,
    std::vector<std::string>& notices) {
    const PageSection& section = now.section;
    const Id<Swim> swim = swimNamed(plan, water, section.swim, notices);
    Visit visit;
    if (const Visit* there = findVisit(plan.book(), swim, *section.date)) {
        visit = *there;
    } else if (before.renamed) {
        visit = plan.book().get(*before.renamed);
    }
    visit.swim = swim;
    visit.date = *section.date;
    HeaderPutter(now, before, notices).run(visit);
    const std::string reelBefore = before.said != nullptr ? before.said->section.reel : "";
    if (section.reel != reelBefore && !section.reel.empty()) {
        visit.reel = reelNamed(plan, section.reel, notices);
    } else if (section.reel != reelBefore && !before.shared) {
        visit.reel.reset();
    }
    if (!visit.id.isValid()) {
        visit.id = plan.newId<Visit>();
    }
    VisitRecords records{.visit = visit.id, .aims = {}};
    plan.put(std::move(visit));
    AimPutter(plan, water, before, records, notices).run(now);
    return records;
}

void leaveVisit(EditPlan& plan, Id<Visit> id, const VisitBefore& before) {
    const Visit* there = plan.book().find(id);
    if (there == nullptr || before.shared || before.said == nullptr) {
        return;
    }
    Visit visit = *there;
    const SaidOfVisit nothing;
    std::vector<std::string> notices;
    HeaderPutter(nothing, before, notices).run(visit);
    if (!before.said->section.reel.empty()) {
        visit.reel.reset();
    }
    Visit bare;
    bare.id = visit.id;
    bare.swim = visit.swim;
    bare.date = visit.date;
    const bool gone = visit == bare && plan.removeIfUnused(id);
    if (!gone) {
        plan.put(std::move(visit));
    }
}

} // namespace bedlore
