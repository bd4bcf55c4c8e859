// SPDX-License-Identifier: MIT
#pragma once

#include "core/reduction/notes.hpp"
#include "core/units/length.hpp"

#include <map>

// How finely a man wrote his numbers on one day.

namespace bedlore {

/// The steps that a visit's numbers were rounded to, for each unit, lengths of line and depths
/// apart: "28, 27, 26" says whole wraps, one "26¾" among them says quarters.
class VisitRounding {
public:
    explicit VisitRounding(const VisitNotes& notes);

    /// The error of rounding a length of line (1 sd), where one of `unit` is `unitLength` long.
    [[nodiscard]] Length lineSigma(Unit unit, Length unitLength) const;
    [[nodiscard]] Length depthSigma(Unit unit, Length unitLength) const;

private:
    std::map<Unit, double> lineSteps_;
    std::map<Unit, double> depthSteps_;
};

} // namespace bedlore
