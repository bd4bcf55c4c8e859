// SPDX-License-Identifier: MIT
#pragma once

#include <map>
#include <string>

// The pages that an angler would have written on Harl Pit.

namespace bedlore::testing {

/// Name of each file of the sample's notebook and its text. The same every time: the errors are
/// drawn from a fixed seed.
[[nodiscard]] std::map<std::string, std::string> sampleNotebook();

} // namespace bedlore::testing
