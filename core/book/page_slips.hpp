// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_measures.hpp"

#include <cstdint>
#include <optional>
#include <string_view>

// Lines that read as prose and are more likely a slip: what is asked about them.

namespace bedlore {

/// A reading but for one word that is no word of the bed: "27 krud 4", "A 27 gravle". None where
/// the line is as likely prose: "12 carp 4", "27 fish by June".
[[nodiscard]] std::optional<MeasureFault> bedWordSlip(std::string_view line);

enum class SwimOfPage : std::uint8_t { Unsaid, Said };

/// A date without its word ("2026-10-10"), or the word without a date ("date the Gap").
[[nodiscard]] std::optional<MeasureFault> dateSlip(std::string_view line, SwimOfPage swim);

} // namespace bedlore
