// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/io/geopackage_geometry.hpp"
#include "core/io/sqlite_database.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

// One feature table of a GeoPackage: its making, filling and dropping.

namespace bedlore {

/// How a feature table is declared. `columns` are those after `id` and `geom`, as in
/// "depth_m REAL".
struct LayerShape {
    std::string_view geometryType; ///< "POINT" or "LINESTRING"
    std::vector<std::string_view> columns;
    std::string_view description;
};

using LayerValue =
    std::variant<std::monostate, std::int64_t, double, std::string_view, std::string>;

/// A row's value that may be missing, in a layer's own units.
template <class T>
[[nodiscard]] LayerValue layerValue(const std::optional<T>& value) {
    return value ? LayerValue(*value) : LayerValue();
}

/// Fills a feature table from scratch, inside a transaction of the caller's.
class LayerTable {
public:
    /// Makes the table where it is not there or has another system, empties it where it is.
    [[nodiscard]] static Result<LayerTable>
    start(Database& database, std::string name, int srsId, const LayerShape& shape);

    /// A row with a point, or a line of at least two. A second row of the same `id` is left out.
    [[nodiscard]] Result<void>
    add(std::int64_t id, std::span<const LayerPoint> geometry, const std::vector<LayerValue>& row);
    /// Lists the table with its extent and the time of the change.
    [[nodiscard]] Result<void> finish();

    /// Takes the table out of the file with everything that a GIS hung on it. Nothing if it is not
    /// there.
    [[nodiscard]] static Result<void> drop(Database& database, const std::string& name);

private:
    LayerTable(Database& database, std::string name, int srsId, Statement insert)
        : database_(&database)
        , name_(std::move(name))
        , srsId_(srsId)
        , insert_(std::move(insert)) {}

    Database* database_;
    std::string name_;
    int srsId_;
    Statement insert_;
    std::optional<LayerBox> extent_;
};

} // namespace bedlore
