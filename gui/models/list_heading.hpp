// SPDX-License-Identifier: MIT
#pragma once

#include <QStringList>
#include <QVariant>

namespace bedlore {

/// What stands over column `section` of a list whose columns have these words over them: for
/// `QAbstractItemModel::headerData`.
[[nodiscard]] inline QVariant
listHeading(int section, Qt::Orientation orientation, int role, const QStringList& words) {
    const bool isOver = orientation == Qt::Horizontal && role == Qt::DisplayRole;
    return isOver && section >= 0 && section < words.size() ? QVariant(words[section]) : QVariant();
}

} // namespace bedlore
