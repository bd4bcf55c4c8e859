// SPDX-License-Identifier: MIT
#include "gui/document/display_units.hpp"

#include "core/units/format.hpp"

#include <cmath>

namespace bedlore {

Unit sheetUnit(const DisplayUnits& units) {
    return units.distance == Unit::Wrap ? Unit::Yard : units.distance;
}

Length distanceUnitLength(const DisplayUnits& units, Length wrap) {
    switch (units.distance) {
    case Unit::Wrap:
        return wrap;
    case Unit::Yard:
        return yard;
    case Unit::Foot:
        return foot;
    default: // metres are what is left to choose
        return metre;
    }
}

std::string printDistance(Length line, const DisplayUnits& units, Length wrap) {
    if (units.distance != Unit::Wrap) {
        return printLength(line, units.distance);
    }
    // A quarter is the finest step that he speaks in.
    const double wraps = std::round(line / wrap * 4.0) / 4.0;
    return printEntered({.number = wraps, .unit = Unit::Wrap});
}

} // namespace bedlore
