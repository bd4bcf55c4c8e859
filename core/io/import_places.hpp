// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/units/length.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Whether places fit the water that they are to go into.

namespace bedlore {

/// Why places in latitude and longitude (or, with `geographic` false, in metres of the plane)
/// cannot go into `water`; none where they can. What was expected instead, in words.
[[nodiscard]] std::optional<std::string>
whyPlacesDoNotFit(const Book& book, const Water& water, bool geographic);

/// Whether a compass bearing can be turned to the plane of `water`.
[[nodiscard]] bool hasPosition(const Water& water);

/// Distance over the earth taken as a sphere of 6371 km, good to 0.6 %.
[[nodiscard]] Length roughDistance(GeographicPoint a, GeographicPoint b);

/// Median latitude and median longitude: a middle that single wild places do not move. `places`
/// must not be empty.
[[nodiscard]] GeographicPoint medianPlace(const std::vector<GeographicPoint>& places);

/// No water is wider; a place farther off has its numbers swapped or was never measured.
inline constexpr Length farthestPlace = Length::fromSi(300'000.0);
inline constexpr std::string_view nearOtherPlaces =
    "a place within 300 km of the water's other places";

} // namespace bedlore
