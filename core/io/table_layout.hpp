// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/csv_reader.hpp"
#include "core/io/formats.hpp"
#include "core/io/import_faults.hpp"
#include "core/io/table_rows.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// Which of a book's tables a CSV file is, and where its columns stand.

namespace bedlore {

struct TableLayout {
    std::string_view name;
    const Columns* columns = nullptr;
    ImportKind kind = ImportKind::BookTable;
};

/// Every table of a book: its records' first, parents before children.
[[nodiscard]] std::span<const TableLayout> tableLayouts();

struct TableHeader {
    const TableLayout* layout = nullptr;
    char separator = ',';
    std::size_t width = 0;            ///< number of cells
    std::vector<std::size_t> cell;    ///< of each column of the layout
    std::vector<std::string> unknown; ///< names that mean nothing here
};

/// Tells the table and the separator from the first row of `reader`, which must just have been
/// read. None for what is no table of a book. Where a column is missing or there twice, that goes
/// to `faults` and the file cannot be used.
[[nodiscard]] std::optional<TableHeader> readTableHeader(CsvReader& reader, FaultList& faults);

} // namespace bedlore
