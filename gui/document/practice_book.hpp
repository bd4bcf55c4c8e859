// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/visit.hpp"

#include <filesystem>
#include <string_view>

// The book of the practice water: made from pages that the program carries in itself, so that it is
// there installed or not.

namespace bedlore {

/// The page of that day as it comes, word for word; empty where the notebook has none.
[[nodiscard]] std::string_view practicePage(std::string_view swim, Date date);

/// Where his own copy usually lies: in the system's folder for data of this user.
[[nodiscard]] std::filesystem::path usualPracticePath();

/// Makes the book at `path`, and the folder for it where there is none. Fails where something is
/// there already. What fails leaves nothing behind under that name.
[[nodiscard]] Result<void> makePracticeBook(const std::filesystem::path& path);

/// Makes the book anew; the one that is there, which nobody may have open, is kept beside under the
/// first free of NAME.kept-1, NAME.kept-2 … Gives that name. What fails leaves the old one in its
/// place.
[[nodiscard]] Result<std::filesystem::path> restorePracticeBook(const std::filesystem::path& path);
/// The name under which `restorePracticeBook` would keep it.
[[nodiscard]] std::filesystem::path nameToKeepUnder(const std::filesystem::path& path);

} // namespace bedlore
