// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/angle.hpp"
#include "core/units/length.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <iomanip>

// Matchers that compare quantities and say both with their units.

namespace bedlore::testing {

MATCHER_P2(isWithin, tolerance, expected, "") {
    *result_listener << std::setprecision(12) << "which is " << arg.si() << " (SI), expected "
                     << expected.si() << " within " << tolerance.si();
    return std::abs(arg.si() - expected.si()) <= tolerance.si();
}

} // namespace bedlore::testing
