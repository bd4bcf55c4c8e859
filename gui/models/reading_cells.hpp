// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/reading.hpp"

#include <QString>

#include <optional>

// How a reading stands in the cells of a row, whichever list it is in.

namespace bedlore {

/// "28 yd", or of a stretch "28 yd to 25 yd".
[[nodiscard]] QString lineOutCell(const QString& from, const std::optional<QString>& to);

/// What he felt. Its depth is left out: it has a column of its own.
[[nodiscard]] QString feltCell(Reading reading);

} // namespace bedlore
