// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/io/csv_columns.hpp"
#include "core/io/csv_reader.hpp"
#include "core/io/import_faults.hpp"
#include "core/io/import_preview.hpp"
#include "core/io/table_layout.hpp"
#include "core/io/table_rows.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

// A book's tables of text, row by row.

namespace bedlore {

/// A table whose header is read.
struct OpenTable {
    std::string name; ///< of the file
    CsvReader reader;
    TableHeader header;
    FaultList faults;
    std::int64_t rows = 0; ///< read so far, bad ones too
    std::vector<PreviewRow> shown = {};
    std::size_t mostShown = 0; ///< how many of its rows are kept to be looked at

    [[nodiscard]] std::string_view table() const { return header.layout->name; }
};

/// The tables among `files`. Empty when none of them is one; fails when only some are, or when two
/// are the same table.
[[nodiscard]] Result<std::vector<OpenTable>>
openTables(const std::vector<std::filesystem::path>& files);

/// What stands in pieces because it is too long for its cell.
class LongValues {
public:
    /// The pieces of one cell come one after another; any other goes to `faults`.
    void add(const LongPiece& piece, int line, FaultList& faults);
    /// All pieces are in: bytes are made of them.
    void finish(FaultList& faults);

    [[nodiscard]] bool empty() const { return values_.empty(); }
    /// Empty text and no bytes where there is none.
    [[nodiscard]] std::optional<FoundCell>
    take(std::string_view table, std::int64_t id, const std::string& column);
    /// Those that no row has asked for.
    void refuseUnused(FaultList& faults) const;

private:
    struct Value {
        std::string text;
        bool isBytes = false;
        int pieces = 0;
        int line = 0;
        bool used = false;
    };
    using Key = std::tuple<std::string, std::int64_t, std::string>;
    std::map<Key, Value> values_;
};

/// Calls `use` with each row that has the header's number of cells and says anything; notes the
/// others. Fails when the device fails, or when stopped.
[[nodiscard]] Result<void> forEachTableRow(
    OpenTable& table, const Progress& progress, const std::function<void(const CsvRecord&)>& use);

/// The row's cells in the order of the table's columns.
[[nodiscard]] std::vector<FoundCell>
cellsOf(OpenTable& table, const CsvRecord& record, LongValues& longOnes);

/// Adds what `from` could not use to the table's faults; whether there was nothing.
[[nodiscard]] bool
isGood(OpenTable& table, int line, std::span<const FoundCell> cells, const CsvColumnReader& from);

/// The largest id that a table may give: far above any counter, with room to count on.
inline constexpr std::int64_t largestTableId = std::int64_t{1} << 52U;

/// Calls `use(row, line)` for each good row of the table, and `spoilt(id)` for each bad one whose
/// id can be told.
template <class Row, class Use, class Spoilt>
[[nodiscard]] Result<void> readRows(
    OpenTable& table, LongValues& longOnes, const Progress& progress, Use&& use, Spoilt&& spoilt) {
    return forEachTableRow(table, progress, [&](const CsvRecord& record) {
        const std::vector<FoundCell> cells = cellsOf(table, record, longOnes);
        CsvColumnReader from(cells, table.header.separator);
        Row row;
        visitFields(row, [&]<class Field>(std::string_view, Field& field) {
            FieldCodec<Field>::read(from, field);
        });
        if (isGood(table, record.line, cells, from)) {
            use(std::move(row), record.line);
        } else if (const auto id = wholeNumberIn(cells.front().text)) {
            spoilt(*id);
        }
    });
}

} // namespace bedlore
