// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/aims.hpp"
#include "gui/document/display_units.hpp"

#include <QAbstractItemModel>
#include <QString>

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

// The aims from left to right as he stands, each with its casts and what was felt on them.

namespace bedlore {

/// Two levels: an aim says how it was got, and under it stand its readings cast by cast, from far
/// to near, in the units that he reads in.
class AimsModel : public QAbstractItemModel {
    Q_OBJECT

public:
    enum Column { Cast, LineOut, Depth, Felt, ColumnCount };

    using QAbstractItemModel::QAbstractItemModel;

    void show(
        const std::shared_ptr<const BedMap>& map,
        const std::vector<AimLine>& aims,
        const DisplayUnits& units);

    [[nodiscard]] std::optional<std::size_t> aimAt(const QModelIndex& index) const;
    /// None for the row of an aim.
    [[nodiscard]] std::optional<Id<Reading>> readingAt(const QModelIndex& index) const;
    [[nodiscard]] QModelIndex indexOfAim(std::size_t aim) const;
    [[nodiscard]] QModelIndex indexOfReading(Id<Reading> reading) const;

    [[nodiscard]] QModelIndex
    index(int row, int column, const QModelIndex& parent = {}) const override;
    [[nodiscard]] QModelIndex parent(const QModelIndex& index) const override;
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant
    headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    struct ReadingRow {
        Id<Reading> reading;
        std::array<QString, ColumnCount> cells;
        friend bool operator==(const ReadingRow&, const ReadingRow&) = default;
    };
    struct AimRow {
        QString words;
        std::vector<ReadingRow> readings;
        friend bool operator==(const AimRow&, const AimRow&) = default;
    };
    [[nodiscard]] static AimRow
    rowOf(const BedMap& map, const AimLine& aim, const DisplayUnits& units);
    [[nodiscard]] const ReadingRow* rowAt(const QModelIndex& index) const;

    std::vector<AimRow> aims_;
};

} // namespace bedlore
