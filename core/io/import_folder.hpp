// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"

#include <filesystem>
#include <vector>

// Folders named for an import.

namespace bedlore {

/// `paths` with the tables (.csv) of a folder, by name, in the folder's place. Fails in a sentence
/// for a folder with none.
[[nodiscard]] Result<std::vector<std::filesystem::path>>
filesIn(const std::vector<std::filesystem::path>& paths);

} // namespace bedlore
