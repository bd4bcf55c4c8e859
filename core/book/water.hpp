// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/place.hpp"
#include "core/units/entered.hpp"

#include <optional>
#include <string>
#include <vector>

// A water, and how its level is read.

namespace bedlore {

/// Whether the number that he reads rises with the water (a gauge) or falls as it rises ("steps
/// showing").
enum class LevelCounts : std::uint8_t { UpWithWater, DownWithWater };

/// The object that he reads the level from, in his words.
struct LevelReference {
    std::string words;
    std::optional<Entered> stepHeight;
    LevelCounts counts = LevelCounts::UpWithWater;
    friend bool operator==(const LevelReference&, const LevelReference&) = default;
};

enum class ShoreKind : std::uint8_t { Bank, Island };

/// One closed line of the waterline, as drawn at `level`.
struct ShorePart {
    ShoreKind kind = ShoreKind::Bank;
    std::vector<Place> vertices;
    std::optional<Entered> level;
    friend bool operator==(const ShorePart&, const ShorePart&) = default;
};

/// `planeOrigin` is the origin of the water's transverse Mercator plane: set once, from the first
/// swims with latitude and longitude, and never moved after. A water without position has a plane
/// without origin.
struct Water {
    Id<Water> id;
    std::string name;
    std::optional<GeographicPoint> position;
    std::optional<GeographicPoint> planeOrigin;
    LevelReference levelReference;
    std::vector<ShorePart> shore;
    std::string rules;
    friend bool operator==(const Water&, const Water&) = default;
};

} // namespace bedlore
