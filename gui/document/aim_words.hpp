// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/aims.hpp"

#include <string>
#include <vector>

// How an aim was got, in plain words.

namespace bedlore {

/// "231.5° magnetic, by phone", "2 fingers right of the dead pine", "1 o'clock", "left of B, angle
/// guessed": what gives the direction of `aim`, and whether that is only a guess.
[[nodiscard]] std::string aimSource(const BedMap& map, const AimLine& aim);

/// What it means that angles among `aims` are guessed, and what to write on the page instead; empty
/// where none is.
[[nodiscard]] std::string guessedWords(const BedMap& map, const std::vector<AimLine>& aims);

/// "A, on the dead pine": its letter, and its mark where it has one.
[[nodiscard]] std::string aimName(const AimLine& aim);

} // namespace bedlore
