// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/key_row.hpp"

#include <QAbstractTableModel>

#include <vector>

// The keys of the window, as many as hold what is looked for.

namespace bedlore {

class KeysModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Words, Key, Where, ColumnCount };

    explicit KeysModel(std::vector<KeyRow> rows, QObject* parent = nullptr);

    /// Only rows that hold every word of `typed`, letter case aside.
    void narrow(const QString& typed);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant
    headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    std::vector<KeyRow> all_;
    std::vector<KeyRow> shown_;
};

} // namespace bedlore
