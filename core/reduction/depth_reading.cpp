// SPDX-License-Identifier: MIT
#include "core/reduction/depth_reading.hpp"

#include "core/base/contract.hpp"
#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <algorithm>
#include <cmath>
#include <string>

namespace bedlore {

namespace {

Result<Length> pullsToDepth(double pulls, const Visit& visit) {
    const auto pull = visit.floatRig ? fixedLength(visit.floatRig->pull) : std::nullopt;
    const auto offset = visit.floatRig ? fixedLength(visit.floatRig->offset) : std::nullopt;
    if (!pull || !offset) {
        return fail(inputError("Pulls need the float's pull length and rig, as in "
                               "\"float pulls 12 in + 12 in\"."));
    }
    return pulls * *pull + *offset;
}

Result<Length> depthLength(const Entered& entered, const Visit& visit) {
    if (entered.unit == Unit::Second) {
        return fail(inputError("Seconds counted down say no depth until a sink rate of his own "
                               "has been measured; they are kept as noted."));
    }
    if (entered.unit == Unit::Pull) {
        return pullsToDepth(entered.number, visit);
    }
    if (const auto fixed = fixedLength(entered)) {
        return *fixed;
    }
    const std::string typed = entered.text.empty() ? printEntered(entered) : entered.text;
    return fail(inputError("\"" + typed + "\" is not a depth."));
}

} // namespace

bool reachedTheBed(const Reading& reading) {
    return reading.outcome != Outcome::FloatNeverShowed && reading.outcome != Outcome::WeedTooThick;
}

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
    const auto to = entry.to ? depthLength(*entry.to, visit) : from;
    if (!to) {
        return fail(to.error());
    }
    const Length depth = 0.5 * (*from + *to);
    double own = std::hypot(usual::depth.si(), usual::depthShare * depth.si());
    own *= entry.about ? usual::aboutFactor : 1.0;
    own *= reading.sureness == 1 ? usual::doubtfulFactor : 1.0;
    own /= std::sqrt(static_cast<double>(std::max(reading.agreeing, 1)));
    const double between = (*to - *from).si() / std::sqrt(12.0);
    return MeasuredDepth{.depth = {depth}, .sigma = std::hypot(own, between) * metre};
}

} // namespace bedlore
