// SPDX-License-Identifier: MIT
#pragma once

#include <regex>
#include <string>

namespace bedlore::testing {

/// The first word of statistics or surveying in `text`, of those that never stand on the screen;
/// empty where there is none. What a word or a line means, or was taken to mean, is everybody's.
inline std::string statisticsWordIn(const std::string& text) {
    static const std::regex asked(
        R"((you|to|that|does \S+( \S+)?) mean\b)", std::regex::icase | std::regex::optimize);
    static const std::regex unwanted(
        "sounding|datum|reduction|residual|sigma|kriging|outlier|variogram|probab|"
        "standard error|standard deviation|"
        R"(\b(co)?variances?\b|\bdeviations?\b|\bmean\b|\bintervals?\b|\bestimate[sd]?\b|)"
        R"(\bestimations?\b|\bconfiden(ce|t)\b)",
        std::regex::icase | std::regex::optimize);
    const std::string rest = std::regex_replace(text, asked, "");
    std::smatch found;
    return std::regex_search(rest, found, unwanted) ? found.str() : std::string();
}

} // namespace bedlore::testing
