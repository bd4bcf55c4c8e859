// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"
#include "core/io/import.hpp"

// What an import added.

namespace bedlore {

[[nodiscard]] ImportCounts countNew(const Book& before, const Book& after);

} // namespace bedlore
