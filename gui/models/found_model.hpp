// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/book_search.hpp"

#include <QAbstractTableModel>

#include <vector>

// What a search found.

namespace bedlore {

class FoundModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Text, Where, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(std::vector<FoundLine> lines);
    [[nodiscard]] const FoundLine& lineAt(int row) const {
        return lines_[static_cast<std::size_t>(row)];
    }

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;

private:
    std::vector<FoundLine> lines_;
};

} // namespace bedlore
