// SPDX-License-Identifier: MIT
#include "gui/document/typed_lines.hpp"

#include <algorithm>
#include <span>

namespace bedlore {

namespace {

using Stored = std::span<const PageLine* const>;

// A table of this many cells is a few milliseconds; a larger page is matched from its ends only.
constexpr std::size_t largestTable = 4'000'000;

/// Pairs in order: what is changed in place keeps its record.
void pairInOrder(Stored stored, std::span<TypedLine> typed) {
    const std::size_t both = std::min(stored.size(), typed.size());
    for (std::size_t i = 0; i < both; ++i) {
        typed[i].id = stored[i]->id;
    }
}

/// Lengths of the longest common subsequence of the tails from (i, j).
std::vector<int> commonLengths(Stored stored, std::span<const TypedLine> typed) {
    const std::size_t width = typed.size() + 1;
    std::vector<int> length((stored.size() + 1) * width, 0);
    for (std::size_t i = stored.size(); i-- > 0;) {
        for (std::size_t j = typed.size(); j-- > 0;) {
            length[i * width + j] =
                stored[i]->text == typed[j].text
                    ? length[(i + 1) * width + j + 1] + 1
                    : std::max(length[(i + 1) * width + j], length[i * width + j + 1]);
        }
    }
    return length;
}

void pairByCommonLines(Stored stored, std::span<TypedLine> typed) {
    if ((stored.size() + 1) * (typed.size() + 1) > largestTable) {
        pairInOrder(stored, typed);
        return;
    }
    const std::vector<int> length = commonLengths(stored, typed);
    const std::size_t width = typed.size() + 1;
    std::size_t gapStored = 0;
    std::size_t gapTyped = 0;
    std::size_t i = 0;
    std::size_t j = 0;
    const auto closeGap = [&] {
        pairInOrder(
            stored.subspan(gapStored, i - gapStored), typed.subspan(gapTyped, j - gapTyped));
    };
    while (i < stored.size() && j < typed.size()) {
        if (stored[i]->text == typed[j].text) {
            closeGap();
            typed[j++].id = stored[i++]->id;
            gapStored = i;
            gapTyped = j;
        } else if (length[(i + 1) * width + j] >= length[i * width + j + 1]) {
            ++i;
        } else {
            ++j;
        }
    }
    i = stored.size();
    j = typed.size();
    closeGap();
}

} // namespace

std::vector<TypedLine>
matchLines(const std::vector<const PageLine*>& stored, const std::vector<std::string>& typed) {
    std::vector<TypedLine> lines;
    lines.reserve(typed.size());
    for (const std::string& text : typed) {
        lines.push_back({.id = std::nullopt, .text = text});
    }
    const std::size_t both = std::min(stored.size(), lines.size());
    std::size_t head = 0;
    while (head < both && stored[head]->text == lines[head].text) {
        lines[head].id = stored[head]->id;
        ++head;
    }
    std::size_t tail = 0;
    while (tail < both - head &&
           stored[stored.size() - 1 - tail]->text == lines[lines.size() - 1 - tail].text) {
        lines[lines.size() - 1 - tail].id = stored[stored.size() - 1 - tail]->id;
        ++tail;
    }
    pairByCommonLines(
        Stored(stored).subspan(head, stored.size() - head - tail),
        std::span(lines).subspan(head, lines.size() - head - tail));
    return lines;
}

LineChange
lineChange(const std::vector<std::string>& before, const std::vector<std::string>& after) {
    const std::size_t both = std::min(before.size(), after.size());
    std::size_t head = 0;
    while (head < both && before[head] == after[head]) {
        ++head;
    }
    std::size_t tail = 0;
    while (tail < both - head &&
           before[before.size() - 1 - tail] == after[after.size() - 1 - tail]) {
        ++tail;
    }
    return {
        .first = head, .removed = before.size() - head - tail, .added = after.size() - head - tail};
}

std::string words(const LineChange& change) {
    const std::string number = std::to_string(change.first + 1);
    if (change.added > 1) {
        return "typed " + std::to_string(change.added) + " lines";
    }
    if (change.added == 1) {
        return (change.removed == 0 ? "typed line " : "changed line ") + number;
    }
    return change.removed > 1 ? "took out " + std::to_string(change.removed) + " lines"
                              : "took out line " + number;
}

} // namespace bedlore
