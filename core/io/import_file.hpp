// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import_session.hpp"

#include <filesystem>

// One file to what it says, before it meets the book.

namespace bedlore {

/// Reads and understands `path`, within the size that its kind may have. Fails when it cannot be
/// read or is of no known kind; what is wrong inside it is among the result's faults.
[[nodiscard]] Result<ParsedFile>
parseImportFile(const std::filesystem::path& path, const Progress& progress);

} // namespace bedlore
