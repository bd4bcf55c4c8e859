// SPDX-License-Identifier: MIT
#include "tests/architecture/source_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

namespace bedlore::testing {
namespace {

namespace fs = std::filesystem;

const fs::path root = BEDLORE_SOURCE_DIR;

TEST(Tree, RootHoldsTheAgreedNamesAlone) {
    const std::set<std::string> allowed{
        "CMakeLists.txt",
        "CMakePresets.json",
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "app",
        "core",
        "gui",
        "resources",
        "samples",
        "tests",
        // Not in the repository: what building and editing leave behind.
        "compile_commands.json",
        "CMakeUserPresets.json"};
    for (const auto& entry : fs::directory_iterator(root)) {
        const std::string name = entry.path().filename().string();
        const bool built = name == "build" || name.starts_with("build-");
        EXPECT_TRUE(name.starts_with('.') || built || allowed.contains(name))
            << name << " does not belong in the root";
    }
}

TEST(Tree, EveryFolderOfCoreAndGuiIsNamedForContributors) {
    const std::string guide = readText(root / "DEVELOPERS.md");
    for (const char* part : {"core", "gui"}) {
        for (const auto& entry : fs::directory_iterator(root / part)) {
            if (entry.is_directory()) {
                const std::string name =
                    "`" + std::string(part) + "/" + entry.path().filename().string() + "`";
                EXPECT_NE(guide.find(name), std::string::npos)
                    << "DEVELOPERS.md does not name " << name;
            }
        }
    }
}

TEST(Tree, EverySourceAndScriptBeginsWithItsLicence) {
    for (const std::string& path : treeFiles(root)) {
        const std::string text = readText(root / path);
        if (isSource(path)) {
            EXPECT_TRUE(text.starts_with("// SPDX-License-Identifier: MIT\n")) << path << ":1";
        } else if (text.starts_with("#!")) {
            const std::size_t second = text.find('\n') + 1;
            EXPECT_EQ(text.compare(second, 31, "# SPDX-License-Identifier: MIT\n"), 0)
                << path << ":2";
        }
    }
}

TEST(Tree, HeaderIsReadOnce) {
    for (const std::string& path : treeFiles(root)) {
        if (path.ends_with(".hpp")) {
            EXPECT_NE(readText(root / path).find("\n#pragma once\n"), std::string::npos) << path;
        }
    }
}

// What others made reaches no library code but that of the formats that are read.
TEST(Tree, NoSourceRegistersEveryDriverOfGdal) {
    for (const std::string& path : treeFiles(root)) {
        const bool ours =
            path.starts_with("core/") || path.starts_with("gui/") || path.starts_with("app/");
        if (!ours || !isSource(path)) {
            continue;
        }
        const std::string text = readText(root / path);
        for (const char* all : {"AllRegister", "OGRRegisterAll", "RegisterAllInternal"}) {
            EXPECT_EQ(text.find(all), std::string::npos) << path << " calls " << all;
        }
    }
}

TEST(Tree, NoFileNamesAPlaceOnSomebodysMachine) {
    // Put together here so that this file does not trip over itself.
    const std::string slash = "/";
    const std::vector<std::string> places{
        slash + "home" + slash,
        slash + "root" + slash,
        slash + "Users" + slash,
        slash + "work" + slash,
        slash + "tmp" + slash,
        "C:\\Users"};
    for (const std::string& path : treeFiles(root)) {
        const bool text = isSource(path) || path.ends_with(".md") || path.ends_with(".txt") ||
                          path.ends_with(".json") || path.ends_with(".csv") ||
                          readText(root / path).starts_with("#!");
        if (!text) {
            continue;
        }
        std::istringstream lines(readText(root / path));
        std::string line;
        for (int number = 1; std::getline(lines, line); ++number) {
            for (const std::string& place : places) {
                EXPECT_EQ(line.find(place), std::string::npos)
                    << path << ":" << number << ": " << line;
            }
        }
    }
}

} // namespace
} // namespace bedlore::testing
