// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/io/sqlite_database.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

// Layers for other programs, made from the notes: swims, casts and soundings where they are.

namespace bedlore {

/// Names that the layers can have. Waters with a position lie in WGS 84, in `swims`, `casts` and
/// `soundings`; so do waters without one, in the undefined Cartesian system, when no water of the
/// book has a position, else theirs are named `swims_plane` and so on.
[[nodiscard]] std::vector<std::string_view> derivedTableNames();

/// Makes the layers anew inside a transaction of the caller's, who notes in `meta` which edit they
/// come from. `book` is what the reductions were made from. Layers that nothing belongs to any more
/// are dropped; a spatial index that a GIS added to one that stays is kept up to date. `progress`
/// hears how far it is; stopping is the caller's (`StopsStatements`).
[[nodiscard]] Result<void> writeDerivedTables(
    Database& database,
    const Book& book,
    const std::vector<Reduction>& reductions,
    const Progress& progress = {});

} // namespace bedlore
