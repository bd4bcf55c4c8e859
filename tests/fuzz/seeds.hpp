// SPDX-License-Identifier: MIT
#pragma once

#include <string>
#include <vector>

// What each fuzzer sets out from: good inputs of every kind, and those that the tests know as
// hostile.

namespace bedlore::fuzz {

[[nodiscard]] std::vector<std::string> pageSeeds();
[[nodiscard]] std::vector<std::string> tableSeeds();
[[nodiscard]] std::vector<std::string> shorelineSeeds();
[[nodiscard]] std::vector<std::string> bookSeeds();

} // namespace bedlore::fuzz
