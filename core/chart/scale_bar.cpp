// SPDX-License-Identifier: MIT
#include "core/chart/scale_bar.hpp"

#include "core/base/contract.hpp"
#include "core/units/format.hpp"

#include <cmath>

namespace bedlore {

namespace {

struct RoundNumber {
    double lead = 1.0; ///< 1, 2 or 5
    double ten = 1.0;  ///< a power of ten
};

RoundNumber roundNumber(double atMost) {
    // A hair's tolerance, so that a bar of exactly 50 is not taken for one of 49.999.
    const double most = atMost * (1.0 + 1e-9);
    const double ten = std::pow(10.0, std::floor(std::log10(most)));
    return {.lead = most / ten >= 5.0 ? 5.0 : most / ten >= 2.0 ? 2.0 : 1.0, .ten = ten};
}

} // namespace

double roundAtMost(double most) {
    BEDLORE_EXPECTS(most > 0.0 && std::isfinite(most));
    const RoundNumber round = roundNumber(most);
    return round.lead * round.ten;
}

ScaleBar scaleBarFor(Length longest, Unit unit) {
    BEDLORE_EXPECTS(longest > Length{} && std::isfinite(longest.si()));
    const Length one = unit == Unit::Yard ? yard : unit == Unit::Foot ? foot : metre;
    const Unit written = unit == Unit::Yard || unit == Unit::Foot ? unit : Unit::Metre;
    const RoundNumber round = roundNumber(longest / one);
    const double number = round.lead * round.ten;
    return {
        .length = number * one,
        .parts = round.lead == 5.0 ? 5 : 4,
        .label = printLength(number * one, written, number)};
}

} // namespace bedlore
