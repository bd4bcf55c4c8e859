// SPDX-License-Identifier: MIT
#include "gui/document/typed_lines.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <span>
#include <string_view>

namespace bedlore {

namespace {

using Stored = std::span<const PageLine* const>;

// A table of this many cells is a few milliseconds; a larger page is matched from its ends only.
constexpr std::size_t largestTable = 4'000'000;

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

/// Lines between two that are paired: as many stored ones as typed ones, or more of either.
struct Gap {
    Stored stored;
    std::span<TypedLine> typed;
};

/// Pairs the longest run of lines that both have, and gives what stands between.
std::vector<Gap> pairCommonLines(Stored stored, std::span<TypedLine> typed) {
    if ((stored.size() + 1) * (typed.size() + 1) > largestTable) {
        return {{stored, typed}};
    }
    const std::vector<int> length = commonLengths(stored, typed);
    const std::size_t width = typed.size() + 1;
    std::vector<Gap> gaps;
    std::size_t gapStored = 0;
    std::size_t gapTyped = 0;
    std::size_t i = 0;
    std::size_t j = 0;
    const auto closeGap = [&] {
        gaps.push_back(
            {stored.subspan(gapStored, i - gapStored), typed.subspan(gapTyped, j - gapTyped)});
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
    return gaps;
}

/// Pairs lines that say the same in different gaps; gives the stored ones that are taken so.
std::set<Id<PageLine>> pairMovedLines(const std::vector<Gap>& gaps) {
    std::multimap<std::string_view, Id<PageLine>> left;
    for (const Gap& gap : gaps) {
        for (const PageLine* line : gap.stored) {
            left.emplace(line->text, line->id);
        }
    }
    std::set<Id<PageLine>> moved;
    for (const Gap& gap : gaps) {
        for (TypedLine& line : gap.typed) {
            const auto found = left.lower_bound(line.text);
            if (found != left.end() && found->first == line.text) {
                line.id = found->second;
                moved.insert(found->second);
                left.erase(found);
            }
        }
    }
    return moved;
}

/// What is changed in place keeps its record.
void pairInOrder(const Gap& gap, const std::set<Id<PageLine>>& taken) {
    auto stored = gap.stored.begin();
    for (TypedLine& line : gap.typed) {
        while (stored != gap.stored.end() && taken.contains((*stored)->id)) {
            ++stored;
        }
        if (!line.id && stored != gap.stored.end()) {
            line.id = (*stored)->id;
            ++stored;
        }
    }
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
    const std::vector<Gap> gaps = pairCommonLines(
        Stored(stored).subspan(head, stored.size() - head - tail),
        std::span(lines).subspan(head, lines.size() - head - tail));
    const std::set<Id<PageLine>> moved = pairMovedLines(gaps);
    for (const Gap& gap : gaps) {
        pairInOrder(gap, moved);
    }
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
    LineChange change{
        .first = head, .removed = before.size() - head - tail, .added = after.size() - head - tail};
    const auto from = static_cast<std::ptrdiff_t>(head);
    const auto to = static_cast<std::ptrdiff_t>(tail);
    change.reordered =
        change.removed > 1 &&
        std::is_permutation(
            before.begin() + from, before.end() - to, after.begin() + from, after.end() - to);
    return change;
}

std::vector<std::string> mergedLines(
    const std::vector<std::string>& before,
    const std::vector<std::string>& mine,
    const std::vector<std::string>& theirs) {
    const LineChange ours = lineChange(before, mine);
    const LineChange other = lineChange(before, theirs);
    const bool isAbove = ours.first + ours.removed <= other.first;
    const bool isBelow = other.first + other.removed <= ours.first;
    if (!isAbove && !isBelow) {
        return mine;
    }
    const auto at = [](const std::vector<std::string>& lines, std::size_t i) {
        return lines.begin() + static_cast<std::ptrdiff_t>(i);
    };
    const std::size_t first = isAbove ? ours.first : ours.first + other.added - other.removed;
    std::vector<std::string> merged(theirs.begin(), at(theirs, first));
    merged.insert(merged.end(), at(mine, ours.first), at(mine, ours.first + ours.added));
    merged.insert(merged.end(), at(theirs, first + ours.removed), theirs.end());
    return merged;
}

namespace {

/// Of a change that brings several lines.
std::string wordsOfSeveral(const LineChange& change, const std::string& number) {
    const std::string lines = std::to_string(change.added) + " lines";
    if (change.removed == 0) {
        return "typed " + lines;
    }
    if (change.removed == change.added) {
        return "changed " + lines;
    }
    return "put " + lines + " in place of " +
           (change.removed == 1 ? "line " + number : std::to_string(change.removed));
}

} // namespace

std::string words(const LineChange& change) {
    const std::string number = std::to_string(change.first + 1);
    const std::string last = std::to_string(change.first + change.added);
    if (change.reordered) {
        return change.added == 2 ? "swapped lines " + number + " and " + last
                                 : "moved lines between " + number + " and " + last;
    }
    if (change.added > 1) {
        return wordsOfSeveral(change, number);
    }
    if (change.added == 1 && change.removed > 1) {
        return "put line " + number + " in place of " + std::to_string(change.removed) + " lines";
    }
    if (change.added == 1) {
        return (change.removed == 0 ? "typed line " : "changed line ") + number;
    }
    return change.removed > 1 ? "took out " + std::to_string(change.removed) + " lines"
                              : "took out line " + number;
}

} // namespace bedlore
