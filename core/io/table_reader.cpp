// SPDX-License-Identifier: MIT
#include "core/io/table_reader.hpp"

#include "core/io/base64.hpp"
#include "core/io/csv_header.hpp"
#include "core/io/import_text.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

constexpr int rowsBetweenReports = 1024;
constexpr std::size_t longestRow = std::size_t{1} << 22U; // every cell of the longest, quoted

Error joined(Error first, const Error& other) {
    first.message += "\n" + other.message;
    return first;
}

/// None for a file that is no table of a book.
Result<std::optional<OpenTable>> openTable(const std::filesystem::path& path) {
    auto file = InputFile::open(path);
    if (!file) {
        return fail(std::move(file).error());
    }
    if (familyOf(file->name()) != FileFamily::Csv) {
        return std::nullopt;
    }
    OpenTable table{
        .name = file->name(),
        .reader = CsvReader(*std::move(file), {.rowBytes = longestRow}),
        .header = {},
        .faults = FaultList(path.filename().string())};
    const auto step = table.reader.next();
    if (!step) {
        return fail(step.error());
    }
    auto header =
        *step == CsvStep::Row ? readTableHeader(table.reader, table.faults) : std::nullopt;
    if (!header) {
        return std::nullopt;
    }
    table.header = *std::move(header);
    const std::uint64_t most = importFormat(table.header.layout->kind).largestBytes;
    if (table.reader.file().size() > most) {
        return fail(tooLarge(table.name, table.reader.file().size(), most));
    }
    table.reader.setFileLimit(most);
    return table;
}

Error strangers(const std::vector<std::string>& names, const OpenTable& table) {
    constexpr std::size_t named = 5;
    std::string list;
    for (std::size_t i = 0; i < names.size() && i < named; ++i) {
        list += (i > 0 ? ", " : "") + names[i];
    }
    if (names.size() > named) {
        list += " and " + std::to_string(names.size() - named) + " more";
    }
    return inputError(
        table.name +
        " is a table of a whole book; such tables come in by themselves, but there is "
        "also " +
        list + ". Take that away or mend it: it is another kind of file, empty or damaged.");
}

std::optional<Error> sameTwice(const std::vector<OpenTable>& tables, const OpenTable& table) {
    const auto known = std::find_if(tables.begin(), tables.end(), [&](const OpenTable& other) {
        return other.header.layout == table.header.layout;
    });
    if (known == tables.end()) {
        return std::nullopt;
    }
    return inputError(
        known->name + " and " + table.name + " are both the table " + std::string(known->table()) +
        " of a book. Name one of them.");
}

std::string expectedFor(const Column& column, const std::string& what) {
    if (what == halfThere) {
        return "nothing, because the rest of that value is not given";
    }
    std::string words = column.name == "id"
                            ? "an id, a whole number from 1 to " + std::to_string(largestTableId)
                            : expectedIn(column);
    if (!what.empty() && column.choices.empty() && column.type != "DATE") {
        words += " (" + what + ")";
    }
    return words;
}

} // namespace

Result<std::vector<OpenTable>> openTables(const std::vector<std::filesystem::path>& files) {
    std::vector<OpenTable> tables;
    std::vector<std::string> others;
    std::optional<Error> error;
    for (const std::filesystem::path& path : files) {
        auto table = openTable(path);
        if (!table) {
            error = error ? joined(*std::move(error), table.error()) : table.error();
        } else if (!*table) {
            others.push_back(path.filename().string());
        } else {
            if (const auto twice = sameTwice(tables, **table)) {
                return fail(*twice);
            }
            tables.push_back(**std::move(table));
        }
    }
    if (!tables.empty() && error) {
        return fail(*std::move(error));
    }
    if (!tables.empty() && !others.empty()) {
        return fail(strangers(others, tables.front()));
    }
    return tables;
}

void LongValues::add(const LongPiece& piece, int line, FaultList& faults) {
    if (piece.form != formText && piece.form != formBytes) {
        faults.add(line, "form", piece.form, "text or base64");
        return;
    }
    const bool isBytes = piece.form == formBytes;
    Value& value = values_[{piece.table, piece.id, piece.column}];
    if (value.pieces == 0) {
        value.isBytes = isBytes;
        value.line = line;
    }
    if (piece.piece != value.pieces + 1) {
        faults.add(line, "piece", std::to_string(piece.piece), std::to_string(value.pieces + 1));
    } else if (value.isBytes != isBytes) {
        faults.add(line, "form", piece.form, "the form of the pieces before");
    } else {
        value.text += piece.value;
    }
    ++value.pieces;
}

void LongValues::finish(FaultList& faults) {
    for (auto& [key, value] : values_) {
        if (!value.isBytes) {
            continue;
        }
        const auto bytes = fromBase64(value.text);
        if (!bytes) {
            faults.add(value.line, "value", value.text, "bytes in base64");
            value.text.clear();
            continue;
        }
        value.text.assign(bytes->size(), '\0');
        std::transform(bytes->begin(), bytes->end(), value.text.begin(), [](std::byte b) {
            return static_cast<char>(b);
        });
    }
}

std::optional<FoundCell>
LongValues::take(std::string_view table, std::int64_t id, const std::string& column) {
    const auto found = values_.find({std::string(table), id, column});
    if (found == values_.end()) {
        return std::nullopt;
    }
    found->second.used = true;
    return FoundCell{.text = found->second.text, .isBytes = found->second.isBytes};
}

void LongValues::refuseUnused(FaultList& faults) const {
    for (const auto& [key, value] : values_) {
        if (!value.used) {
            const auto& [table, id, column] = key;
            std::string place = table;
            place.append(" ").append(std::to_string(id)).append(" ").append(column);
            faults.add(value.line, "of_id", place, "a row and a column that are there");
        }
    }
}

namespace {

/// Hands the line that was read to `use`, or says what is wrong with it. False where no more is to
/// be read.
bool takeLine(OpenTable& table, CsvStep step, const std::function<void(const CsvRecord&)>& use) {
    const CsvReader& reader = table.reader;
    const CsvRecord& record = reader.record();
    FaultList& faults = table.faults;
    if (step == CsvStep::Stop) {
        faults.addForFile(record.line, "", reader.fault().found, reader.fault().expected);
        return false;
    }
    if (step != CsvStep::BadRow && record.isBlank()) {
        return true;
    }
    const auto mostRows =
        static_cast<std::int64_t>(importFormat(table.header.layout->kind).mostRows);
    if (++table.rows > mostRows) {
        const std::string most = std::to_string(mostRows);
        faults.addForFile(record.line, "", "more than " + most + " rows", "at most " + most);
        return false;
    }
    if (const auto fault = reader.faultOfLine(step, table.header.width)) {
        faults.add(record.line, "", fault->found, fault->expected);
    } else {
        use(record);
    }
    return true;
}

} // namespace

Result<void> forEachTableRow(
    OpenTable& table, const Progress& progress, const std::function<void(const CsvRecord&)>& use) {
    CsvReader& reader = table.reader;
    for (int count = 1;; count = count % rowsBetweenReports + 1) {
        const auto step = reader.next(progress);
        if (!step) {
            return fail(step.error());
        }
        if (*step == CsvStep::End) {
            return {};
        }
        if (!takeLine(table, *step, use)) {
            return {};
        }
        if (count == rowsBetweenReports && !reader.report(progress)) {
            return fail(cancelledError());
        }
    }
}

std::vector<FoundCell> cellsOf(OpenTable& table, const CsvRecord& record, LongValues& longOnes) {
    const Columns& columns = *table.header.layout->columns;
    std::vector<FoundCell> cells;
    cells.reserve(columns.size());
    for (const std::size_t at : table.header.cell) {
        cells.push_back({.text = record.cells[at]});
    }
    if (table.shown.size() < table.mostShown) {
        PreviewRow& row = table.shown.emplace_back(PreviewRow{.line = record.line, .cells = {}});
        for (const FoundCell& cell : cells) {
            row.cells.push_back(shown(cell.text));
        }
    }
    const auto id = longOnes.empty() ? std::nullopt : wholeNumberIn(cells.front().text);
    for (std::size_t i = 1; id && i < cells.size(); ++i) {
        const auto longOne = longOnes.take(table.table(), *id, columns[i].name);
        if (longOne && !cells[i].text.empty()) {
            table.faults.add(
                record.line,
                columns[i].name,
                cells[i].text,
                "nothing, because its text stands among the long values");
        } else if (longOne) {
            cells[i] = *longOne;
        }
    }
    return cells;
}

bool isGood(
    OpenTable& table, int line, std::span<const FoundCell> cells, const CsvColumnReader& from) {
    const Columns& columns = *table.header.layout->columns;
    for (const CellProblem& problem : from.problems()) {
        const FoundCell& cell = cells[problem.column];
        const Column& column = columns[problem.column];
        table.faults.add(
            line,
            column.name,
            cell.isBytes ? "bytes" : cell.text,
            expectedFor(column, problem.what));
    }
    const auto id = columns.front().name == "id" ? wholeNumberIn(cells.front().text) : std::nullopt;
    if (from.problems().empty() && id && *id > largestTableId) {
        table.faults.add(line, "id", cells.front().text, expectedFor(columns.front(), ""));
        return false;
    }
    return from.problems().empty();
}

} // namespace bedlore
