// SPDX-License-Identifier: MIT
#include "gui/models/keys_model.hpp"

#include "gui/models/cell_tip.hpp"
#include "gui/models/list_heading.hpp"

#include <QStringList>

#include <algorithm>
#include <iterator>
#include <utility>

namespace bedlore {

KeysModel::KeysModel(std::vector<KeyRow> rows, QObject* parent)
    : QAbstractTableModel(parent)
    , all_(std::move(rows))
    , shown_(all_) {}

void KeysModel::narrow(const QString& typed) {
    const QStringList wanted = typed.simplified().split(u' ', Qt::SkipEmptyParts);
    const auto holds = [&wanted](const KeyRow& row) {
        const QString line = row.words + u' ' + row.key + u' ' + row.where;
        return std::all_of(wanted.begin(), wanted.end(), [&line](const QString& word) {
            return line.contains(word, Qt::CaseInsensitive);
        });
    };
    beginResetModel();
    shown_.clear();
    std::copy_if(all_.begin(), all_.end(), std::back_inserter(shown_), holds);
    endResetModel();
}

int KeysModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(shown_.size());
}

int KeysModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant KeysModel::data(const QModelIndex& index, int role) const {
    if (index.isValid() && role == Qt::ToolTipRole) {
        return cellTip(data(index, Qt::DisplayRole).toString());
    }
    if (!index.isValid() || role != Qt::DisplayRole) {
        return {};
    }
    const KeyRow& row = shown_[static_cast<std::size_t>(index.row())];
    switch (index.column()) {
    case Words:
        return row.words;
    case Key:
        return row.key;
    default:
        return row.where;
    }
}

QVariant KeysModel::headerData(int section, Qt::Orientation orientation, int role) const {
    return listHeading(section, orientation, role, {tr("what it does"), tr("key"), tr("where")});
}

} // namespace bedlore

#include "moc_keys_model.cpp"
