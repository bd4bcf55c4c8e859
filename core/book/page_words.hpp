// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/reading.hpp"
#include "core/book/visit.hpp"
#include "core/units/length.hpp"

#include <string>

// What a reading says, in plain words with its units.

namespace bedlore {

/// "28½ wraps (114 yd), 9 ft, gravel, tap". `visit` says what a wrap and a pull are.
[[nodiscard]] std::string readingWords(const Reading& reading, const Visit& visit);

/// One counted wrap of `visit`; 12 ft where its sticks are not said [C].
[[nodiscard]] Length wrapSize(const Visit& visit);

} // namespace bedlore
