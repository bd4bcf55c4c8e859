// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/reading.hpp"
#include "core/book/shorthand.hpp"

// Where in a reading a word of feeling belongs.

namespace bedlore {

/// Puts `felt` into its field of `reading`. False, and nothing is changed, where another word
/// stands there already.
[[nodiscard]] bool addFelt(Reading& reading, const Felt& felt);

} // namespace bedlore
