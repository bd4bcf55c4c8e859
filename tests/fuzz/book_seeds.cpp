// SPDX-License-Identifier: MIT
#include "tests/fuzz/books.hpp"
#include "tests/fuzz/seeds.hpp"

namespace bedlore::fuzz {

std::vector<std::string> bookSeeds() {
    const std::string& whole = bytesOfABook();
    return {
        "",
        "SQLite format 3",
        whole,
        whole.substr(0, 100),
        whole.substr(0, whole.size() / 2),
        "at 18 02\nat 19 02\n",
        "at 56 00000003\n",
        "at 24 ffffffff\nat 1000 00\n",
        "cut 511\n",
        "cut 20000\n",
        "sql UPDATE readings SET substrate = 'lava'\n",
        "sql UPDATE readings SET line_from = 9e999\n",
        "sql UPDATE readings SET line_from = 1e300, depth = -1e300\n",
        "sql UPDATE readings SET line_from = 'far', note = x'00'\n",
        "sql UPDATE readings SET cast_record = 99\n",
        "sql UPDATE readings SET id = 9223372036854775807\n",
        "sql UPDATE visits SET date = '2025-02-30'\n",
        "sql UPDATE visits SET date = '-9999-01-01'\n",
        "sql UPDATE visits SET date = '2025\xB1"
        "04-12'\n",
        "sql UPDATE aims SET basis = replace(basis, '10,', '11,')\n",
        "sql UPDATE spots SET place = '['\n",
        "sql UPDATE waters SET shore = '[[[[[[[[]]]]]]]]', rules = char(0, 27, 1114111)\n",
        "sql UPDATE waters SET plane_origin_lat = 90, plane_origin_lon = 180\n",
        "sql UPDATE fix_sets SET columns_y = zeroblob(80000)\n",
        "sql UPDATE fix_sets SET columns_x = x'000000000000f07f'\n",
        "sql UPDATE reels SET calibration = '[]', spool = '{}'\n",
        "sql UPDATE meta SET next_id = 9223372036854775807\n",
        "sql UPDATE meta SET edit_number = 'x', format = 2\n",
        "sql DROP TABLE readings\n",
        "sql CREATE VIEW peep AS SELECT * FROM spots\n",
        "sql CREATE TRIGGER eat AFTER INSERT ON answers BEGIN DELETE FROM spots; END\n",
        "sql CREATE VIRTUAL TABLE rtree_soundings_geom USING rtree(id, a, b, c, d)\n",
        "sql CREATE TABLE mine (id INTEGER PRIMARY KEY, text TEXT)\n",
        "sql ALTER TABLE readings ADD COLUMN mine TEXT\n",
        "sql UPDATE sqlite_master SET sql = replace(sql, 'NOT NULL', '') WHERE name = 'readings'\n",
        "sql UPDATE sqlite_master SET rootpage = 3 WHERE name = 'visits'\n",
        "sql PRAGMA journal_mode = WAL\n",
        "sql PRAGMA encoding = 'UTF-16'\n",
        "sql PRAGMA user_version = 9\nsql PRAGMA application_id = 1\n",
        "sql DELETE FROM sqlite_sequence\nsql DELETE FROM gpkg_contents\n",
    };
}

} // namespace bedlore::fuzz
