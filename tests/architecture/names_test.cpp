// SPDX-License-Identifier: MIT
#include "tests/architecture/source_rules.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <regex>
#include <sstream>

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;

/// Types that a header defines in the open namespace, in their order.
std::vector<std::string> typesIn(const std::string& text) {
    static const std::regex definition(R"(^(class|struct) ([A-Z]\w*)( final)?( : .*)?( \{.*)?$)");
    std::vector<std::string> names;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::smatch match;
        if (std::regex_match(line, match, definition)) {
            names.push_back(match[2]);
        }
    }
    return names;
}

// Two types of one name in one program are one to the linker: it keeps the destructor of either.
TEST(Names, NoTwoTypesShareOne) {
    std::map<std::string, std::string> headerOf;
    for (const std::string& path : treeFiles(BEDLORE_SOURCE_DIR)) {
        if (!path.ends_with(".hpp") || path.starts_with("tests/")) {
            continue;
        }
        for (const std::string& name :
             typesIn(readText(std::filesystem::path(BEDLORE_SOURCE_DIR) / path))) {
            const auto [other, isNew] = headerOf.emplace(name, path);
            EXPECT_TRUE(isNew) << name << " stands in " << other->second << " and in " << path;
        }
    }
    EXPECT_GT(headerOf.size(), 100U) << "the headers were not found";
}

TEST(Names, DefinitionsAreFoundAndDeclarationsAreNot) {
    EXPECT_THAT(
        typesIn("class QWidget;\nstruct Aim {\nclass Desk : public QWidget {\n    struct Inner {\n"
                "struct Empty {};\n"),
        ElementsAre("Aim", "Desk", "Empty"));
}

} // namespace
} // namespace bedlore::testing
