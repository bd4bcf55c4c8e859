// SPDX-License-Identifier: MIT
#pragma once

#include "tests/gui/document/page_header.hpp"

#include <string>
#include <vector>

// What bedlore_notebook_writer and the test that kills it say to each other.

namespace bedlore::testing {

inline std::vector<std::string> writerHeader() {
    std::vector<std::string> lines = pageHeader();
    lines.emplace_back("aim C = 10 true");
    return lines;
}

/// 'w' and the page as it is about to be, or 'k': it is kept. One line.
inline std::string toMessage(char what, const std::vector<std::string>& lines) {
    std::string message(1, what);
    for (const std::string& line : lines) {
        message += line + '|';
    }
    return message + '\n';
}

inline std::vector<std::string> linesIn(const std::string& message) {
    std::vector<std::string> lines;
    std::size_t at = 1;
    for (std::size_t end = 0; (end = message.find('|', at)) != std::string::npos; at = end + 1) {
        lines.push_back(message.substr(at, end - at));
    }
    return lines;
}

} // namespace bedlore::testing
