// SPDX-License-Identifier: MIT
#include "core/reduction/rounding.hpp"

#include "core/reduction/uncertainty.hpp"

#include <cmath>
#include <vector>

namespace bedlore {

namespace {

using Numbers = std::map<Unit, std::vector<double>>;

std::map<Unit, double> stepsOf(const Numbers& numbers) {
    std::map<Unit, double> steps;
    for (const auto& [unit, ofUnit] : numbers) {
        steps[unit] = roundingStep(ofUnit, usualSteps(unit));
    }
    return steps;
}

/// A number rounded to a step q lies anywhere within it: sd q/√12.
Length uniformSigma(const std::map<Unit, double>& steps, Unit unit, Length unitLength) {
    const auto step = steps.find(unit);
    return step == steps.end() ? Length{} : step->second / std::sqrt(12.0) * unitLength;
}

} // namespace

VisitRounding::VisitRounding(const VisitNotes& notes) {
    Numbers lines;
    Numbers depths;
    for (const CastNotes& cast : notes.casts) {
        for (const Reading* reading : cast.readings) {
            lines[reading->from.unit].push_back(reading->from.number);
            if (reading->to) {
                lines[reading->to->unit].push_back(reading->to->number);
            }
            if (reading->depth) {
                depths[reading->depth->value.unit].push_back(reading->depth->value.number);
            }
        }
    }
    lineSteps_ = stepsOf(lines);
    depthSteps_ = stepsOf(depths);
}

Length VisitRounding::lineSigma(Unit unit, Length unitLength) const {
    return uniformSigma(lineSteps_, unit, unitLength);
}

Length VisitRounding::depthSigma(Unit unit, Length unitLength) const {
    return uniformSigma(depthSteps_, unit, unitLength);
}

} // namespace bedlore
