// SPDX-License-Identifier: MIT
#include "core/io/import_faults.hpp"

#include "core/io/import_text.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

void FaultList::add(
    int line, std::string_view field, std::string_view found, std::string expected) {
    if (rows_.size() >= most) {
        ++leftOut_;
        return;
    }
    rows_.push_back(
        {.file = file_,
         .line = line,
         .field = shown(field),
         .found = shown(found),
         .expected = std::move(expected)});
}

void FaultList::addForFile(
    int line, std::string_view field, std::string_view found, std::string expected) {
    unusable_ = true;
    add(line, field, found, std::move(expected));
}

std::vector<BadRow> FaultList::rows() const {
    std::vector<BadRow> sorted = rows_;
    std::stable_sort(sorted.begin(), sorted.end(), [](const BadRow& a, const BadRow& b) {
        return a.line < b.line;
    });
    return sorted;
}

} // namespace bedlore
