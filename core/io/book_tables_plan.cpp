// SPDX-License-Identifier: MIT
#include "core/book/references.hpp"
#include "core/io/book_rows.hpp"
#include "core/io/book_tables.hpp"
#include "core/io/import_counts.hpp"

#include <cmath>
#include <type_traits>
#include <utility>

namespace bedlore {

namespace {

/// The first column of a record's field.
template <class Record>
std::string columnOf(std::string_view field) {
    std::string column(field);
    const Record empty{};
    visitFields(empty, [&]<class Field>(std::string_view name, const Field&) {
        if (name == field) {
            Columns columns;
            FieldCodec<Field>::columns(columns, std::string(name));
            column = columns.front().name;
        }
    });
    return column;
}

bool sameNumbers(const std::vector<float>& a, const std::vector<float>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](float x, float y) {
        return x == y || (std::isnan(x) && std::isnan(y));
    });
}

/// A number that is not given equals another that is not given.
template <class Record>
bool sameRecord(const Record& a, const Record& b) {
    if constexpr (std::is_same_v<Record, FixSet>) {
        if (a.columns && b.columns && sameNumbers(a.columns->sigma, b.columns->sigma) &&
            sameNumbers(a.columns->level, b.columns->level)) {
            FixColumns columns = *a.columns;
            columns.sigma = b.columns->sigma;
            columns.level = b.columns->level;
            FixColumns others = *b.columns;
            for (FixColumns* each : {&columns, &others}) {
                each->sigma.clear();
                each->level.clear();
            }
            FixSet left = a;
            FixSet right = b;
            left.columns = std::make_shared<const FixColumns>(std::move(columns));
            right.columns = std::make_shared<const FixColumns>(std::move(others));
            return left == right;
        }
    }
    return a == b;
}

/// The rows against each other and against the book that they are to go into.
class TablesPlanner {
public:
    TablesPlanner(BookRows& rows, const Book& book, BadRows badRows)
        : rows_(rows)
        , book_(book)
        , badRows_(badRows) {}

    void checkIds() {
        forEachType(AllRecords{}, [&]<class Record>() { checkIdsOf<Record>(); });
    }

    /// Everything that a row points at is there. A row that is left out for it may be what others
    /// point at.
    void checkReferences() {
        constexpr int mostRounds = 1000; // as long a chain as nobody ever notes
        bool again = true;
        for (int round = 0; again && round < mostRounds; ++round) {
            again = false;
            forEachType(AllRecords{}, [&]<class Record>() {
                again = checkReferencesOf<Record>() || again;
            });
            again = again && badRows_ == BadRows::Skip;
        }
    }

    /// What the book holds under these ids is something else.
    [[nodiscard]] std::optional<Error> clash() const {
        constexpr std::size_t named = 5;
        const std::set<std::int64_t> taken = idsOf(book_);
        std::string list;
        std::size_t count = 0;
        forEachType(AllRecords{}, [&]<class Record>() {
            for (const IncomingRow<Record>& row : rows_.all<Record>().rows) {
                const Record* there = book_.find(row.record.id);
                const bool other = there != nullptr ? !sameRecord(*there, row.record)
                                                    : taken.contains(row.record.id.value);
                if (!row.leftOut && other && ++count <= named) {
                    list += (list.empty() ? "" : ", ") + std::string(tableName<Record>) + " " +
                            std::to_string(row.record.id.value);
                }
            }
        });
        if (count == 0) {
            return std::nullopt;
        }
        return inputError(
            "This book already holds something else under ids that these tables use: " + list +
            (count > named ? " and " + std::to_string(count - named) + " more" : "") +
            ". Nothing was taken in, because nothing in a book is written over or given another "
            "id. Take the tables into a new book.");
    }

    /// Puts of all that the book does not hold yet, parents before children.
    [[nodiscard]] Edits edits() {
        Edits edits;
        forEachType(AllRecords{}, [&]<class Record>() { addEditsOf<Record>(edits); });
        return edits;
    }
    /// How many records `edits` put in, and how many needed none.
    [[nodiscard]] std::size_t putIn() const { return putIn_; }
    [[nodiscard]] std::size_t alreadyThere() const { return alreadyThere_; }

private:
    static std::set<std::int64_t> idsOf(const Book& book) {
        std::set<std::int64_t> ids;
        forEachType(AllRecords{}, [&]<class Record>() {
            for (const Record& record : book.all<Record>()) {
                ids.insert(record.id.value);
            }
        });
        return ids;
    }

    template <class Record>
    void leaveOut(IncomingRow<Record>& row) {
        row.leftOut = true;
        rows_.all<Record>().spoilt.insert(row.record.id.value);
    }

    template <class Record>
    void checkIdsOf() {
        Incoming<Record>& incoming = rows_.all<Record>();
        std::vector<IncomingRow<Record>>& rows = incoming.rows;
        for (std::size_t i = 1; i < rows.size(); ++i) {
            if (rows[i].record.id == rows[i - 1].record.id) {
                incoming.table->faults.add(
                    rows[i].line,
                    "id",
                    std::to_string(rows[i].record.id.value),
                    "an id that no other row of the table has (line " +
                        std::to_string(rows[i - 1].line) + " has it)");
            }
        }
        const auto second = std::unique(rows.begin(), rows.end(), [](const auto& a, const auto& b) {
            return a.record.id == b.record.id;
        });
        rows.erase(second, rows.end());
        checkNextId<Record>();
    }

    template <class Record>
    void checkNextId() {
        const auto& rows = rows_.all<Record>().rows;
        const auto next = rows_.nextId();
        if (next && !rows.empty() && rows.back().record.id.value >= *next) {
            OpenTable& table = *rows_.all<Record>().table;
            table.faults.add(
                rows.back().line,
                "id",
                std::to_string(rows.back().record.id.value),
                "an id below next_id of the table meta, which is " + std::to_string(*next));
        }
    }

    template <class Other>
    [[nodiscard]] bool isThere(Id<Other> id) {
        Incoming<Other>& incoming = rows_.all<Other>();
        const bool saidBefore = badRows_ == BadRows::Refuse && incoming.spoilt.contains(id.value);
        return saidBefore || incoming.find(id) != nullptr || book_.find(id) != nullptr;
    }

    /// Whether a row was left out.
    template <class Record>
    bool checkReferencesOf() {
        bool any = false;
        for (IncomingRow<Record>& row : rows_.all<Record>().rows) {
            if (row.leftOut) {
                continue;
            }
            bool good = true;
            visitFields(row.record, [&](std::string_view name, const auto& field) {
                if (name != "id" && good) {
                    good = checkField<Record>(name, field, row.line);
                }
            });
            if (!good) {
                leaveOut(row);
                any = true;
            }
        }
        return any;
    }

    template <class Record, class Field>
    bool checkField(std::string_view name, const Field& field, int line) {
        bool good = true;
        const auto found = [&]<class Other>(Id<Other> id) {
            if (good && !isThere(id)) {
                good = false;
                rows_.all<Record>().table->faults.add(
                    line,
                    columnOf<Record>(name),
                    std::to_string(id.value),
                    "the id of a row of " + std::string(tableName<Other>) + " that is there");
            }
        };
        const detail::ReferenceFinder<decltype(found)> finder{found};
        finder(field);
        return good;
    }

    /// What it points at of its own kind is not in the book yet when it goes in.
    [[nodiscard]] bool waits(const Aim& aim, const std::set<Id<Aim>>& in) const {
        bool waiting = false;
        forEachReference(aim, [&]<class Other>(Id<Other> id) {
            if constexpr (std::is_same_v<Other, Aim>) {
                waiting = waiting || (id != aim.id && !in.contains(id) && !book_.find(id));
            }
        });
        return waiting;
    }

    template <class Record>
    void addEditsOf(Edits& edits) {
        Edits second; // aims that hang on one that comes later
        std::set<Id<Record>> in;
        for (IncomingRow<Record>& row : rows_.all<Record>().rows) {
            if (row.leftOut) {
                continue;
            }
            if (book_.find(row.record.id) != nullptr) {
                ++alreadyThere_;
                continue;
            }
            if constexpr (std::is_same_v<Record, Aim>) {
                if (waits(row.record, in)) {
                    Aim alone = row.record;
                    alone.basis = AimWithoutAngle{};
                    second.emplace_back(Put<Aim>{std::move(row.record)});
                    row.record = std::move(alone);
                }
                in.insert(row.record.id);
            }
            edits.emplace_back(Put<Record>{std::move(row.record)});
            ++putIn_;
        }
        edits.insert(edits.end(), second.begin(), second.end());
    }

    BookRows& rows_;
    const Book& book_;
    BadRows badRows_;
    std::size_t putIn_ = 0;
    std::size_t alreadyThere_ = 0;
};

void gatherFaults(BookRows& rows, BadRows badRows, ImportPlan& plan) {
    for (const OpenTable& table : rows.tables()) {
        const std::vector<BadRow> bad = table.faults.rows();
        plan.bad.insert(plan.bad.end(), bad.begin(), bad.end());
        if (table.faults.leftOut() > 0) {
            plan.notices.push_back(
                table.name + ": " + std::to_string(table.faults.leftOut()) +
                " more bad rows are not listed.");
        }
    }
    const bool unusable = rows.anyUnusable();
    plan.refused = unusable || (badRows == BadRows::Refuse && !plan.bad.empty());
    plan.canSkipBad = !plan.bad.empty() && !unusable;
}

/// The tables that hold anything, as far as they were asked to be shown.
std::vector<FilePreview> previewsOf(const BookRows& rows) {
    std::vector<FilePreview> files;
    for (const OpenTable& table : rows.tables()) {
        if (table.rows == 0) {
            continue;
        }
        FilePreview& file =
            files.emplace_back(FilePreview{.name = table.name, .kind = table.header.layout->kind});
        for (const Column& column : *table.header.layout->columns) {
            file.columns.push_back(column.name);
        }
        file.rows = table.shown;
        file.rowCount = static_cast<std::size_t>(table.rows);
        const std::vector<BadRow> bad = table.faults.rows();
        for (PreviewRow& row : file.rows) {
            row.isBad = std::any_of(
                bad.begin(), bad.end(), [&](const BadRow& one) { return one.line == row.line; });
        }
    }
    return files;
}

std::string takenIn(std::size_t records, std::size_t alreadyThere) {
    const std::string all = std::to_string(alreadyThere);
    if (records == 0 && alreadyThere > 0) {
        return "Everything in these tables is in the book already (" + all + " records).";
    }
    return "These are the tables of a whole book: " + std::to_string(records) +
           " records go in as they stand" +
           (alreadyThere > 0 ? "; " + all + " are in the book already." : ".");
}

} // namespace

Result<std::optional<ImportPlan>> planBookTables(
    const Book& book,
    std::int64_t nextId,
    const std::vector<std::filesystem::path>& files,
    const ImportOptions& options,
    const Progress& progress) {
    auto tables = openTables(files);
    if (!tables) {
        return fail(std::move(tables).error());
    }
    if (tables->empty()) {
        return std::nullopt;
    }
    for (OpenTable& table : *tables) {
        table.mostShown = options.previewRows;
    }
    BookRows rows(*std::move(tables));
    if (auto read = rows.read(progress.part(0.0, 0.9)); !read) {
        return fail(std::move(read).error());
    }
    if (rows.newer()) {
        return fail(*rows.newer());
    }
    TablesPlanner planner(rows, book, options.badRows);
    if (!rows.anyUnusable()) {
        planner.checkIds();
        planner.checkReferences();
    }
    ImportPlan plan;
    plan.isWholeBook = true;
    plan.nextId = nextId;
    plan.notices = std::move(rows.notices());
    plan.files = previewsOf(rows);
    gatherFaults(rows, options.badRows, plan);
    if (plan.refused) {
        return plan;
    }
    if (auto error = planner.clash()) {
        return fail(*std::move(error));
    }
    plan.edits = planner.edits();
    auto applied = applyEdits(book, plan.edits);
    if (!applied) {
        return fail(std::move(applied).error());
    }
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    plan.counts = countNew(book, applied->book);
    plan.nextId = std::max({nextId, rows.nextId().value_or(1), largestId(plan.edits) + 1});
    if (!rows.saysHowMuch()) {
        plan.notices.emplace_back(
            "The table meta (meta.csv) is not among the files, so nobody can tell whether rows or "
            "whole tables are missing.");
    }
    plan.notices.push_back(takenIn(planner.putIn(), planner.alreadyThere()));
    progress.at(1.0);
    return plan;
}

} // namespace bedlore
