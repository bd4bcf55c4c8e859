// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

// "aim B = A + 10 deg right": the directions of a page.

namespace bedlore {

/// `aim` is empty where the line defines none. An aim whose angle is unclear is still there,
/// without an angle.
struct TypedAim {
    std::optional<AimDraft> aim;
    LineMeaning meaning;
};

/// `rest` is what stands behind the word "aim" of `line`.
[[nodiscard]] TypedAim readAim(std::string_view line, std::string_view rest);

/// The label of the aim that `aim` hangs on, empty for none.
[[nodiscard]] std::string hangsOn(const AimDraft& aim);

/// Where a mark's name is the label of one of `aims`, that aim is meant.
void preferAimsToMarks(std::vector<AimDraft>& aims);

/// What is wrong with the aims that `aim` hangs on: one is neither defined among `aims` nor `used`
/// by a reading, or they lead back to `aim`. None where nothing is.
[[nodiscard]] std::optional<std::string>
aimFault(const AimDraft& aim, const std::vector<AimDraft>& aims, const std::set<std::string>& used);

} // namespace bedlore
