// SPDX-License-Identifier: MIT
#include "core/io/fix_rows.hpp"

#include "core/book/shorthand.hpp"

#include <algorithm>
#include <limits>
#include <memory>
#include <numeric>
#include <string>
#include <string_view>
#include <utility>

namespace bedlore {

namespace {

template <class T>
void rearrange(std::vector<T>& column, const std::vector<std::size_t>& order) {
    if (column.empty()) {
        return;
    }
    std::vector<T> sorted;
    sorted.reserve(column.size());
    for (const std::size_t i : order) {
        sorted.push_back(column[i]);
    }
    column = std::move(sorted);
}

template <class T, class Field>
void push(std::vector<T>& column, bool given, const std::optional<Field>& value, T none) {
    if (given) {
        column.push_back(value ? static_cast<T>(*value) : none);
    }
}

} // namespace

void BookFixes::addSet(FixSetRow set, int line) {
    const std::vector<std::string> words = splitWords(set.given);
    const auto has = [&](std::string_view word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    };
    Growing growing{
        .row = set,
        .line = line,
        .sigma = has(fix_column::sigma),
        .level = has(fix_column::level),
        .day = has(fix_column::day),
        .substrate = has(fix_column::substrate),
        .cover = has(fix_column::cover),
        .mask = has(fix_column::excluded)};
    sets_.emplace(set.id.value, std::move(growing));
}

bool BookFixes::fits(const FixTableRow& row, const Growing& set, int line, FaultList& faults) {
    bool good = true;
    const auto refuse = [&](std::string_view field, std::string_view found, std::string expected) {
        faults.add(line, field, found, std::move(expected));
        good = false;
    };
    if (row.number < 1 || row.number > set.row.rows.value_or(0)) {
        refuse(
            "row_number",
            std::to_string(row.number),
            "a number from 1 to the row_count of its set");
    }
    const auto only = [&](std::string_view field, bool given, bool there) {
        if (there && !given) {
            refuse(field, "a value", "nothing, because its set is not given it");
        }
    };
    only(fix_column::sigma, set.sigma, row.sigma.has_value());
    only(fix_column::level, set.level, row.level.has_value());
    only(fix_column::day, set.day, row.day.has_value());
    only(fix_column::substrate, set.substrate, row.substrate.has_value());
    only(fix_column::cover, set.cover, row.cover.has_value());
    only(fix_column::excluded, set.mask, row.excluded.has_value());
    constexpr int largestByte = 255;
    const int mask = row.excluded.value_or(0);
    if (set.mask && (!row.excluded || mask < 0 || mask > largestByte)) {
        refuse(
            fix_column::excluded,
            row.excluded ? std::to_string(mask) : "",
            "0, or 1 (up to 255) where he set the row aside");
    }
    return good;
}

void BookFixes::add(const FixTableRow& row, int line, FaultList& faults) {
    const auto found = sets_.find(row.set.value);
    if (found == sets_.end()) {
        if (!spoilt_.contains(row.set.value)) {
            faults.add(
                line, "fix_set", std::to_string(row.set.value), "the id of a row of fix_sets");
        }
        return;
    }
    Growing& set = found->second;
    ++set.seen;
    if (!fits(row, set, line, faults)) {
        return;
    }
    constexpr float unknown = std::numeric_limits<float>::quiet_NaN();
    constexpr std::int32_t noDay = std::numeric_limits<std::int32_t>::min();
    constexpr std::uint8_t noKind = 255;
    set.numbers.push_back(row.number);
    set.columns.x.push_back(row.x);
    set.columns.y.push_back(row.y);
    set.columns.depth.push_back(row.depth);
    push(set.columns.sigma, set.sigma, row.sigma, unknown);
    push(set.columns.level, set.level, row.level, unknown);
    push(set.columns.day, set.day, row.day, noDay);
    push(set.columns.substrate, set.substrate, row.substrate, noKind);
    push(set.columns.cover, set.cover, row.cover, noKind);
    push(set.excluded, set.mask, row.excluded, std::uint8_t{0});
}

void BookFixes::addSpoiltRow(std::int64_t set) {
    if (const auto found = sets_.find(set); found != sets_.end()) {
        ++found->second.seen;
    }
}

/// False where two rows have one number.
bool BookFixes::putInOrder(Growing& set) {
    std::vector<std::size_t> order(set.numbers.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto before = [&](std::size_t a, std::size_t b) {
        return set.numbers[a] < set.numbers[b];
    };
    if (!std::is_sorted(set.numbers.begin(), set.numbers.end())) {
        std::sort(order.begin(), order.end(), before);
        rearrange(set.numbers, order);
        rearrange(set.columns.x, order);
        rearrange(set.columns.y, order);
        rearrange(set.columns.depth, order);
        rearrange(set.columns.sigma, order);
        rearrange(set.columns.level, order);
        rearrange(set.columns.day, order);
        rearrange(set.columns.substrate, order);
        rearrange(set.columns.cover, order);
        rearrange(set.excluded, order);
    }
    return std::adjacent_find(set.numbers.begin(), set.numbers.end()) == set.numbers.end();
}

std::vector<BookFixes::Made> BookFixes::make(FaultList& faults) {
    std::vector<Made> made;
    for (auto& [id, growing] : sets_) {
        const std::int64_t expected = growing.row.rows.value_or(0);
        if (growing.seen != expected) {
            faults.add(
                growing.line,
                "row_count",
                std::to_string(expected),
                std::to_string(growing.seen) +
                    ", as many as fix_rows has for it: rows of it are missing or too many");
            continue;
        }
        if (!putInOrder(growing)) {
            faults.add(
                growing.line,
                "id",
                std::to_string(id),
                "rows of it with a number each of their own");
            continue;
        }
        FixSet set{
            .id = growing.row.id,
            .water = growing.row.water,
            .name = std::move(growing.row.name),
            .file = growing.row.file,
            .frame = growing.row.frame,
            .columns = nullptr,
            .excluded = nullptr};
        if (growing.row.rows) {
            set.columns = std::make_shared<const FixColumns>(std::move(growing.columns));
        }
        if (growing.mask) {
            set.excluded =
                std::make_shared<const std::vector<std::uint8_t>>(std::move(growing.excluded));
        }
        made.push_back({.set = std::move(set), .line = growing.line});
    }
    return made;
}

} // namespace bedlore
