// SPDX-License-Identifier: MIT
#include "core/reduction/uncertainty.hpp"

#include "core/base/overloaded.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace bedlore {

double roundingStep(std::span<const double> numbers, std::span<const double> steps) {
    const auto isMultiple = [](double number, double step) {
        const double count = number / step;
        return std::abs(count - std::round(count)) < 1e-6;
    };
    for (const double step : steps) {
        if (std::all_of(numbers.begin(), numbers.end(), [&](double number) {
                return isMultiple(number, step);
            })) {
            return step;
        }
    }
    return steps.back();
}

std::span<const double> usualSteps(Unit unit) {
    static constexpr std::array<double, 3> wraps{1.0, 0.5, 0.25};
    static constexpr std::array<double, 2> counts{1.0, 0.5};
    static constexpr std::array<double, 4> feet{1.0, 0.5, 0.25, 1.0 / 12.0};
    static constexpr std::array<double, 4> metres{1.0, 0.5, 0.1, 0.01};
    static constexpr std::array<double, 2> centimetres{10.0, 1.0};
    switch (unit) {
    case Unit::Wrap:
        return wraps;
    case Unit::Foot:
        return feet;
    case Unit::Metre:
        return metres;
    case Unit::Centimetre:
        return centimetres;
    default:
        return counts;
    }
}

Angle aimSigma(const Visit& visit, const AimBasis& basis) {
    if (visit.bearingError && visit.bearingError->unit == Unit::Degree &&
        visit.bearingError->number > 0.0) {
        return visit.bearingError->number * degree;
    }
    return std::visit(
        Overloaded{
            [](const AimWithoutAngle&) { return usual::aimGuessed; },
            [](const AimAtMark&) { return usual::aimAtMark; },
            [](const AimAtBearing&) { return usual::aimTyped; },
            [](const AimFromAim& aim) {
                return aim.offset.unit == Unit::Degree ? usual::aimTyped : usual::aimByHand;
            },
            [](const AimAtClock&) { return usual::aimGuessed; },
            [](const AimLeftOf&) { return usual::aimGuessed; }},
        basis);
}

Angle rotationSigma(const Visit& visit) {
    switch (visit.bearingSource) {
    case BearingSource::SightingCompass:
        return usual::rotationByCompass;
    case BearingSource::Phone:
        return usual::rotationByPhone;
    case BearingSource::Unsaid:
    case BearingSource::Mark:
    case BearingSource::Photo:
    case BearingSource::Map:
    case BearingSource::Guess:
        return usual::rotation;
    }
    return usual::rotation;
}

} // namespace bedlore
