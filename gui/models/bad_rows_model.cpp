// SPDX-License-Identifier: MIT
#include "gui/models/bad_rows_model.hpp"

#include "gui/models/cell_tip.hpp"
#include "gui/models/list_heading.hpp"

#include <utility>

namespace bedlore {

void BadRowsModel::show(std::vector<BadRow> rows) {
    beginResetModel();
    rows_ = std::move(rows);
    endResetModel();
}

int BadRowsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int BadRowsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant BadRowsModel::data(const QModelIndex& index, int role) const {
    if (index.isValid() && role == Qt::ToolTipRole) {
        return cellTip(data(index, Qt::DisplayRole).toString());
    }
    if (!index.isValid() || role != Qt::DisplayRole) {
        return {};
    }
    const BadRow& row = rows_[static_cast<std::size_t>(index.row())];
    switch (index.column()) {
    case File:
        return QString::fromStdString(row.file);
    case Line:
        return row.line;
    case Field:
        return QString::fromStdString(row.field);
    case Found:
        return QString::fromStdString(row.found);
    case Expected:
        return QString::fromStdString(row.expected);
    default:
        return {};
    }
}

QVariant BadRowsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    return listHeading(
        section,
        orientation,
        role,
        {tr("file"), tr("line"), tr("field"), tr("found"), tr("expected")});
}

} // namespace bedlore

#include "moc_bad_rows_model.cpp"
