// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import_preview.hpp"
#include "core/io/import_session.hpp"

#include <cstddef>

// Previews of files that were read.

namespace bedlore {

/// The first `most` lines of `file`, as they will meet the book of `session`; to be asked for
/// before the file is planned, which takes its rows along.
[[nodiscard]] FilePreview
previewOf(const ParsedFile& file, const ImportSession& session, std::size_t most);

/// Marks the lines that turned out not to fit the book.
void markBadRows(FilePreview& preview, const FaultList& faults);

} // namespace bedlore
