// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/book/change.hpp"

// What another program changed.

namespace bedlore {

/// The records that are not the same in both, or in one of them only.
[[nodiscard]] Change differenceOf(const Book& before, const Book& after);

} // namespace bedlore
