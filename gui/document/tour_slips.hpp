// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/practice_tour.hpp"

#include <optional>
#include <string>

// What a slip of the hand did to a practice page beside the line that a step is about.

namespace bedlore {

/// A line that was lost. It may still stand there word for word, and say something else or nothing
/// since what stands above it was changed.
struct TourSlip {
    std::string line;
    bool stillStands = false;
    friend bool operator==(const TourSlip&, const TourSlip&) = default;
};

/// The first line of the step's page that came with it and that the page does not say any more,
/// though no step asks for that. Readings are told by what they mean, so other ways of writing one
/// are none; lines that were added and notes are nobody's loss. None where the step has no page.
[[nodiscard]] std::optional<TourSlip> tourSlip(const Book& book, TourStep step);

} // namespace bedlore
