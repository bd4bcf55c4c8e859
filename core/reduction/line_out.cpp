// SPDX-License-Identifier: MIT
#include "core/reduction/line_out.hpp"

#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <cmath>

namespace bedlore {

Length wrapOf(const Visit& visit) {
    Length spacing = usual::stickSpacing;
    if (visit.sticks) {
        spacing = fixedLength(*visit.sticks).value_or(spacing);
    }
    return visit.wrapCounts == WrapCounts::ThereAndBack ? 2.0 * spacing : spacing;
}

Result<MeasuredLine> lineOut(const Entered& count, const LineRules& rules) {
    if (const auto fixed = fixedLength(count)) {
        return MeasuredLine{.line = *fixed, .sigma = {}};
    }
    if (count.unit == Unit::Wrap) {
        return MeasuredLine{.line = count.number * rules.wrap, .sigma = {}};
    }
    if (count.unit == Unit::Turn) {
        if (!rules.spool) {
            return fail(inputError("Turns need a reel whose line a turn was measured: name the "
                                   "reel and give its turns over a known length."));
        }
        return rules.spool->lineOut(count.number);
    }
    return fail(inputError("\"" + count.text + "\" is not a length of line."));
}

Result<MeasuredLine> lineNearer(const Entered& count, LineOut last, const LineRules& rules) {
    Result<MeasuredLine> measured = fail(Error{});
    if (count.unit == Unit::Turn && rules.spool) {
        const auto before = rules.spool->turnsFor(last.length);
        if (!before) {
            return fail(before.error());
        }
        measured = rules.spool->lineOut(*before - count.number);
    } else {
        measured = lineOut(count, rules).map([&](MeasuredLine wound) {
            return MeasuredLine{.line = last.length - wound.line, .sigma = wound.sigma};
        });
    }
    if (measured && !(measured->line > Length{})) {
        return fail(inputError(
            "Winding in " + printEntered(count) + " would bring the lead past the rod tip."));
    }
    return measured;
}

Result<GroundDistance> groundDistance(LineOut line, Length drop) {
    const double l = line.length.si();
    const double d = drop.si();
    if (!(l > std::abs(d))) {
        return fail(
            inputError("The line is shorter than the way from the rod tip down to the bed."));
    }
    return GroundDistance{std::sqrt(l * l - d * d) * metre};
}

LineOut lineFor(GroundDistance range, Length drop) {
    return LineOut{std::hypot(range.length.si(), drop.si()) * metre};
}

} // namespace bedlore
