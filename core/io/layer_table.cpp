// SPDX-License-Identifier: MIT
#include "core/io/layer_table.hpp"

#include "core/base/contract.hpp"
#include "core/base/overloaded.hpp"

namespace bedlore {

namespace {

Result<void> runWith(Database& database, std::string_view sql, std::string_view name) {
    Result<Statement> statement = database.prepare(sql);
    if (!statement) {
        return fail(statement.error());
    }
    statement->bind(1, name);
    return statement->run();
}

Result<bool> hasTable(const Database& database, std::string_view name) {
    Result<Statement> row =
        database.prepare("SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = ?");
    if (!row) {
        return fail(row.error());
    }
    row->bind(1, name);
    return row->step();
}

/// The system of a listed layer, none where it is not listed.
Result<std::optional<std::int64_t>> listedSystem(const Database& database, std::string_view name) {
    Result<Statement> row =
        database.prepare("SELECT srs_id FROM gpkg_geometry_columns WHERE table_name = ?");
    if (!row) {
        return fail(row.error());
    }
    row->bind(1, name);
    const Result<bool> there = row->step();
    if (!there) {
        return fail(there.error());
    }
    return *there ? std::optional(row->cell(0).integer()) : std::nullopt;
}

Result<void>
makeTable(Database& database, const std::string& name, int srsId, const LayerShape& shape) {
    std::string sql = "CREATE TABLE \"" + name +
                      "\" (\n  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL,\n  geom " +
                      std::string(shape.geometryType);
    for (const std::string_view column : shape.columns) {
        sql += ",\n  " + std::string(column);
    }
    if (Result<void> done = database.execute(sql + "\n)"); !done) {
        return done;
    }
    Result<Statement> contents = database.prepare(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description, srs_id) "
        "VALUES (?1, 'features', ?1, ?2, ?3)");
    Result<Statement> geometry =
        database.prepare("INSERT INTO gpkg_geometry_columns VALUES (?1, 'geom', ?2, ?3, 0, 0)");
    if (!contents || !geometry) {
        return fail(contents ? geometry.error() : contents.error());
    }
    contents->bind(1, std::string_view(name));
    contents->bind(2, shape.description);
    contents->bind(3, std::int64_t{srsId});
    if (Result<void> done = contents->run(); !done) {
        return done;
    }
    geometry->bind(1, std::string_view(name));
    geometry->bind(2, shape.geometryType);
    geometry->bind(3, std::int64_t{srsId});
    return geometry->run();
}

void bindValue(Statement& statement, int parameter, const LayerValue& value) {
    std::visit(
        Overloaded{
            [&](std::monostate) { statement.bindNull(parameter); },
            [&](const std::string& text) { statement.bind(parameter, std::string_view(text)); },
            [&](const auto& other) { statement.bind(parameter, other); }},
        value);
}

} // namespace

Result<LayerTable>
LayerTable::start(Database& database, std::string name, int srsId, const LayerShape& shape) {
    const Result<std::optional<std::int64_t>> system = listedSystem(database, name);
    if (!system) {
        return fail(system.error());
    }
    Result<void> ready;
    if (*system == srsId) {
        ready = database.execute("DELETE FROM \"" + name + "\"");
    } else {
        ready = drop(database, name);
        if (ready) {
            ready = makeTable(database, name, srsId, shape);
        }
    }
    if (!ready) {
        return fail(ready.error());
    }
    std::string names = "id, geom";
    std::string marks = "?, ?";
    for (const std::string_view column : shape.columns) {
        names += ", " + std::string(column.substr(0, column.find(' ')));
        marks += ", ?";
    }
    Result<Statement> insert = database.prepare(
        "INSERT OR IGNORE INTO \"" + name + "\" (" + names + ") VALUES (" + marks + ")");
    if (!insert) {
        return fail(insert.error());
    }
    return LayerTable(database, std::move(name), srsId, std::move(*insert));
}

Result<void> LayerTable::add(
    std::int64_t id, std::span<const LayerPoint> geometry, const std::vector<LayerValue>& row) {
    BEDLORE_EXPECTS(!geometry.empty());
    for (const LayerPoint& point : geometry) {
        if (!extent_) {
            extent_ = LayerBox{point.x, point.y, point.x, point.y};
        }
        extent_->add(point);
    }
    const std::vector<std::byte> bytes =
        geometry.size() == 1 ? encodePoint(srsId_, geometry[0]) : encodeLine(srsId_, geometry);
    insert_.bind(1, id);
    insert_.bind(2, std::span<const std::byte>(bytes));
    int parameter = 3;
    for (const LayerValue& value : row) {
        bindValue(insert_, parameter++, value);
    }
    return insert_.run();
}

Result<void> LayerTable::finish() {
    Result<Statement> contents = database_->prepare(
        "UPDATE gpkg_contents SET min_x = ?2, min_y = ?3, max_x = ?4, max_y = ?5, "
        "last_change = strftime('%Y-%m-%dT%H:%M:%fZ', 'now') WHERE table_name = ?1");
    if (!contents) {
        return fail(contents.error());
    }
    contents->bind(1, std::string_view(name_));
    if (extent_) {
        contents->bind(2, extent_->minX);
        contents->bind(3, extent_->minY);
        contents->bind(4, extent_->maxX);
        contents->bind(5, extent_->maxY);
    }
    return contents->run();
}

Result<void> LayerTable::drop(Database& database, const std::string& name) {
    // A spatial index and a count of the rows are what a GIS adds.
    if (Result<void> done = database.execute("DROP TABLE IF EXISTS \"rtree_" + name + "_geom\"");
        !done) {
        return done;
    }
    for (const char* table :
         {"gpkg_extensions", "gpkg_ogr_contents", "gpkg_geometry_columns", "gpkg_contents"}) {
        const Result<bool> there = hasTable(database, table);
        if (!there) {
            return fail(there.error());
        }
        const std::string sql = std::string("DELETE FROM ") + table + " WHERE table_name = ?";
        if (Result<void> done = *there ? runWith(database, sql, name) : Result<void>{}; !done) {
            return done;
        }
    }
    return database.execute("DROP TABLE IF EXISTS \"" + name + "\"");
}

} // namespace bedlore
