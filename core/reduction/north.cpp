// SPDX-License-Identifier: MIT
#include "core/reduction/north.hpp"

#include <cmath>

namespace bedlore {

NorthAt::NorthAt(
    const LocalFrame& frame, Point place, std::optional<GeographicPoint> position, Date date)
    : frame_(frame)
    , convergence_(frame.convergence(place)) {
    const auto onEarth = frame_.hasOrigin() ? std::optional(frame_.toGeographic(place)) : position;
    if (onEarth) {
        declination_ = declinationAt(*onEarth, date);
    }
}

Result<PlaneBearing> NorthAt::toPlane(const BearingEntry& entry) const {
    const Angle typed = entry.degrees.number * degree;
    if (!std::isfinite(typed.si())) {
        return fail(inputError("\"" + entry.degrees.text + "\" is not a bearing."));
    }
    switch (entry.north) {
    case North::Grid:
        return PlaneBearing(typed);
    case North::True:
        return PlaneBearing(typed - convergence_);
    case North::Magnetic:
        break;
    }
    if (!declination_) {
        return fail(inputError("A compass bearing needs the water's latitude and longitude."));
    }
    return PlaneBearing(typed + declination_->east - convergence_);
}

Result<PlaneBearing>
planeBearing(const BearingEntry& entry, const LocalFrame& frame, Point place, Date date) {
    return NorthAt(frame, place, std::nullopt, date).toPlane(entry);
}

} // namespace bedlore
