// SPDX-License-Identifier: MIT
#pragma once

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

// The rules of who may include whom, as functions of a file's name and text.

namespace bedlore::testing {

/// Lowest first. A file includes only its own layer or lower ones.
inline constexpr std::array<std::string_view, 10> coreLayers{
    "base", "units", "geometry", "geodesy", "book", "reduction", "bed", "check", "chart", "io"};
inline constexpr std::array<std::string_view, 10> guiLayers{
    "paint",
    "jobs",
    "document",
    "models",
    "widgets",
    "plan_view",
    "section_view",
    "panels",
    "dialogs",
    "window"};

inline std::vector<std::string_view> pathParts(std::string_view path) {
    std::vector<std::string_view> parts;
    while (!path.empty()) {
        const std::size_t slash = path.find('/');
        parts.push_back(path.substr(0, slash));
        path = slash == std::string_view::npos ? std::string_view{} : path.substr(slash + 1);
    }
    return parts;
}

/// How high a file of core, gui or app stands: core's layers first, then gui's, then app. −1 for a
/// folder that is no layer.
inline int heightOf(std::string_view path) {
    const auto parts = pathParts(path);
    const auto within = [&](const auto& layers, int base) {
        const auto at = std::find(layers.begin(), layers.end(), parts.size() > 2 ? parts[1] : "");
        return at == layers.end() ? -1 : base + static_cast<int>(at - layers.begin());
    };
    if (parts.front() == "core") {
        return within(coreLayers, 0);
    }
    if (parts.front() == "gui") {
        return within(guiLayers, 100);
    }
    return parts.front() == "app" ? 200 : -1;
}

/// What stands between the quotes or angles of an include line; empty for any other line.
inline std::string_view includedName(std::string_view line) {
    const auto skipBlanks = [&] {
        line.remove_prefix(std::min(line.find_first_not_of(" \t"), line.size()));
    };
    skipBlanks();
    if (!line.starts_with('#')) {
        return {};
    }
    line.remove_prefix(1);
    skipBlanks();
    if (!line.starts_with("include")) {
        return {};
    }
    line.remove_prefix(7);
    skipBlanks();
    const std::size_t end = line.find_first_of("\">", 1);
    return end == std::string_view::npos ? std::string_view{} : line.substr(1, end - 1);
}

inline bool startsWithAny(std::string_view name, std::initializer_list<std::string_view> prefixes) {
    return std::any_of(
        prefixes.begin(), prefixes.end(), [&](auto prefix) { return name.starts_with(prefix); });
}

inline bool isQt(std::string_view name) {
    return name.size() > 1 && name[0] == 'Q' &&
           (name[1] == 't' || (name[1] >= 'A' && name[1] <= 'Z'));
}

/// A library that stays behind one door: inside .cpp files of core (JSON in app too).
inline bool isHiddenLibrary(std::string_view name) {
    return startsWithAny(
        name,
        {"boost/",
         "gdal",
         "ogr_",
         "ogrsf",
         "cpl_",
         "sqlite3",
         "proj.h",
         "proj_api",
         "proj/",
         "nlohmann/",
         "LBFGS"});
}

inline bool isEigen(std::string_view name) {
    return startsWithAny(name, {"Eigen/", "unsupported/Eigen"});
}

/// What is wrong with including `name` in the file `path`, or nothing.
inline std::string includeFault(std::string_view path, std::string_view name) {
    const bool header = path.ends_with(".hpp");
    const bool core = path.starts_with("core/");
    const bool gui = path.starts_with("gui/");
    if (startsWithAny(name, {"core/", "gui/", "app/", "tests/"})) {
        if (name.starts_with("tests/")) {
            return "the program does not lean on its tests";
        }
        return heightOf(name) > heightOf(path) ? "a lower layer includes a higher one" : "";
    }
    if (core && isQt(name)) {
        return "core has no Qt";
    }
    if (isHiddenLibrary(name) && header) {
        return "this library stays inside .cpp files";
    }
    if (isHiddenLibrary(name) && gui) {
        return "gui reaches this library through core";
    }
    const bool mayShowEigen = startsWithAny(path, {"core/geometry/", "core/bed/", "core/check/"});
    if (isEigen(name) && header && !mayShowEigen) {
        return "Eigen appears in headers of core/geometry, core/bed and core/check alone";
    }
    return "";
}

/// Every fault of the include lines of a file, each as "path:line: what: the line".
inline std::vector<std::string> includeFaults(const std::string& path, const std::string& text) {
    std::vector<std::string> faults;
    if (heightOf(path) < 0) {
        faults.push_back(path + ":1: this folder is no layer");
    }
    std::istringstream lines(text);
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
        const std::string_view name = includedName(line);
        const std::string fault = name.empty() ? "" : includeFault(path, name);
        if (!fault.empty()) {
            std::string& said = faults.emplace_back(path);
            said.append(":").append(std::to_string(number));
            said.append(": ").append(fault).append(": ").append(line);
        }
    }
    return faults;
}

inline std::string readText(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

/// The tree's own files, paths from the root with forward slashes, in order; built things and
/// dot-folders but `.ci` left out.
inline std::vector<std::string> treeFiles(const std::filesystem::path& root) {
    std::vector<std::string> files;
    auto at = std::filesystem::recursive_directory_iterator(root);
    for (; at != std::filesystem::recursive_directory_iterator(); ++at) {
        const std::string name = at->path().filename().string();
        const bool top = at.depth() == 0;
        if (at->is_directory() &&
            ((top && name.starts_with("build")) || (name.starts_with('.') && name != ".ci"))) {
            at.disable_recursion_pending();
        } else if (at->is_regular_file()) {
            files.push_back(at->path().lexically_relative(root).generic_string());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

inline bool isSource(std::string_view path) {
    return path.ends_with(".cpp") || path.ends_with(".hpp");
}

} // namespace bedlore::testing
