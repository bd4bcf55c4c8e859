// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/sqlite_database.hpp"

// What another program may have added to a book's file, and what it may not.

namespace bedlore {

/// From now on a trigger may do nothing on this connection but keep the spatial index and the row
/// count of a layer: a statement that would fire any other does not prepare.
void confineTriggers(Database& database);

/// While it lives, a spatial index may be written by the triggers of its layer: SQLite counts the
/// index itself among the things that a file's schema must not touch unasked. What the triggers may
/// do stays confined.
class LayerTriggers {
public:
    explicit LayerTriggers(const Database& database);
    LayerTriggers(const LayerTriggers&) = delete;
    LayerTriggers& operator=(const LayerTriggers&) = delete;
    ~LayerTriggers();

private:
    const Database& database_;
};

/// Fails in a sentence that names the first view, trigger or virtual table that is not a GIS's
/// spatial index or row count on one of the layers for other programs. Extra tables and columns are
/// nobody's harm. Only after `confineTriggers`.
[[nodiscard]] Result<void> checkSchemaParts(const Database& database);

} // namespace bedlore
