// SPDX-License-Identifier: MIT
#include "core/reduction/depth_reading.hpp"

#include "core/base/contract.hpp"
#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <cmath>

namespace bedlore {

namespace {

Result<Length> depthLength(const Entered& entered, const Visit& visit) {
    if (const auto fixed = fixedLength(entered)) {
        return *fixed;
    }
    if (entered.unit == Unit::Pull) {
        const auto pull = visit.floatRig ? fixedLength(visit.floatRig->pull) : std::nullopt;
        const auto offset = visit.floatRig ? fixedLength(visit.floatRig->offset) : std::nullopt;
        if (!pull || !offset) {
            return fail(inputError("Pulls need the float's pull length and rig, as in "
                                   "\"float pulls 12 in + 12 in\"."));
        }
        return entered.number * *pull + *offset;
    }
    return fail(inputError("\"" + entered.text + "\" is not a depth."));
}

} // namespace

Length depthUnit(Unit unit, const Visit& visit) {
    if (unit == Unit::Pull) {
        const auto pull = visit.floatRig ? fixedLength(visit.floatRig->pull) : std::nullopt;
        return pull.value_or(foot);
    }
    return fixedLength(Entered{1.0, unit, {}}).value_or(foot);
}

Result<MeasuredDepth> measuredDepth(const Reading& reading, const Visit& visit) {
    BEDLORE_EXPECTS(reading.depth.has_value());
    const DepthEntry& entry = *reading.depth;
    const auto from = depthLength(entry.value, visit);
    if (!from) {
        return fail(from.error());
    }
    Length depth = *from;
    double between = 0.0;
    if (entry.to) {
        const auto to = depthLength(*entry.to, visit);
        if (!to) {
            return fail(to.error());
        }
        between = (*to - *from).si();
        depth = 0.5 * (*from + *to);
    }
    double own = std::hypot(usual::depth.si(), usual::depthShare * depth.si());
    own *= entry.about ? 2.0 : 1.0;
    own *= reading.sureness == 1 ? 1.5 : 1.0;
    const double sigma = std::sqrt(own * own + between * between / 12.0);
    return MeasuredDepth{.depth = {depth}, .sigma = sigma * metre};
}

} // namespace bedlore
