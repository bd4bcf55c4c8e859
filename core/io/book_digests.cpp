// SPDX-License-Identifier: MIT
#include "core/io/book_digests.hpp"

#include "core/base/contract.hpp"

#include <algorithm>
#include <bit>
#include <utility>

namespace bedlore {

namespace {

constexpr const char* digestTable = R"sql(
CREATE TABLE digests (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,
  table_name TEXT NOT NULL UNIQUE,
  row_count INTEGER NOT NULL, -- rows that were written
  digest INTEGER NOT NULL -- sum modulo 2^64 of the rows' digests: XXH64 of the table's name under seed 0, then of each column in order under the value before plus 1 for NULL, 2 integer, 3 real, 4 text, 5 blob
);
)sql";

Error noSums(const Database& database) {
    return inputError(
        "\"" + database.fileName() +
            "\" is damaged: its check sums cannot be read. Use a copy of it from before.",
        "digests");
}

} // namespace

BookDigests::Rows& BookDigests::of(std::string_view table) {
    const auto found = tables_.find(table);
    return found != tables_.end() ? found->second : tables_[std::string(table)];
}

void BookDigests::append(std::string_view table, std::int64_t id, std::uint64_t digest) {
    Rows& rows = of(table);
    BEDLORE_EXPECTS(rows.rows.empty() || rows.rows.back().id < id);
    rows.rows.push_back({.id = id, .digest = digest});
    rows.sum += digest;
}

void BookDigests::put(std::string_view table, std::int64_t id, std::uint64_t digest) {
    set(table, id, digest);
}

void BookDigests::remove(std::string_view table, std::int64_t id) {
    set(table, id, std::nullopt);
}

void BookDigests::set(
    std::string_view table, std::int64_t id, std::optional<std::uint64_t> digest) {
    Rows& rows = of(table);
    const auto at =
        std::lower_bound(rows.rows.begin(), rows.rows.end(), id, [](const Row& row, auto wanted) {
            return row.id < wanted;
        });
    const bool there = at != rows.rows.end() && at->id == id;
    before_.push_back(
        {.table = table, .id = id, .digest = there ? std::optional(at->digest) : std::nullopt});
    rows.sum += digest.value_or(0) - (there ? at->digest : 0);
    if (there && digest) {
        at->digest = *digest;
    } else if (there) {
        rows.rows.erase(at);
    } else if (digest) {
        rows.rows.insert(at, {.id = id, .digest = *digest});
    }
}

void BookDigests::takeBack() {
    std::vector<Before> steps = std::exchange(before_, {});
    std::reverse(steps.begin(), steps.end());
    for (const Before& step : steps) {
        set(step.table, step.id, step.digest);
    }
    before_.clear();
}

TableSum BookDigests::sumOf(std::string_view table) const {
    const auto found = tables_.find(table);
    if (found == tables_.end()) {
        return {};
    }
    return {.rows = static_cast<std::int64_t>(found->second.rows.size()), .sum = found->second.sum};
}

std::vector<std::string> BookDigests::difference(const BookDigests& other) const {
    std::vector<std::string> names;
    const auto addFrom = [&](const BookDigests& from) {
        for (const auto& [name, rows] : from.tables_) {
            names.push_back(name);
        }
    };
    addFrom(*this);
    addFrom(other);
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    const auto rowsOf = [](const BookDigests& of, const std::string& name) {
        const auto found = of.tables_.find(name);
        return found != of.tables_.end() ? found->second.rows : std::vector<Row>{};
    };
    std::erase_if(names, [&](const std::string& name) {
        return sumOf(name) == other.sumOf(name) && rowsOf(*this, name) == rowsOf(other, name);
    });
    return names;
}

Result<void> createDigestTable(Database& database, const std::vector<std::string_view>& tables) {
    if (Result<void> made = database.execute(digestTable); !made) {
        return made;
    }
    Result<Statement> insert =
        database.prepare("INSERT INTO digests (table_name, row_count, digest) VALUES (?, 0, 0)");
    if (!insert) {
        return fail(insert.error());
    }
    for (const std::string_view table : tables) {
        insert->bind(1, table);
        if (Result<void> done = insert->run(); !done) {
            return done;
        }
    }
    return {};
}

Result<StoredSums> readStoredSums(const Database& database) {
    Result<Statement> rows = database.prepare("SELECT table_name, row_count, digest FROM digests");
    if (!rows) {
        return fail(rows.error());
    }
    StoredSums sums;
    Result<bool> more = rows->step();
    for (; more && *more; more = rows->step()) {
        if (rows->cell(0).type() != StoredType::Text ||
            rows->cell(1).type() != StoredType::Integer ||
            rows->cell(2).type() != StoredType::Integer) {
            return fail(noSums(database));
        }
        sums[std::string(rows->cell(0).text())] = {
            .rows = rows->cell(1).integer(),
            .sum = std::bit_cast<std::uint64_t>(rows->cell(2).integer())};
    }
    if (!more) {
        return fail(more.error());
    }
    return sums;
}

Result<void> storeSum(Database& database, std::string_view table, const TableSum& sum) {
    Result<Statement> put = database.prepare(
        "INSERT INTO digests (table_name, row_count, digest) VALUES (?, ?, ?) ON CONFLICT "
        "(table_name) DO UPDATE SET row_count = excluded.row_count, digest = excluded.digest");
    if (!put) {
        return fail(put.error());
    }
    put->bind(1, table);
    put->bind(2, sum.rows);
    put->bind(3, std::bit_cast<std::int64_t>(sum.sum));
    return put->run();
}

} // namespace bedlore
