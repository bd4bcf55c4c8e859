// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/bed_data.hpp"

#include <span>
#include <vector>

// Readings that say over again, number for number, what another says.

namespace bedlore {

/// `data` without the readings that repeat an earlier one of the list: thrown from the same place
/// in the same direction, with the same line out and the same depth, whatever the day's level.
///
/// Numbers that were rounded to a quarter wrap and half a foot repeat because the bed stayed the
/// same and was rounded the same way, and a page copied once more repeats altogether: their errors
/// are not independent, so that they do not differ tells nothing of how large errors are. Taken as
/// independent they would prove that aims and counts are exact, and every unevenness of the
/// readings would have to be a real one of the bed, metres across.
[[nodiscard]] std::vector<BedDatum> withoutRepeats(std::span<const BedDatum> data);

} // namespace bedlore
