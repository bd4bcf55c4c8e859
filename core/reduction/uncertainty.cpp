// SPDX-License-Identifier: MIT
#include "core/reduction/uncertainty.hpp"

#include "core/base/overloaded.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

namespace bedlore {

namespace {

std::optional<Angle> saidError(const Visit& visit) {
    const bool usable = visit.bearingError && visit.bearingError->unit == Unit::Degree &&
                        visit.bearingError->number > 0.0;
    return usable ? std::optional(visit.bearingError->number * degree) : std::nullopt;
}

Angle typedBearingSigma(BearingSource source) {
    switch (source) {
    case BearingSource::Unsaid:
    case BearingSource::SightingCompass:
    case BearingSource::Map:
        return usual::aimTyped;
    case BearingSource::Mark:
    case BearingSource::Photo:
        return usual::aimAtMark;
    case BearingSource::Phone:
        return usual::aimByPhone;
    case BearingSource::Guess:
        return usual::aimGuessed;
    }
    return usual::aimTyped;
}

Angle usualRotation(BearingSource source) {
    switch (source) {
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

} // namespace

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
    static constexpr std::array<double, 2> halves{1.0, 0.5};
    static constexpr std::array<double, 4> feet{1.0, 0.5, 0.25, 1.0 / 12.0};
    static constexpr std::array<double, 4> metres{1.0, 0.5, 0.1, 0.01};
    static constexpr std::array<double, 2> centimetres{10.0, 1.0};
    if (unit == Unit::Wrap) {
        return wraps;
    }
    if (unit == Unit::Foot) {
        return feet;
    }
    if (unit == Unit::Metre) {
        return metres;
    }
    if (unit == Unit::Centimetre) {
        return centimetres;
    }
    return halves;
}

Angle aimSigma(const Visit& visit, const AimBasis& basis) {
    if (const auto said = saidError(visit)) {
        return *said;
    }
    return std::visit(
        Overloaded{
            [](const AimWithoutAngle&) { return usual::aimGuessed; },
            [](const AimAtMark& aim) {
                const bool byHand = aim.offset && aim.offset->unit != Unit::Degree;
                return byHand ? usual::aimByHand : usual::aimAtMark;
            },
            [&](const AimAtBearing&) { return typedBearingSigma(visit.bearingSource); },
            [](const AimFromAim& aim) {
                return aim.offset.unit == Unit::Degree ? usual::aimTyped : usual::aimByHand;
            },
            [](const AimAtClock&) { return usual::aimGuessed; },
            [](const AimLeftOf&) { return usual::aimGuessed; }},
        basis);
}

Angle rotationSigma(const Visit& visit) {
    const Angle usualOne = usualRotation(visit.bearingSource);
    return std::min(usualOne, saidError(visit).value_or(usualOne));
}

Length countSigma(const Reading& reading) {
    double sigma = usual::line.si();
    sigma *= reading.about ? usual::aboutFactor : 1.0;
    sigma /= std::sqrt(static_cast<double>(std::max(reading.agreeing, 1)));
    return sigma * metre;
}

} // namespace bedlore
