// SPDX-License-Identifier: MIT
#include "gui/document/practice_book.hpp"

#include "core/io/import.hpp"
#include "core/units/format.hpp"
#include "gui/document/document.hpp"

#include <QStandardPaths>
#include <QTemporaryDir>

#include <algorithm>
#include <array>
#include <fstream>
#include <string>
#include <system_error>
#include <vector>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

struct NotebookFile {
    const char* name;
    const char* text;
};

// The files of samples/wrackle-mere, compiled in by this folder's CMakeLists.txt.
constexpr std::array notebook{
#include "practice_notebook.inc"
};

constexpr const char* waterName = "Wrackle Mere";

Result<std::vector<fs::path>> unpackInto(const QTemporaryDir& folder) {
    std::vector<fs::path> files;
    for (const NotebookFile& file : notebook) {
        files.push_back(fs::path(folder.path().toStdString()) / file.name);
        std::ofstream out(files.back(), std::ios::binary);
        out << file.text;
        if (!folder.isValid() || !out.flush()) {
            return fail(machineError(
                "The practice pages cannot be unpacked: is the folder for temporary files full?"));
        }
    }
    return files;
}

/// A book with the practice pages in it, under a name that nobody looks for.
Result<void> makeDraft(const fs::path& draft) {
    const QTemporaryDir folder;
    const auto files = unpackInto(folder);
    if (!files) {
        return fail(files.error());
    }
    auto document = Document::create(draft);
    if (!document) {
        return fail(document.error());
    }
    ImportOptions options;
    options.water = waterName;
    const auto plan =
        planImport(*(*document)->book(), (*document)->freeIds().next(), *files, options);
    if (!plan) {
        return fail(plan.error());
    }
    const auto applied = (*document)->takeIn("practice water", *plan);
    return applied ? Result<void>() : fail(applied.error());
}

fs::path draftOf(const fs::path& path) {
    return path.parent_path() / (path.stem().string() + ".new" + path.extension().string());
}

Result<void> renamed(const fs::path& from, const fs::path& to) {
    std::error_code error;
    fs::rename(from, to, error);
    return error ? Result<void>(fail(machineError(
                       "\"" + from.filename().string() + "\" cannot be renamed to \"" +
                       to.filename().string() + "\". Is the folder read-only?")))
                 : Result<void>();
}

} // namespace

std::string_view practicePage(std::string_view swim, Date date) {
    // A page begins with its swim and its date.
    const std::string head = "swim " + std::string(swim) + "\ndate " + isoDate(date) + "\n";
    const auto* const found =
        std::find_if(notebook.begin(), notebook.end(), [&](const NotebookFile& file) {
            return std::string_view(file.text).starts_with(head);
        });
    return found != notebook.end() ? found->text : std::string_view();
}

fs::path usualPracticePath() {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
    return fs::path(folder.toStdString()) / "bedlore" / "wrackle-mere.gpkg";
}

Result<void> makePracticeBook(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path.parent_path(), error);
    if (fs::exists(path, error)) {
        return fail(inputError(
            "\"" + path.filename().string() + "\" is there already: nothing was changed."));
    }
    // What a cut-off attempt left behind is nobody's work.
    const fs::path draft = draftOf(path);
    fs::remove(draft, error);
    Result<void> made = makeDraft(draft);
    if (made) {
        made = renamed(draft, path);
    }
    if (!made) {
        fs::remove(draft, error);
    }
    return made;
}

fs::path nameToKeepUnder(const fs::path& path) {
    for (int number = 1;; ++number) {
        fs::path name = path.parent_path() / (path.stem().string() + ".kept-" +
                                              std::to_string(number) + path.extension().string());
        std::error_code error;
        if (!fs::exists(name, error)) {
            return name;
        }
    }
}

Result<fs::path> restorePracticeBook(const fs::path& path) {
    const fs::path kept = nameToKeepUnder(path);
    if (Result<void> aside = renamed(path, kept); !aside) {
        return fail(aside.error());
    }
    if (Result<void> made = makePracticeBook(path); !made) {
        static_cast<void>(renamed(kept, path)); // the first fault is the one to tell
        return fail(made.error());
    }
    return kept;
}

} // namespace bedlore
