// SPDX-License-Identifier: MIT
#include "gui/window/dropped_files.hpp"

#include "core/io/formats.hpp"
#include "core/io/import_folder.hpp"

#include <QCoreApplication>
#include <QMimeData>
#include <QStringList>
#include <QUrl>

#include <system_error>

namespace bedlore {

namespace {

QString tr(const char* text) {
    return QCoreApplication::translate("bedlore::DroppedFiles", text);
}

QString nameOf(const std::filesystem::path& path) {
    return QString::fromStdString(path.filename().string());
}

/// "notes.txt", or "3 files".
QString named(const std::vector<std::filesystem::path>& files) {
    return files.size() == 1 ? nameOf(files.front()) : tr("%1 files").arg(files.size());
}

void addTablesOf(const std::filesystem::path& folder, DroppedFiles& files) {
    const auto tables = filesIn({folder});
    if (tables) {
        files.others.insert(files.others.end(), tables->begin(), tables->end());
    } else {
        files.refusals.push_back(QString::fromStdString(tables.error().message));
    }
}

} // namespace

DroppedFiles droppedFiles(const QMimeData& data) {
    DroppedFiles files;
    for (const QUrl& url : data.urls()) {
        if (!url.isLocalFile()) {
            continue;
        }
        const std::filesystem::path path = url.toLocalFile().toStdString();
        std::error_code ignored;
        if (std::filesystem::is_directory(path, ignored)) {
            addTablesOf(path, files);
        } else if (nameOf(path).endsWith(QLatin1String(".gpkg"), Qt::CaseInsensitive)) {
            files.books.push_back(path);
        } else if (familyOf(path.filename().string())) {
            files.others.push_back(path);
        } else {
            files.strange.push_back(path);
        }
    }
    return files;
}

bool dropDoesSomething(const DroppedFiles& files, DropDesk desk) {
    return !files.books.empty() || (!files.others.empty() && desk == DropDesk::Writable);
}

QString dropWords(const DroppedFiles& files, DropDesk desk) {
    QStringList words;
    const bool opens = !files.books.empty();
    if (opens) {
        words << tr("The book %1 opens.")
                     .arg(QString::fromStdString(files.books.front().stem().string()));
    }
    if (files.books.size() > 1) {
        words << tr("One book is open at a time: the others are left alone.");
    }
    if (!files.others.empty()) {
        if (opens || desk == DropDesk::Writable) {
            words << (opens ? tr("Then %1 can be looked through and taken into it.")
                            : tr("%1 can be looked through before anything is taken in."))
                         .arg(named(files.others));
        } else {
            words << (desk == DropDesk::NoBook
                          ? tr("Open a book or begin a new one first: then %1 can be taken in.")
                          : tr("This book is open for reading only: %1 cannot be taken in."))
                         .arg(named(files.others));
        }
    }
    if (!files.strange.empty()) {
        words << tr("%1 cannot be read here: pages (.txt), tables (.csv), shorelines (.geojson, "
                    ".json, .kml, .gpx), books (.gpkg) and folders of tables can.")
                     .arg(named(files.strange));
    }
    for (const QString& refusal : files.refusals) {
        words << refusal;
    }
    return words.join(u' ');
}

} // namespace bedlore
