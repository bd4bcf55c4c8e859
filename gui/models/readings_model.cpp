// SPDX-License-Identifier: MIT
#include "gui/models/readings_model.hpp"

#include "core/units/format.hpp"
#include "gui/models/list_heading.hpp"
#include "gui/models/reading_cells.hpp"

#include <utility>

namespace bedlore {

namespace {

QString distanceWords(const Reading& reading) {
    const auto words = [](const Entered& entered) {
        return QString::fromStdString(printEntered(entered));
    };
    return lineOutCell(
        words(reading.from), reading.to ? std::optional(words(*reading.to)) : std::nullopt);
}

/// The first of a cast says where it went; the rest follow it.
QString castWords(const Book& book, const Cast& cast) {
    const Aim* aim = cast.aim ? book.find(*cast.aim) : nullptr;
    return QString::fromStdString(aim != nullptr ? aim->label : cast.name);
}

} // namespace

std::vector<ReadingsModel::Row> ReadingsModel::rowsOf(const Book& book, Id<Visit> visit) {
    std::vector<Row> rows;
    for (const Cast* cast : castsOf(book, visit)) {
        bool isFirst = true;
        for (const Reading* reading : readingsOf(book, cast->id)) {
            Row row;
            row.reading = reading->id;
            row.cells[Aim] = isFirst ? castWords(book, *cast) : QString();
            row.cells[LineOut] = distanceWords(*reading);
            if (reading->depth) {
                row.cells[Depth] = QString::fromStdString(printEntered(reading->depth->value));
            }
            row.cells[Felt] = feltCell(*reading);
            row.cells[Note] = QString::fromStdString(reading->note);
            rows.push_back(std::move(row));
            isFirst = false;
        }
    }
    return rows;
}

void ReadingsModel::show(const std::shared_ptr<const Book>& book, std::optional<Id<Visit>> visit) {
    std::vector<Row> rows;
    if (visit && book->find(*visit) != nullptr) {
        rows = rowsOf(*book, *visit);
    }
    if (rows != rows_) {
        beginResetModel();
        rows_ = std::move(rows);
        endResetModel();
    }
}

Id<Reading> ReadingsModel::readingAt(int row) const {
    return rows_[static_cast<std::size_t>(row)].reading;
}

int ReadingsModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int ReadingsModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant ReadingsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || role != Qt::DisplayRole) {
        return {};
    }
    return rows_[static_cast<std::size_t>(index.row())].cells[index.column()];
}

QVariant ReadingsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    return listHeading(
        section,
        orientation,
        role,
        {tr("cast"), tr("line out"), tr("depth"), tr("felt"), tr("note")});
}

} // namespace bedlore

#include "moc_readings_model.cpp"
