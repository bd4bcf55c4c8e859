// SPDX-License-Identifier: MIT
#include "core/io/import_folder.hpp"

#include "core/io/formats.hpp"

#include <algorithm>
#include <system_error>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

Result<std::vector<fs::path>> tablesIn(const fs::path& folder) {
    constexpr std::size_t most = 1000;
    std::vector<fs::path> tables;
    std::error_code failed;
    fs::directory_iterator entry(folder, failed);
    for (; !failed && entry != fs::directory_iterator(); entry.increment(failed)) {
        const fs::path& path = entry->path();
        // What some systems keep beside a file under a hidden name is no table.
        const bool isHidden = path.filename().native().starts_with('.');
        if (isHidden || familyOf(path.filename().native()) != FileFamily::Csv) {
            continue;
        }
        if (tables.size() == most) {
            return fail(inputError(
                "The folder " + folder.string() + " holds more than " + std::to_string(most) +
                " tables. Name those that are to be read."));
        }
        tables.push_back(path);
    }
    if (failed) {
        return fail(machineError(
            "The folder " + folder.string() + " cannot be looked into.", failed.message()));
    }
    if (tables.empty()) {
        return fail(
            inputError("There are no tables (.csv) in the folder " + folder.string() + "."));
    }
    std::sort(tables.begin(), tables.end());
    return tables;
}

} // namespace

Result<std::vector<fs::path>> filesIn(const std::vector<fs::path>& paths) {
    std::vector<fs::path> files;
    for (const fs::path& path : paths) {
        std::error_code failed;
        if (!fs::is_directory(path, failed)) {
            files.push_back(path);
            continue;
        }
        const auto tables = tablesIn(path);
        if (!tables) {
            return fail(tables.error());
        }
        files.insert(files.end(), tables->begin(), tables->end());
    }
    return files;
}

} // namespace bedlore
