// SPDX-License-Identifier: MIT
#include "core/book/page_felt.hpp"

#include "core/base/overloaded.hpp"

#include <algorithm>
#include <optional>
#include <variant>

namespace bedlore {

namespace {

template <class Kind>
bool fill(std::optional<Kind>& field, Kind kind) {
    if (!field) {
        field = kind;
    }
    return field == kind;
}

/// "D donk": a hard drop, and which kind of it.
bool fillDrop(std::optional<Drop>& field, Drop kind) {
    const auto isFirm = [](Drop drop) {
        return drop == Drop::Crack || drop == Drop::Donk || drop == Drop::Thud;
    };
    if (field == Drop::Hard && isFirm(kind)) {
        field = kind;
    }
    return fill(field, kind) || (kind == Drop::Hard && isFirm(*field));
}

/// Hard or soft without a kind: said beside a kind it is how the lead dropped there.
std::optional<Drop> dropOfVague(Substrate kind) {
    switch (kind) {
    case Substrate::Hard:
        return Drop::Hard;
    case Substrate::Soft:
        return Drop::Soft;
    default:
        return std::nullopt;
    }
}

/// "gr", "gr si" (an edge between two), "si soft" and "soft si" (silt that dropped soft).
bool addSubstrate(Reading& reading, Substrate kind) {
    auto& first = reading.substrate;
    if (!first || first == kind) {
        first = kind;
        return true;
    }
    const auto vague = dropOfVague(kind);
    const auto firstVague = dropOfVague(*first);
    if (vague && !firstVague && fillDrop(reading.drop, *vague)) {
        return true;
    }
    if (firstVague && !vague && fillDrop(reading.drop, *firstVague)) {
        first = kind;
        return true;
    }
    return fill(reading.otherSubstrate, kind);
}

} // namespace

bool addFelt(Reading& reading, const Felt& felt) {
    return std::visit(
        Overloaded{
            [&](Substrate kind) { return addSubstrate(reading, kind); },
            [&](Cover kind) { return fill(reading.cover, kind); },
            [&](Drop kind) { return fillDrop(reading.drop, kind); },
            [&](Pull kind) { return fill(reading.pull, kind); },
            [&](OnLead kind) {
                auto& onLead = reading.onLead;
                if (std::find(onLead.begin(), onLead.end(), kind) == onLead.end()) {
                    onLead.push_back(kind);
                }
                return true;
            },
            [&](Outcome kind) { return fill(reading.outcome, kind); }},
        felt);
}

} // namespace bedlore
