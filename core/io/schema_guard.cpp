// SPDX-License-Identifier: MIT
#include "core/io/schema_guard.hpp"

#include "core/io/derived_tables.hpp"
#include "core/io/import_text.hpp"

#include <algorithm>
#include <array>
#include <sqlite3.h>
#include <string>
#include <string_view>
#include <vector>

namespace bedlore {

namespace {

bool isIndexOrCount(std::string_view table) {
    return table == "gpkg_ogr_contents" ||
           (table.starts_with("rtree_") && table.ends_with("_geom"));
}

/// Those that the known triggers call, by the lower-case names that SQLite gives.
bool isIndexFunction(std::string_view name) {
    constexpr std::array<std::string_view, 6> functions{
        "st_isempty", "st_minx", "st_maxx", "st_miny", "st_maxy", "lower"};
    return std::find(functions.begin(), functions.end(), name) != functions.end();
}

/// SQLite asks this for each thing that a statement would do, while it is prepared.
int authorize( // NOLINT(readability-function-size): SQLite says which arguments
    void* /*unused*/,
    int action,
    const char* first,
    const char* second,
    const char* /*schema*/,
    const char* trigger) {
    if (trigger == nullptr) {
        return SQLITE_OK;
    }
    switch (action) {
    case SQLITE_READ:
    case SQLITE_SELECT:
        return SQLITE_OK;
    case SQLITE_FUNCTION:
        return second != nullptr && isIndexFunction(second) ? SQLITE_OK : SQLITE_DENY;
    case SQLITE_INSERT:
    case SQLITE_UPDATE:
    case SQLITE_DELETE:
        return first != nullptr && isIndexOrCount(first) ? SQLITE_OK : SQLITE_DENY;
    default:
        return SQLITE_DENY;
    }
}

struct SchemaPart {
    std::string type;
    std::string name;
    std::string table;
    std::string sql;
};

/// Names from annex F.3 of the GeoPackage standard, and of the row counts that GDAL keeps.
bool isKnownTrigger(const SchemaPart& part) {
    const std::vector<std::string_view> layers = derivedTableNames();
    if (std::find(layers.begin(), layers.end(), part.table) == layers.end()) {
        return false;
    }
    const std::string index = "rtree_" + part.table + "_geom_";
    if (part.name.starts_with(index)) {
        const std::string_view when = std::string_view(part.name).substr(index.size());
        return when == "insert" || when == "delete" ||
               (when.size() == 7 && when.starts_with("update") && when[6] >= '1' && when[6] <= '7');
    }
    return part.name == "trigger_insert_feature_count_" + part.table ||
           part.name == "trigger_delete_feature_count_" + part.table;
}

bool isKnownVirtualTable(const SchemaPart& part) {
    return part.name.starts_with("rtree_") && part.name.ends_with("_geom") &&
           part.sql.find(" USING rtree(") != std::string::npos;
}

bool isAllowed(const SchemaPart& part) {
    if (part.type == "view") {
        return false;
    }
    if (part.type == "trigger") {
        return isKnownTrigger(part);
    }
    constexpr std::string_view virtualTable = "CREATE VIRTUAL TABLE";
    return !part.sql.starts_with(virtualTable) || isKnownVirtualTable(part);
}

Error strangePart(
    const Database& database,
    const std::string& type,
    const std::string& name,
    std::string context = {}) {
    return inputError(
        "\"" + database.fileName() + "\" holds a " + type + " of another program (\"" +
            shown(name) +
            "\") that could change or hide what is in the book, so it is not opened. Remove it "
            "with the program that made it.",
        std::move(context));
}

/// A trigger with a known name may still do something else; then nothing prepares that fires it.
Result<void> checkTriggersOf(const Database& database, std::string_view table) {
    const LayerTriggers allowed(database);
    const std::string name = "\"" + std::string(table) + "\"";
    for (const std::string& sql :
         {"INSERT INTO " + name + " (geom) VALUES (NULL)", "DELETE FROM " + name}) {
        if (const Result<Statement> statement = database.prepare(sql); !statement) {
            return fail(
                strangePart(database, "trigger", std::string(table), statement.error().context));
        }
    }
    return {};
}

} // namespace

LayerTriggers::LayerTriggers(const Database& database)
    : database_(database) {
    sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 1, nullptr);
}

LayerTriggers::~LayerTriggers() {
    sqlite3_db_config(database_.handle(), SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
}

void confineTriggers(Database& database) {
    sqlite3_set_authorizer(database.handle(), authorize, nullptr);
}

Result<void> checkSchemaParts(const Database& database) {
    Result<Statement> rows =
        database.prepare("SELECT type, name, tbl_name, sql FROM sqlite_schema");
    if (!rows) {
        return fail(rows.error());
    }
    std::vector<std::string> triggered;
    Result<bool> more = rows->step();
    for (; more && *more; more = rows->step()) {
        const SchemaPart part{
            .type = std::string(rows->cell(0).text()),
            .name = std::string(rows->cell(1).text()),
            .table = std::string(rows->cell(2).text()),
            .sql = std::string(rows->cell(3).text())};
        if (!isAllowed(part)) {
            const bool isTable = part.type == "table";
            return fail(strangePart(database, isTable ? "table" : part.type, part.name));
        }
        if (part.type == "trigger") {
            triggered.push_back(part.table);
        }
    }
    if (!more) {
        return fail(more.error());
    }
    for (const std::string& table : triggered) {
        if (Result<void> fine = checkTriggersOf(database, table); !fine) {
            return fine;
        }
    }
    return {};
}

} // namespace bedlore
