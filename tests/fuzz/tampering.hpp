// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string_view>

// How an input of the book's fuzzer becomes a file.

namespace bedlore::fuzz {

/// Writes `path` anew. An input that begins as every SQLite file does is the file itself. Any other
/// is lines that change a sound book one after another:
///
///     sql …            a statement, as another program would run it; what fails is passed over
///     at OFFSET HEX…   bytes put in place of those from OFFSET on, once all statements have run
///     cut SIZE         the file ends there
///
/// Other lines mean nothing.
void tamper(const std::filesystem::path& path, std::string_view input);

} // namespace bedlore::fuzz
