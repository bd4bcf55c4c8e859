// SPDX-License-Identifier: MIT
#include "core/chart/sharing.hpp"

#include "core/base/contract.hpp"

namespace bedlore {

std::string_view word(SharingTier tier) {
    switch (tier) {
    case SharingTier::Depth:
        return "depth";
    case SharingTier::Bottom:
        return "bottom";
    case SharingTier::All:
        return "all";
    }
    BEDLORE_EXPECTS(false && "every tier has a word");
    return {};
}

std::optional<SharingTier> sharingTierFrom(std::string_view text) {
    for (const SharingTier tier : {SharingTier::Depth, SharingTier::Bottom, SharingTier::All}) {
        if (text == word(tier)) {
            return tier;
        }
    }
    return std::nullopt;
}

} // namespace bedlore
