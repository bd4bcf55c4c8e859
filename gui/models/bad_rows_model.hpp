// SPDX-License-Identifier: MIT
#pragma once

#include "core/io/import.hpp"

#include <QAbstractTableModel>

#include <vector>

// Rows of files that cannot be used, each with where it is and what was expected.

namespace bedlore {

class BadRowsModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { File, Line, Field, Found, Expected, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(std::vector<BadRow> rows);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant
    headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    std::vector<BadRow> rows_;
};

} // namespace bedlore
