// SPDX-License-Identifier: MIT
#pragma once

#include "core/units/entered.hpp"

#include <string>
#include <vector>

// Which depths get a contour line.

namespace bedlore {

/// One contour's depth. `label` is what is written on it where `labelled` ("10", "2½"); `bold` ones
/// are drawn heavier.
struct ContourLevel {
    double depth = 0.0; ///< [m] below the surface at the chosen level
    std::string label;
    bool bold = false;
    bool labelled = false;
    friend bool operator==(const ContourLevel&, const ContourLevel&) = default;
};

/// Depths of the contours, rising, `step` apart in `unit` (foot or metre).
struct LevelTable {
    Unit unit = Unit::Metre;
    double step = 1.0;
    std::vector<ContourLevel> levels;
    friend bool operator==(const LevelTable&, const LevelTable&) = default;
};

/// A table for a bed from `shallowest` to `deepest` [m]: the finest of the usual steps (¼, ½, 1, 2,
/// 5 … m; 1, 2, 5 … ft) that gives at most `most` lines. Levels lie strictly between the two ends.
/// At least one line in any table is labelled; with few lines all are. `unit` other than foot means
/// metre. Empty when the ends are not finite or not in order.
[[nodiscard]] LevelTable levelsFor(double shallowest, double deepest, Unit unit, int most = 20);

} // namespace bedlore
