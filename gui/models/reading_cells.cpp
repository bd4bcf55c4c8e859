// SPDX-License-Identifier: MIT
#include "gui/models/reading_cells.hpp"

#include "gui/document/readout.hpp"

#include <QCoreApplication>

namespace bedlore {

QString lineOutCell(const QString& from, const std::optional<QString>& to) {
    return to ? QCoreApplication::translate("ReadingCells", "%1 to %2").arg(from, *to) : from;
}

QString feltCell(Reading reading) {
    reading.depth.reset();
    return QString::fromStdString(feltWords(reading));
}

} // namespace bedlore
