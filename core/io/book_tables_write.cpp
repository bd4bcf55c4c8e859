// SPDX-License-Identifier: MIT
#include "core/io/book_file.hpp"
#include "core/io/book_tables.hpp"
#include "core/io/csv_columns.hpp"
#include "core/io/csv_writer.hpp"
#include "core/io/new_folder.hpp"
#include "core/io/table_layout.hpp"
#include "core/io/table_rows.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

constexpr std::uint8_t noKind = 255; // as in `FixColumns`

std::string fileNameOf(std::string_view table) {
    return std::string(table) + ".csv";
}

Error cannotBeTables(const std::string& where, const std::string& what) {
    return inputError(
        "This book cannot be written as tables: " + where + ": " + what +
        ". Copy the book's own file instead.");
}

/// How far a piece of `text` from `begin` reaches: at most a cell, never through a character.
std::size_t endOfPiece(std::string_view text, std::size_t begin) {
    std::size_t end = std::min(begin + longestCell, text.size());
    while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) {
        --end;
    }
    return end;
}

FixSetRow rowOf(const FixSet& set) {
    FixSetRow row{
        .id = set.id,
        .water = set.water,
        .name = set.name,
        .file = set.file,
        .frame = set.frame,
        .rows = std::nullopt,
        .given = {}};
    const auto give = [&](std::string_view word, bool there) {
        row.given += there ? (row.given.empty() ? "" : " ") + std::string(word) : "";
    };
    if (set.columns) {
        row.rows = static_cast<std::int64_t>(set.columns->x.size());
        give(fix_column::sigma, !set.columns->sigma.empty());
        give(fix_column::level, !set.columns->level.empty());
        give(fix_column::day, !set.columns->day.empty());
        give(fix_column::substrate, !set.columns->substrate.empty());
        give(fix_column::cover, !set.columns->cover.empty());
    }
    give(fix_column::excluded, set.excluded != nullptr);
    return row;
}

template <class Record>
const Record& rowOf(const Record& record) {
    return record;
}

/// What keeps the columns of a set from being rows, empty when nothing does.
std::string problemIn(const FixSet& set) {
    const FixColumns none;
    const FixColumns& columns = set.columns ? *set.columns : none;
    const std::size_t rows = columns.x.size();
    const auto fits = [rows](const auto& column) {
        return column.empty() || column.size() == rows;
    };
    if (columns.y.size() != rows || columns.depth.size() != rows || !fits(columns.sigma) ||
        !fits(columns.level) || !fits(columns.day) || !fits(columns.substrate) ||
        !fits(columns.cover)) {
        return "the columns of the fixes are not of one length";
    }
    const auto known = [](const std::vector<std::uint8_t>& kinds, std::size_t count) {
        return std::all_of(kinds.begin(), kinds.end(), [&](std::uint8_t kind) {
            return kind == noKind || kind < count;
        });
    };
    if (!known(columns.substrate, enumCodes<Substrate>().size()) ||
        !known(columns.cover, enumCodes<Cover>().size())) {
        return "a bottom of the fixes is not known";
    }
    return contradictionIn(set);
}

FixTableRow fixRowOf(const FixSet& set, std::size_t i) {
    const FixColumns& from = *set.columns;
    FixTableRow row{
        .set = set.id,
        .number = static_cast<int>(i) + 1,
        .x = from.x[i],
        .y = from.y[i],
        .depth = from.depth[i]};
    if (!from.sigma.empty() && !std::isnan(from.sigma[i])) {
        row.sigma = from.sigma[i];
    }
    if (!from.level.empty() && !std::isnan(from.level[i])) {
        row.level = from.level[i];
    }
    if (!from.day.empty() && from.day[i] != std::numeric_limits<std::int32_t>::min()) {
        row.day = from.day[i];
    }
    if (!from.substrate.empty() && from.substrate[i] != noKind) {
        row.substrate = static_cast<Substrate>(from.substrate[i]);
    }
    if (!from.cover.empty() && from.cover[i] != noKind) {
        row.cover = static_cast<Cover>(from.cover[i]);
    }
    if (set.excluded) {
        row.excluded = (*set.excluded)[i];
    }
    return row;
}

/// The tables of one book in the making.
class TableFiles {
public:
    TableFiles(const Book& book, fs::path folder)
        : book_(book)
        , folder_(std::move(folder)) {}

    Result<void> writeAll(std::int64_t nextId, const Progress& progress);

    /// What says how much the others hold comes first: a folder that got no further is then seen
    /// not to be whole.
    [[nodiscard]] std::vector<std::string> names() const {
        return {names_.rbegin(), names_.rend()};
    }

private:
    template <class Row>
    Result<CsvWriter> begin();
    template <class Row>
    Result<void> end(CsvWriter& table);
    template <class Row>
    Result<void> put(CsvWriter& table, const Row& row);
    template <class Record>
    Result<void> writeRecords(const Progress& progress);
    Result<void> writeFixRows(const Progress& progress);
    Result<void> writeMeta(std::int64_t nextId);
    Result<void>
    putLong(std::string_view table, std::int64_t id, const Column& column, const WrittenCell& cell);

    const Book& book_;
    fs::path folder_;
    std::vector<std::string> names_;
    std::vector<MetaRow> counts_;
    std::optional<CsvWriter> longOnes_;
};

template <class Row>
Result<CsvWriter> TableFiles::begin() {
    auto table = CsvWriter::create(folder_ / fileNameOf(tableName<Row>));
    if (!table) {
        return fail(std::move(table).error());
    }
    std::vector<std::string> header;
    for (const Column& column : columnsOf<Row>()) {
        header.push_back(column.name);
    }
    if (Result<void> written = table->row(header); !written) {
        return fail(written.error());
    }
    return table;
}

template <class Row>
Result<void> TableFiles::end(CsvWriter& table) {
    const std::uint64_t rows = table.rows() - 1; // without the header
    for (const TableLayout& layout : tableLayouts()) {
        const ImportFormat& limit = importFormat(layout.kind);
        if (layout.name == tableName<Row> &&
            (table.bytes() > limit.largestBytes || rows > limit.mostRows)) {
            return fail(cannotBeTables(
                fileNameOf(tableName<Row>), "it would be longer than can be read back"));
        }
    }
    names_.push_back(fileNameOf(tableName<Row>));
    counts_.push_back(
        {.key = std::string(meta_key::rowsOf) + std::string(tableName<Row>),
         .value = static_cast<std::int64_t>(rows)});
    return table.commit();
}

template <class Row>
Result<void> TableFiles::put(CsvWriter& table, const Row& row) {
    std::int64_t id = 0;
    if constexpr (requires { row.id.value; }) {
        id = row.id.value;
    }
    CsvColumnWriter to;
    visitFields(row, [&]<class Field>(std::string_view, const Field& field) {
        FieldCodec<Field>::write(to, field);
    });
    if (!to.problem().empty()) {
        return fail(cannotBeTables(
            "table " + std::string(tableName<Row>) + ", row " + std::to_string(id), to.problem()));
    }
    const Columns& columns = columnsOf<Row>();
    std::vector<std::string> cells(to.cells().size());
    for (std::size_t i = 0; i < cells.size(); ++i) {
        WrittenCell& cell = to.cells()[i];
        if (cell.form == CellForm::InPlace) {
            cells[i] = std::move(cell.text);
        } else if (Result<void> put = putLong(tableName<Row>, id, columns[i], cell); !put) {
            return put;
        }
    }
    return table.row(cells);
}

Result<void> TableFiles::putLong(
    std::string_view table, std::int64_t id, const Column& column, const WrittenCell& cell) {
    const std::string_view form = cell.form == CellForm::LongText ? formText : formBytes;
    LongPiece piece{
        .table = std::string(table),
        .id = id,
        .column = column.name,
        .piece = 0,
        .form = std::string(form),
        .value = {}};
    std::size_t at = 0;
    do {
        const std::size_t end = endOfPiece(cell.text, at);
        ++piece.piece;
        piece.value = cell.text.substr(at, end - at);
        at = end;
        if (Result<void> written = put(*longOnes_, piece); !written) {
            return written;
        }
    } while (at < cell.text.size());
    return {};
}

template <class Record>
Result<void> TableFiles::writeRecords(const Progress& progress) {
    using Row = TableRow<Record>;
    auto table = begin<Row>();
    if (!table) {
        return fail(table.error());
    }
    for (const Record& record : book_.all<Record>()) {
        if (progress.cancelled()) {
            return fail(cancelledError());
        }
        if (Result<void> written = put(*table, rowOf(record)); !written) {
            return written;
        }
    }
    return end<Row>(*table);
}

Result<void> TableFiles::writeFixRows(const Progress& progress) {
    constexpr std::size_t rowsBetweenLooks = 4096;
    auto table = begin<FixTableRow>();
    if (!table) {
        return fail(table.error());
    }
    for (const FixSet& set : book_.all<FixSet>()) {
        if (const std::string problem = problemIn(set); !problem.empty()) {
            return fail(cannotBeTables("fixes \"" + set.name + "\"", problem));
        }
        const std::size_t rows = set.columns ? set.columns->x.size() : 0;
        for (std::size_t i = 0; i < rows; ++i) {
            if (i % rowsBetweenLooks == 0 && progress.cancelled()) {
                return fail(cancelledError());
            }
            if (Result<void> written = put(*table, fixRowOf(set, i)); !written) {
                return written;
            }
        }
    }
    return end<FixTableRow>(*table);
}

Result<void> TableFiles::writeMeta(std::int64_t nextId) {
    std::vector<MetaRow> rows{
        {.key = std::string(meta_key::format), .value = bookFormat},
        {.key = std::string(meta_key::nextId), .value = nextId}};
    rows.insert(rows.end(), counts_.begin(), counts_.end());
    auto table = begin<MetaRow>();
    if (!table) {
        return fail(table.error());
    }
    for (const MetaRow& row : rows) {
        if (Result<void> written = put(*table, row); !written) {
            return written;
        }
    }
    return end<MetaRow>(*table);
}

Result<void> TableFiles::writeAll(std::int64_t nextId, const Progress& progress) {
    auto longOnes = begin<LongPiece>();
    if (!longOnes) {
        return fail(longOnes.error());
    }
    longOnes_ = *std::move(longOnes);
    Result<void> done;
    double share = 0.0;
    forEachType(AllRecords{}, [&]<class Record>() {
        if (done && progress.cancelled()) {
            done = fail(cancelledError());
        }
        if (done) {
            done = writeRecords<Record>(progress);
            constexpr double step = 0.02;
            progress.at(share += step);
        }
    });
    if (done) {
        done = writeFixRows(progress);
    }
    if (done) {
        done = end<LongPiece>(*longOnes_);
    }
    if (done) {
        done = writeMeta(nextId);
    }
    progress.at(1.0);
    return done;
}

} // namespace

Result<std::vector<std::string>> writeBookTables(
    const Book& book, std::int64_t nextId, const fs::path& folder, const Progress& progress) {
    auto target = NewFolder::create(folder);
    if (!target) {
        return fail(std::move(target).error());
    }
    TableFiles files(book, target->draft());
    if (Result<void> written = files.writeAll(nextId, progress); !written) {
        return fail(written.error());
    }
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    std::vector<std::string> names = files.names();
    if (Result<void> published = target->publish(names); !published) {
        return fail(published.error());
    }
    return names;
}

} // namespace bedlore
