// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/record_columns.hpp"

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

// The rows of a book's tables of text. Most are the records themselves; a set of fixes is a row and
// a table of its rows, and what belongs to the book as a whole, or is too long for a cell, has
// tables of its own.

namespace bedlore {

/// A set of fixes without its rows. `rows` is none where it never had any columns; `given` names
/// those of its columns that are there besides x, y and depth, and `excluded` where rows were set
/// aside.
struct FixSetRow {
    Id<FixSet> id;
    Id<Water> water;
    std::string name;
    std::optional<Id<ImportedFile>> file;
    FixFrame frame = FixFrame::Geographic;
    std::optional<std::int64_t> rows;
    std::string given;
};

/// One row of a set of fixes, counted from 1; as in `FixColumns`.
struct FixTableRow {
    Id<FixSet> set;
    int number = 0;
    double x = 0.0;
    double y = 0.0;
    double depth = 0.0;
    std::optional<float> sigma;
    std::optional<float> level;
    std::optional<int> day;
    std::optional<Substrate> substrate;
    std::optional<Cover> cover;
    std::optional<int> excluded;
};

/// A piece, counted from 1, of what stands in the cell of a row's column.
struct LongPiece {
    std::string table;
    std::int64_t id = 0;
    std::string column;
    int piece = 0;
    std::string form; ///< `text`, or `base64` for bytes
    std::string value;
};

/// A number of the book as a whole.
struct MetaRow {
    std::string key;
    std::int64_t value = 0;
};

template <>
inline constexpr std::string_view tableName<FixSetRow> = tableName<FixSet>;
template <>
inline constexpr std::string_view tableName<FixTableRow> = "fix_rows";
template <>
inline constexpr std::string_view tableName<LongPiece> = "long_values";
template <>
inline constexpr std::string_view tableName<MetaRow> = "meta";

template <SameRecord<FixSetRow> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("id", r.id);
    visit("water", r.water);
    visit("name", r.name);
    visit("file", r.file);
    visit("frame", r.frame);
    visit("row_count", r.rows);
    visit("given", r.given);
}

template <SameRecord<FixTableRow> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("fix_set", r.set);
    visit("row_number", r.number);
    visit("x", r.x);
    visit("y", r.y);
    visit("depth", r.depth);
    visit("sigma", r.sigma);
    visit("level", r.level);
    visit("day", r.day);
    visit("substrate", r.substrate);
    visit("cover", r.cover);
    visit("excluded", r.excluded);
}

template <SameRecord<LongPiece> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("of_table", r.table);
    visit("of_id", r.id);
    visit("of_column", r.column);
    visit("piece", r.piece);
    visit("form", r.form);
    visit("value", r.value);
}

template <SameRecord<MetaRow> Self, class Visitor>
void visitFields(Self& r, Visitor&& visit) {
    visit("meta_key", r.key);
    visit("meta_value", r.value);
}

/// What `MetaRow::key` may be: the format of the tables, the first id not yet given to any record,
/// and, behind `rowsOf`, a table's name for the number of its rows.
namespace meta_key {
inline constexpr std::string_view format = "format";
inline constexpr std::string_view nextId = "next_id";
inline constexpr std::string_view rowsOf = "rows of ";
} // namespace meta_key

inline constexpr std::string_view formText = "text";
inline constexpr std::string_view formBytes = "base64";

/// The words of `FixSetRow::given`.
namespace fix_column {
inline constexpr std::string_view sigma = "sigma";
inline constexpr std::string_view level = "level";
inline constexpr std::string_view day = "day";
inline constexpr std::string_view substrate = "substrate";
inline constexpr std::string_view cover = "cover";
inline constexpr std::string_view excluded = "excluded";
} // namespace fix_column

template <>
struct FieldCodec<std::int64_t> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "INTEGER"});
    }
    static void write(ColumnWriter& to, const std::int64_t& field) { to.integer(field); }
    static void read(ColumnReader& from, std::int64_t& field) { field = from.integer(); }
};

/// As the shortest number that gives the same float again: 0.1, not 0.10000000149011612.
template <>
struct FieldCodec<float> {
    static void columns(Columns& columns, const std::string& name) {
        columns.push_back({.name = name, .type = "REAL"});
    }
    static void write(ColumnWriter& to, const float& field);
    static void read(ColumnReader& from, float& field) {
        const double value = from.real();
        if (value > static_cast<double>(std::numeric_limits<float>::max()) ||
            value < static_cast<double>(std::numeric_limits<float>::lowest())) {
            from.say("a number is too large");
            return;
        }
        field = static_cast<float>(value);
    }
};

/// The row that stands for a record in its table.
template <class Record>
struct TableRowOf {
    using type = Record;
};
template <>
struct TableRowOf<FixSet> {
    using type = FixSetRow;
};
template <class Record>
using TableRow = typename TableRowOf<Record>::type;

} // namespace bedlore
