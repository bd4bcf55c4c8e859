// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/units/entered.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// Rods, reels and the habits that change a length.

namespace bedlore {

enum class RodRole : std::uint8_t { Marker, Bait, Fishing };

/// `standing` is where this rod is cast from, along the bank from the swim's place, right positive.
struct Rod {
    Id<Rod> id;
    std::string name;
    RodRole role = RodRole::Fishing;
    std::optional<Entered> standing;
    std::optional<Entered> length;
    std::string note;
    friend bool operator==(const Rod&, const Rod&) = default;
};

/// Turns to wind in until the lead is at the tip, and the measured length from the tip.
struct CalibrationPair {
    double turns = 0.0;
    Entered distance;
    friend bool operator==(const CalibrationPair&, const CalibrationPair&) = default;
};

/// What a reel gives a turn by its own dimensions, where he knows them instead of having measured.
struct SpoolDimensions {
    Entered fullDiameter;
    double gearRatio = 0.0;
    Entered lineDiameter;
    Entered traverse;
    double packing = 0.75;
    friend bool operator==(const SpoolDimensions&, const SpoolDimensions&) = default;
};

struct Reel {
    Id<Reel> id;
    std::string name;
    std::string lineType;
    std::vector<CalibrationPair> calibration;
    std::optional<SpoolDimensions> spool;
    std::string note;
    friend bool operator==(const Reel&, const Reel&) = default;
};

/// Where the rod is when a length is taken. Mixing two habits moves a spot by half a wrap to more
/// than one.
enum class RodPosition : std::uint8_t { Unsaid, InTheRest, PointedAtLead, AtRelease, Other };
enum class StickStart : std::uint8_t { Unsaid, TipAtStick, ClipAtStick };

/// His own allowance between a marker's length and a rod's, for a band of depths.
struct Allowance {
    Entered depthFrom;
    Entered depthTo;
    Entered add;
    friend bool operator==(const Allowance&, const Allowance&) = default;
};

struct Kit {
    Id<Kit> id;
    std::string name;
    std::string lead;
    std::string leader;
    std::optional<Entered> farthestCast;
    std::vector<Allowance> allowances;
    RodPosition whenClipping = RodPosition::Unsaid;
    StickStart whenWrapping = StickStart::Unsaid;
    RodPosition whenHitting = RodPosition::Unsaid;
    std::string note;
    friend bool operator==(const Kit&, const Kit&) = default;
};

} // namespace bedlore
