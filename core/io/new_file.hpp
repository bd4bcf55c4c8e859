// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"

#include <filesystem>
#include <system_error>

// A file that appears under its name whole or not at all, and never in place of another.

namespace bedlore {

/// A place beside `target` to write what will become it; whatever an earlier, cut-off try left
/// there is gone. Fails when something is at `target` already, or when its folder is not there.
[[nodiscard]] Result<std::filesystem::path> draftFor(const std::filesystem::path& target);

/// Brings the finished draft to the disk and gives it its name. Fails, with the draft removed, when
/// something has appeared at `target` meanwhile.
[[nodiscard]] Result<void>
publishDraft(const std::filesystem::path& draft, const std::filesystem::path& target);

/// Brings the finished draft to the disk and puts it in the place of the file at `target`, in one
/// step.
[[nodiscard]] std::error_code
replaceByDraft(const std::filesystem::path& draft, const std::filesystem::path& target);

} // namespace bedlore
