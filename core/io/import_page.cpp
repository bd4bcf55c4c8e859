// SPDX-License-Identifier: MIT
#include "core/io/import_page.hpp"

#include "core/io/import_text.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

constexpr std::size_t longestLine = 10'000;
constexpr std::size_t mostLines = 20'000;

/// What stands behind `word` on a line that begins with it; none on another line.
std::optional<std::string_view> behind(std::string_view line, std::string_view word) {
    const std::string_view text = trimmed(line);
    if (text.size() <= word.size() || lowerCase(text.substr(0, word.size())) != word ||
        (text[word.size()] != ' ' && text[word.size()] != '\t')) {
        return std::nullopt;
    }
    return trimmed(text.substr(word.size()));
}

/// Takes the next line off `text`.
std::string_view takeLine(std::string_view& text) {
    const std::size_t end = std::min(text.find_first_of("\r\n"), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(end);
    text.remove_prefix(text.starts_with("\r\n") ? 2 : text.empty() ? 0 : 1);
    return line;
}

} // namespace

bool isPageText(std::string_view text) {
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        if (!trimmed(line).empty()) {
            return behind(line, "swim").has_value();
        }
    }
    return false;
}

PageText pageText(std::string_view text, FaultList& faults) {
    PageText page;
    while (!text.empty()) {
        const std::string_view line = takeLine(text);
        const int number = static_cast<int>(page.lines.size()) + 1;
        if (line.size() > longestLine) {
            faults.addForFile(number, "", line, "a line of at most 10,000 characters");
            return page;
        }
        if (page.lines.size() >= mostLines) {
            faults.addForFile(number, "", line, "a page of at most 20,000 lines");
            return page;
        }
        if (const auto date = behind(line, "date"); date && !page.date) {
            page.date = dateIn(*date);
        }
        page.lines.emplace_back(line);
    }
    return page;
}

Result<void> planPage(ImportSession& session, ParsedFile& parsed, Id<ImportedFile> file) {
    (void)session;
    (void)file;
    parsed.faults.addForFile(1, "", "a notebook page", "a table: pages cannot be read yet");
    return {};
}

} // namespace bedlore
