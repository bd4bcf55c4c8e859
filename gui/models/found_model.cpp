// SPDX-License-Identifier: MIT
#include "gui/models/found_model.hpp"

#include <utility>

namespace bedlore {

void FoundModel::show(std::vector<FoundLine> lines) {
    beginResetModel();
    lines_ = std::move(lines);
    endResetModel();
}

int FoundModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(lines_.size());
}

int FoundModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant FoundModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const FoundLine& line = lineAt(index.row());
    if (role == Qt::AccessibleTextRole) {
        return line.text + QStringLiteral(", ") + line.where;
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    return index.column() == Text ? line.text : line.where;
}

} // namespace bedlore

#include "moc_found_model.cpp"
