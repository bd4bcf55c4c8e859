// SPDX-License-Identifier: MIT
#include "core/reduction/line_out.hpp"

#include "core/reduction/uncertainty.hpp"
#include "core/units/format.hpp"

#include <cmath>
#include <string>

namespace bedlore {

namespace {

std::string asTyped(const Entered& count) {
    return count.text.empty() ? printEntered(count) : count.text;
}

Result<MeasuredLine> measured(const Entered& count, const LineRules& rules) {
    if (const auto fixed = fixedLength(count)) {
        return MeasuredLine{.line = *fixed, .sigma = {}};
    }
    if (count.unit == Unit::Wrap) {
        return MeasuredLine{.line = count.number * rules.wrap, .sigma = {}};
    }
    if (count.unit == Unit::Turn) {
        if (!rules.spool) {
            return fail(inputError(
                "\"" + asTyped(count) +
                "\" is in turns, which need a reel that was measured: name the reel, and give its "
                "turns over a length that you know."));
        }
        return rules.spool->lineOut(count.number);
    }
    return fail(inputError("\"" + asTyped(count) + "\" is not a length of line."));
}

} // namespace

Length wrapOf(const Visit& visit) {
    Length spacing = usual::stickSpacing;
    if (visit.sticks) {
        spacing = fixedLength(*visit.sticks).value_or(spacing);
    }
    return visit.wrapCounts == WrapCounts::ThereAndBack ? 2.0 * spacing : spacing;
}

Result<MeasuredLine> lineOut(const Entered& count, const LineRules& rules) {
    auto line = measured(count, rules);
    if (line && !(line->line >= Length{})) {
        return fail(inputError("\"" + asTyped(count) + "\" is not a length of line."));
    }
    if (line && !(line->line <= longestLine)) {
        return fail(inputError(
            "\"" + asTyped(count) + "\" is " + printLength(line->line, Unit::Metre) +
            " of line, which is more than any cast from the bank."));
    }
    return line;
}

Result<MeasuredLine> lineNearer(const Entered& count, LineOut last, const LineRules& rules) {
    Result<MeasuredLine> left = fail(Error{});
    if (count.unit == Unit::Turn && rules.spool) {
        const auto before = rules.spool->turnsFor(last.length);
        if (!before) {
            return fail(before.error());
        }
        const double after = *before - count.number;
        constexpr double lastTurn = 1e-6; // rounding of the way there and back
        left = after > lastTurn ? rules.spool->lineOut(after) : MeasuredLine{};
    } else {
        left = lineOut(count, rules).map([&](const MeasuredLine& wound) {
            return MeasuredLine{.line = last.length - wound.line, .sigma = wound.sigma};
        });
    }
    if (left && !(left->line > Length{})) {
        return fail(inputError(
            "Winding in " + printEntered(count) + " would bring the lead past the rod tip."));
    }
    return left;
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
