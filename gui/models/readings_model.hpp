// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/book.hpp"

#include <QAbstractTableModel>

#include <memory>
#include <optional>
#include <vector>

// The readings of one visit as rows.

namespace bedlore {

/// Shows its own snapshot of the book: rows change only in `setBook` and `setVisit`.
class ReadingsModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { Aim, LineOut, Depth, Felt, Note, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(const std::shared_ptr<const Book>& book, std::optional<Id<Visit>> visit);
    [[nodiscard]] Id<Reading> readingAt(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant
    headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    struct Row {
        Id<Reading> reading;
        QString cells[ColumnCount];
        friend bool operator==(const Row&, const Row&) = default;
    };
    [[nodiscard]] static std::vector<Row> rowsOf(const Book& book, Id<Visit> visit);

    std::vector<Row> rows_;
};

} // namespace bedlore
