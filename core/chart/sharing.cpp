// SPDX-License-Identifier: MIT
#include "core/chart/sharing.hpp"

#include "core/base/contract.hpp"

#include <cmath>

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

GridFrame frameToShare(const GridFrame& frame, const LocalFrame& plane) {
    if (frame.size() == 0 || !plane.hasOrigin()) {
        return frame;
    }
    const double cell = frame.cell;
    const Point centre{
        frame.west + 0.5 * cell * frame.columns, frame.north - 0.5 * cell * frame.rows};
    const Point shift = plane.neutralAbout(centre).shift;
    const double west = frame.west + shift.east;
    const double north = frame.north + shift.north;
    const double firstColumn = std::floor(west / cell);
    const double lastColumn = std::ceil(west / cell + frame.columns);
    const double firstRow = std::ceil(north / cell);
    const double lastRow = std::floor(north / cell - frame.rows);
    return {
        .west = firstColumn * cell - shift.east,
        .north = firstRow * cell - shift.north,
        .cell = cell,
        .rows = static_cast<int>(firstRow - lastRow),
        .columns = static_cast<int>(lastColumn - firstColumn)};
}

GridFrame frameAtTier(const GridFrame& frame, const LocalFrame& plane, SharingTier tier) {
    return tier == SharingTier::All ? frame : frameToShare(frame, plane);
}

} // namespace bedlore
