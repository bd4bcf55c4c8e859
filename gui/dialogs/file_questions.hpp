// SPDX-License-Identifier: MIT
#pragma once

#include <QString>
#include <QStringList>

class QWidget;

// Questions for a file: which is to be read, and where something is to be written.

namespace bedlore {

struct FileQuestion {
    QString caption;
    QString start;  ///< the folder to look in first, or a whole name
    QString filter; ///< as of a file dialog; none for all files
    QString ending; ///< ".gpkg"; a name to write under gets it, unless it has it in some case
};

/// Empty where he turned back, as with the others.
[[nodiscard]] QString askFileToRead(QWidget* parent, const FileQuestion& question);
[[nodiscard]] QStringList askFilesToRead(QWidget* parent, const FileQuestion& question);

/// Asks for a name that is free. Whether one that is taken may be replaced is not asked: nothing
/// is replaced there, and what writes says so.
[[nodiscard]] QString askFreeName(QWidget* parent, const FileQuestion& question);

/// Asks for a name, and whether what is there may be replaced.
[[nodiscard]] QString askNameToWrite(QWidget* parent, const FileQuestion& question);

/// `name` with `ending`, unless it ends so already, in whatever case.
[[nodiscard]] QString withEnding(const QString& name, const QString& ending);

} // namespace bedlore
