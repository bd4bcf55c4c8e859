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

} // namespace

bool addFelt(Reading& reading, const Felt& felt) {
    return std::visit(
        Overloaded{
            [&](Substrate kind) {
                return fill(reading.substrate, kind) || fill(reading.otherSubstrate, kind);
            },
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
