// SPDX-License-Identifier: MIT
#include "gui/models/aims_model.hpp"

#include "core/units/format.hpp"
#include "gui/document/aim_words.hpp"
#include "gui/document/readout.hpp"
#include "gui/models/list_heading.hpp"
#include "gui/models/reading_cells.hpp"

#include <QStringList>

#include <utility>

namespace bedlore {

namespace {

QString toQt(const std::string& text) {
    return QString::fromStdString(text);
}

/// In his own unit where the length is known, else as he wrote it.
QString lineOutWords(
    Length wrap, const PlacedReading& placed, const Reading& record, const DisplayUnits& units) {
    const auto words = [&](const std::optional<bedlore::LineOut>& line, const Entered& entered) {
        return toQt(line ? printDistance(line->length, units, wrap) : printEntered(entered));
    };
    return lineOutCell(
        words(placed.line, record.from),
        record.to ? std::optional(words(placed.lineTo, *record.to)) : std::nullopt);
}

QString depthWords(
    const BedMap& map,
    const PlacedReading& placed,
    const Reading& record,
    const DisplayUnits& units) {
    if (placed.level) {
        return toQt(printLength(depthAt(*placed.level, map.level).belowSurface, units.depth));
    }
    return record.depth ? toQt(printEntered(record.depth->value)) : QString();
}

QString feltAndNote(const Reading& record) {
    QStringList words{feltCell(record), toQt(record.note)};
    words.removeAll(QString());
    return words.join(QStringLiteral(", "));
}

constexpr quintptr aimLevel = 0; // internal id of an aim; that of a reading is its aim's row + 1

} // namespace

AimsModel::AimRow
AimsModel::rowOf(const BedMap& map, const AimLine& aim, const DisplayUnits& units) {
    AimRow row;
    int number = 0;
    for (const std::size_t cast : aim.casts) {
        bool isFirst = true;
        ++number;
        for (const PlacedReading& placed : map.reduction.readings) {
            const Reading* record = map.book->find(placed.reading);
            if (placed.cast != cast || record == nullptr) {
                continue;
            }
            ReadingRow reading;
            reading.reading = placed.reading;
            reading.cells[Cast] = isFirst ? tr("cast %1").arg(number) : QString();
            reading.cells[LineOut] = lineOutWords(aim.wrap, placed, *record, units);
            reading.cells[Depth] = depthWords(map, placed, *record, units);
            reading.cells[Felt] = feltAndNote(*record);
            row.readings.push_back(std::move(reading));
            isFirst = false;
        }
    }
    row.words = tr("%1: %2").arg(toQt(aim.label), toQt(aimSource(map, aim))) +
                QStringLiteral(" · ") + (number == 1 ? tr("1 cast") : tr("%1 casts").arg(number));
    return row;
}

void AimsModel::show(
    const std::shared_ptr<const BedMap>& map,
    const std::vector<AimLine>& aims,
    const DisplayUnits& units) {
    std::vector<AimRow> rows;
    for (const AimLine& aim : map != nullptr ? aims : std::vector<AimLine>{}) {
        rows.push_back(rowOf(*map, aim, units));
    }
    if (rows != aims_) {
        beginResetModel();
        aims_ = std::move(rows);
        endResetModel();
    }
}

const AimsModel::ReadingRow* AimsModel::rowAt(const QModelIndex& index) const {
    if (!index.isValid() || index.internalId() == aimLevel) {
        return nullptr;
    }
    return &aims_[index.internalId() - 1].readings[static_cast<std::size_t>(index.row())];
}

std::optional<std::size_t> AimsModel::aimAt(const QModelIndex& index) const {
    if (!index.isValid()) {
        return std::nullopt;
    }
    return index.internalId() == aimLevel ? static_cast<std::size_t>(index.row())
                                          : static_cast<std::size_t>(index.internalId() - 1);
}

std::optional<Id<Reading>> AimsModel::readingAt(const QModelIndex& index) const {
    const ReadingRow* row = rowAt(index);
    return row != nullptr ? std::optional(row->reading) : std::nullopt;
}

QModelIndex AimsModel::indexOfAim(std::size_t aim) const {
    return aim < aims_.size() ? index(static_cast<int>(aim), 0) : QModelIndex();
}

QModelIndex AimsModel::indexOfReading(Id<Reading> reading) const {
    for (std::size_t aim = 0; aim < aims_.size(); ++aim) {
        const auto& readings = aims_[aim].readings;
        for (std::size_t i = 0; i < readings.size(); ++i) {
            if (readings[i].reading == reading) {
                return index(static_cast<int>(i), 0, indexOfAim(aim));
            }
        }
    }
    return {};
}

QModelIndex AimsModel::index(int row, int column, const QModelIndex& parent) const {
    if (!hasIndex(row, column, parent)) {
        return {};
    }
    const quintptr id = parent.isValid() ? static_cast<quintptr>(parent.row()) + 1 : aimLevel;
    return createIndex(row, column, id);
}

QModelIndex AimsModel::parent(const QModelIndex& index) const {
    if (!index.isValid() || index.internalId() == aimLevel) {
        return {};
    }
    return createIndex(static_cast<int>(index.internalId() - 1), 0, aimLevel);
}

int AimsModel::rowCount(const QModelIndex& parent) const {
    if (!parent.isValid()) {
        return static_cast<int>(aims_.size());
    }
    if (parent.internalId() != aimLevel || parent.column() != 0) {
        return 0;
    }
    return static_cast<int>(aims_[static_cast<std::size_t>(parent.row())].readings.size());
}

int AimsModel::columnCount(const QModelIndex&) const {
    return ColumnCount;
}

QVariant AimsModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || (role != Qt::DisplayRole && role != Qt::AccessibleTextRole)) {
        return {};
    }
    const ReadingRow* reading = rowAt(index);
    if (reading == nullptr) {
        const bool first = index.column() == 0;
        return first ? aims_[static_cast<std::size_t>(index.row())].words : QVariant();
    }
    if (role == Qt::AccessibleTextRole) {
        QStringList whole;
        for (const QString& cell : reading->cells) {
            if (!cell.isEmpty()) {
                whole << cell;
            }
        }
        return whole.join(QStringLiteral(", "));
    }
    return reading->cells[static_cast<std::size_t>(index.column())];
}

QVariant AimsModel::headerData(int section, Qt::Orientation orientation, int role) const {
    return listHeading(
        section, orientation, role, {tr("aim"), tr("line out"), tr("depth"), tr("felt")});
}

} // namespace bedlore

#include "moc_aims_model.cpp"
