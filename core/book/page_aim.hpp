// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/page_meaning.hpp"

#include <optional>
#include <string_view>

// "aim B = A + 10 deg right": the directions of a page.

namespace bedlore {

/// `aim` is empty where the line defines none. An aim whose angle is unclear is still there,
/// without an angle.
struct AimLine {
    std::optional<AimDraft> aim;
    LineMeaning meaning;
};

/// `rest` is what stands behind the word "aim" of `line`.
[[nodiscard]] AimLine readAim(std::string_view line, std::string_view rest);

} // namespace bedlore
