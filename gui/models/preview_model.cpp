// SPDX-License-Identifier: MIT
#include "gui/models/preview_model.hpp"

#include "gui/models/cell_tip.hpp"

#include <utility>

namespace bedlore {

void PreviewModel::show(FilePreview file) {
    beginResetModel();
    file_ = std::move(file);
    endResetModel();
}

int PreviewModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(file_.rows.size());
}

int PreviewModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() || file_.columns.empty() ? 0
                                                     : static_cast<int>(file_.columns.size()) + 1;
}

QVariant PreviewModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const PreviewRow& row = file_.rows[static_cast<std::size_t>(index.row())];
    const bool toLookAt = row.isUnclear || row.isBad;
    if (role == Qt::ForegroundRole && toLookAt) {
        return palette(colours_).warn;
    }
    if (role == Qt::ToolTipRole) {
        return cellTip(data(index, Qt::DisplayRole).toString());
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    if (index.column() == 0) {
        const QString mark = row.isBad       ? QStringLiteral(" ×")
                             : row.isUnclear ? QStringLiteral(" ?")
                                             : QString();
        return QString::number(row.line) + mark;
    }
    const auto column = static_cast<std::size_t>(index.column()) - 1;
    return column < row.cells.size() ? QString::fromStdString(row.cells[column]) : QString();
}

QVariant PreviewModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    return section == 0
               ? tr("line")
               : QString::fromStdString(file_.columns[static_cast<std::size_t>(section) - 1]);
}

} // namespace bedlore

#include "moc_preview_model.cpp"
