// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_reading.hpp"

#include <optional>
#include <string_view>

// "PINE = A 26¾ / rods 26¾ spod 26": a spot and the lengths used.

namespace bedlore {

/// `meaning.kind` is Spot or Unclear; `spot` counts for the first only.
struct SpotLine {
    LineMeaning meaning;
    SpotDraft spot;
};

/// A name, an equals sign, an aim and a distance, then after a stroke each rod and its length; what
/// stands behind the distance is a note. None where the line is no spot at all.
[[nodiscard]] std::optional<SpotLine>
readSpotLine(std::string_view text, const ReadingRules& rules);

} // namespace bedlore
