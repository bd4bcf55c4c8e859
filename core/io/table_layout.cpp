// SPDX-License-Identifier: MIT
#include "core/io/table_layout.hpp"

#include "core/io/csv_header.hpp"

#include <algorithm>

namespace bedlore {

namespace {

template <class Row>
TableLayout layoutOf(ImportKind kind) {
    return {.name = tableName<Row>, .columns = &columnsOf<Row>(), .kind = kind};
}

std::vector<TableLayout> makeLayouts() {
    std::vector<TableLayout> layouts;
    forEachType(AllRecords{}, [&]<class Record>() {
        layouts.push_back(layoutOf<TableRow<Record>>(ImportKind::BookTable));
    });
    layouts.push_back(layoutOf<FixTableRow>(ImportKind::BookFixRows));
    layouts.push_back(layoutOf<LongPiece>(ImportKind::BookLongValues));
    layouts.push_back(layoutOf<MetaRow>(ImportKind::BookTable));
    return layouts;
}

std::size_t columnsAmong(const TableLayout& layout, const std::vector<std::string>& names) {
    const auto& columns = *layout.columns;
    return static_cast<std::size_t>(
        std::count_if(columns.begin(), columns.end(), [&](const Column& column) {
            return std::find(names.begin(), names.end(), column.name) != names.end();
        }));
}

/// The table that has all of its columns there; the one with most where there are several.
const TableLayout* wholeTable(const std::vector<std::string>& names) {
    const TableLayout* found = nullptr;
    for (const TableLayout& layout : tableLayouts()) {
        const std::size_t size = layout.columns->size();
        if (columnsAmong(layout, names) == size &&
            (found == nullptr || size > found->columns->size())) {
            found = &layout;
        }
    }
    return found;
}

/// The table that lacks fewer than half of its columns, with the id that its rows go by.
const TableLayout* partOfTable(const std::vector<std::string>& names) {
    const TableLayout* found = nullptr;
    std::size_t best = 0;
    for (const TableLayout& layout : tableLayouts()) {
        const std::size_t there = columnsAmong(layout, names);
        const bool hasFirst =
            std::find(names.begin(), names.end(), layout.columns->front().name) != names.end();
        if (hasFirst && 2 * there > layout.columns->size() && there > best) {
            found = &layout;
            best = there;
        }
    }
    return found;
}

TableHeader
headerFor(const TableLayout& layout, const std::vector<std::string>& names, FaultList& faults) {
    constexpr int firstLine = 1;
    TableHeader header{.layout = &layout, .width = names.size()};
    for (const Column& column : *layout.columns) {
        const auto at = std::find(names.begin(), names.end(), column.name);
        if (at == names.end()) {
            faults.addForFile(
                firstLine, column.name, "no such column", "a column named " + column.name);
        } else if (std::count(at, names.end(), column.name) > 1) {
            faults.addForFile(firstLine, column.name, "two such columns", "one");
        }
        header.cell.push_back(static_cast<std::size_t>(at - names.begin()));
    }
    for (const std::string& name : names) {
        const auto& columns = *layout.columns;
        if (std::none_of(columns.begin(), columns.end(), [&](const Column& column) {
                return column.name == name;
            })) {
            header.unknown.push_back(name);
        }
    }
    return header;
}

} // namespace

std::span<const TableLayout> tableLayouts() {
    static const std::vector<TableLayout> layouts = makeLayouts();
    return layouts;
}

std::optional<TableHeader> readTableHeader(CsvReader& reader, FaultList& faults) {
    for (const auto tableIn : {wholeTable, partOfTable}) {
        for (const char separator : {',', ';'}) {
            if (reader.splitAgain(separator) != CsvStep::Row) {
                return std::nullopt;
            }
            const std::vector<std::string> names = columnNames(reader.record());
            const TableLayout* layout = tableIn(names);
            const bool isOther = isSimpleTable(names) || isTableOfAMap(names);
            if (layout != nullptr && (tableIn == wholeTable || !isOther)) {
                TableHeader header = headerFor(*layout, names, faults);
                header.separator = separator;
                return header;
            }
        }
    }
    return std::nullopt;
}

} // namespace bedlore
