// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/visit.hpp"

#include <optional>
#include <string_view>

namespace bedlore {

/// A day of the calendar as YYYY-MM-DD, year 0000 to 9999; whole text or nothing. The inverse of
/// `isoDate`.
[[nodiscard]] std::optional<Date> isoDateIn(std::string_view text);

} // namespace bedlore
