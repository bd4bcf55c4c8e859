// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import_session.hpp"

#include <string_view>

// A notebook page in a text file.

namespace bedlore {

/// Whether the first line that is not blank begins with the word "swim".
[[nodiscard]] bool isPageText(std::string_view text);

/// The lines of a page, ended by LF, CR LF or CR. What no notebook holds goes to `faults`.
[[nodiscard]] PageText readPageText(std::string_view text, FaultList& faults);

} // namespace bedlore
