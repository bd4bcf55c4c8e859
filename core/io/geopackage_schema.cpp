// SPDX-License-Identifier: MIT
#include "core/io/geopackage_schema.hpp"

#include "core/io/book_file.hpp"
#include "core/io/record_tables.hpp"
#include "core/io/row_digest.hpp"

namespace bedlore {

namespace {

// "GPKG" in the header (requirement 2), and the version as 10000·major + 100·minor.
constexpr std::int64_t geoPackageId = 0x47504B47;
constexpr int geoPackageVersion = 10200;
constexpr std::int64_t oldestGeoPackageVersion = 10200;

// Column names, types and constraints: annex C of the standard.
constexpr const char* standardTables = R"sql(
CREATE TABLE gpkg_spatial_ref_sys (
  srs_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL PRIMARY KEY,
  organization TEXT NOT NULL,
  organization_coordsys_id INTEGER NOT NULL,
  definition TEXT NOT NULL,
  description TEXT
);
CREATE TABLE gpkg_contents (
  table_name TEXT NOT NULL PRIMARY KEY,
  data_type TEXT NOT NULL,
  identifier TEXT UNIQUE,
  description TEXT DEFAULT '',
  last_change DATETIME NOT NULL DEFAULT (strftime('%Y-%m-%dT%H:%M:%fZ','now')),
  min_x DOUBLE,
  min_y DOUBLE,
  max_x DOUBLE,
  max_y DOUBLE,
  srs_id INTEGER,
  CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys(srs_id)
);
CREATE TABLE gpkg_geometry_columns (
  table_name TEXT NOT NULL,
  column_name TEXT NOT NULL,
  geometry_type_name TEXT NOT NULL,
  srs_id INTEGER NOT NULL,
  z TINYINT NOT NULL,
  m TINYINT NOT NULL,
  CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name),
  CONSTRAINT uk_gc_table_name UNIQUE (table_name),
  CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),
  CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id)
);
)sql";

// The three systems of requirement 11; WKT of WGS 84 as the standard's own table 2 example gives
// it, with EPSG's parameters.
constexpr const char* standardSystems = R"sql(
INSERT INTO gpkg_spatial_ref_sys VALUES
  ('Undefined Cartesian SRS', -1, 'NONE', -1, 'undefined',
   'metres east and north of a place that nobody said'),
  ('Undefined geographic SRS', 0, 'NONE', 0, 'undefined',
   'undefined geographic coordinate reference system'),
  ('WGS 84 geodetic', 4326, 'EPSG', 4326,
   'GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563,AUTHORITY["EPSG","7030"]],AUTHORITY["EPSG","6326"]],PRIMEM["Greenwich",0,AUTHORITY["EPSG","8901"]],UNIT["degree",0.0174532925199433,AUTHORITY["EPSG","9122"]],AUTHORITY["EPSG","4326"]]',
   'longitude and latitude in degrees on WGS 84');
)sql";

constexpr const char* metaTable = R"sql(
CREATE TABLE meta (
  id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL CHECK (id = 1),
  format INTEGER NOT NULL, -- of the book's tables; a program that knows only lower ones keeps off
  next_id INTEGER NOT NULL, -- the first id not yet given to any record; none is given twice
  edit_number INTEGER NOT NULL, -- edits written in the book's life
  derived_from INTEGER, -- edit number that soundings, casts and swims were made from, NULL for none
  change_count INTEGER -- the file change counter of SQLite's header after the last write of this program; another one there means that another program wrote
);
)sql";

} // namespace

Result<void> createGeoPackage(Database& database) {
    const std::string header = "PRAGMA application_id = " + std::to_string(geoPackageId) +
                               "; PRAGMA user_version = " + std::to_string(geoPackageVersion) + ";";
    const std::string counters =
        "INSERT INTO meta VALUES (1, " + std::to_string(bookFormat) + ", 1, 0, NULL, NULL);";
    for (const std::string& sql :
         {header,
          std::string(standardTables),
          std::string(standardSystems),
          std::string(metaTable),
          counters}) {
        if (Result<void> done = database.execute(sql); !done) {
            return done;
        }
    }
    if (Result<void> done = createRecordTables(database); !done) {
        return done;
    }
    std::vector<std::string_view> tables = recordTableNames();
    for (const std::string_view table : tables) {
        if (Result<void> done = registerAttributes(database, table, "what was noted"); !done) {
            return done;
        }
    }
    tables.push_back(metaTableName);
    Result<void> done = createDigestTable(database, tables);
    if (done) {
        done = registerAttributes(database, "digests", "check sums of what was noted");
    }
    return done ? registerAttributes(database, metaTableName, "format and counters of the book")
                : done;
}

Result<void>
registerAttributes(Database& database, std::string_view table, std::string_view description) {
    Result<Statement> insert = database.prepare(
        "INSERT INTO gpkg_contents (table_name, data_type, identifier, description) "
        "VALUES (?1, 'attributes', ?1, ?2)");
    if (!insert) {
        return fail(insert.error());
    }
    insert->bind(1, table);
    insert->bind(2, description);
    return insert->run();
}

Error damagedCounters(const Database& database) {
    return inputError(
        "\"" + database.fileName() +
            "\" is damaged: its counters cannot be read. Use a copy of it from before.",
        "meta");
}

Result<BookCounters> readCounters(const Database& database) {
    Result<Statement> row = database.prepare(
        "SELECT format, next_id, edit_number, derived_from, change_count FROM meta WHERE id = 1");
    if (!row) {
        return fail(row.error());
    }
    const Result<bool> there = row->step();
    if (!there) {
        return fail(there.error());
    }
    const auto isNumber = [&](int column) {
        return row->cell(column).type() == StoredType::Integer;
    };
    const auto isNumberOrNothing = [&](int column) {
        return isNumber(column) || row->cell(column).type() == StoredType::Null;
    };
    const auto isCounter = [&](int column, std::int64_t least) {
        return isNumber(column) && row->cell(column).integer() >= least &&
               row->cell(column).integer() <= largestCounter;
    };
    if (!*there || !isNumber(0) || !isCounter(1, 1) || !isCounter(2, 0) || !isNumberOrNothing(3) ||
        !isNumberOrNothing(4)) {
        return fail(damagedCounters(database));
    }
    return BookCounters{
        .format = row->cell(0).integer(),
        .nextId = row->cell(1).integer(),
        .editNumber = row->cell(2).integer(),
        .derivedFrom = isNumber(3) ? std::optional(row->cell(3).integer()) : std::nullopt,
        .changeCount = isNumber(4) ? std::optional(row->cell(4).integer()) : std::nullopt};
}

Result<bool>
storeCounters(Database& database, const BookCounters& counters, std::int64_t editNumberBefore) {
    Result<Statement> update = database.prepare(
        "UPDATE meta SET format = ?, next_id = ?, edit_number = ?, derived_from = ?, "
        "change_count = ? WHERE id = 1 AND edit_number = ?");
    if (!update) {
        return fail(update.error());
    }
    const auto bindMaybe = [&](int parameter, const std::optional<std::int64_t>& value) {
        if (value) {
            update->bind(parameter, *value);
        } else {
            update->bindNull(parameter);
        }
    };
    update->bind(1, counters.format);
    update->bind(2, counters.nextId);
    update->bind(3, counters.editNumber);
    bindMaybe(4, counters.derivedFrom);
    bindMaybe(5, counters.changeCount);
    update->bind(6, editNumberBefore);
    if (Result<void> done = update->run(); !done) {
        return fail(done.error());
    }
    if (database.changes() != 1) {
        return false;
    }
    if (Result<void> done = storeSum(database, metaTableName, sumOf(counters)); !done) {
        return fail(done.error());
    }
    return true;
}

TableSum sumOf(const BookCounters& counters) {
    RowDigest digest(metaTableName);
    digest.integer(1); // the row's id
    digest.integer(counters.format);
    digest.integer(counters.nextId);
    digest.integer(counters.editNumber);
    for (const auto& maybe : {counters.derivedFrom, counters.changeCount}) {
        if (maybe) {
            digest.integer(*maybe);
        } else {
            digest.null();
        }
    }
    return {.rows = 1, .sum = digest.value()};
}

Result<int> checkIsBook(const Database& database, int newest) {
    const std::string file = "\"" + database.fileName() + "\"";
    const Result<std::int64_t> id = database.integer("PRAGMA application_id");
    if (!id) {
        return fail(id.error());
    }
    const Result<std::int64_t> version = database.integer("PRAGMA user_version");
    const Result<std::int64_t> metas = database.integer(
        "SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'meta'");
    if (!version || !metas) {
        return fail(version ? metas.error() : version.error());
    }
    if (*id != geoPackageId || *version < oldestGeoPackageVersion || *metas != 1) {
        return fail(inputError(
            noBookWords(database.fileName()),
            "application " + std::to_string(*id) + ", version " + std::to_string(*version)));
    }
    const Result<std::string> encoding = database.text("PRAGMA encoding");
    if (!encoding || *encoding != "UTF-8") {
        return fail(inputError(
            file + " is not a Bedlore book: its text is not UTF-8.",
            encoding ? *encoding : encoding.error().context));
    }
    const Result<std::int64_t> format = database.integer("SELECT format FROM meta WHERE id = 1");
    if (!format) {
        return fail(format.error());
    }
    if (*format > newest) {
        return fail(inputError(
            file + " was made by a newer Bedlore (format " + std::to_string(*format) +
            "; this one reads up to " + std::to_string(newest) +
            "). Open it with the newer program."));
    }
    if (*format < 1) {
        return fail(inputError(
            file + " is damaged: its format is " + std::to_string(*format) +
            ". Use a copy of it from before."));
    }
    return static_cast<int>(*format);
}

} // namespace bedlore
