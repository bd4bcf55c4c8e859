// SPDX-License-Identifier: MIT
#include "tests/architecture/source_rules.hpp"
#include "tests/support/statistics_words.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <set>
#include <string>
#include <vector>

// No sentence that the program can say has a word of statistics, said or not in any test of the
// window: they are read where they stand in the source.

namespace bedlore::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// Goes through source text and leaves comments out.
class LiteralReader {
public:
    explicit LiteralReader(const std::string& text)
        : text_(text) {}

    /// Strings as they stand in the source; those that follow each other are one. Raw ones are left
    /// out: they are of other languages.
    std::vector<std::string> read() {
        while (at_ < text_.size()) {
            step();
        }
        return std::move(found_);
    }

private:
    [[nodiscard]] bool stands(const char* what) const {
        return text_.compare(at_, std::char_traits<char>::length(what), what) == 0;
    }
    void skipBehind(const std::string& end, std::size_t from) {
        const std::size_t found = text_.find(end, from);
        at_ = found == std::string::npos ? text_.size() : found + end.size();
    }
    void step() {
        if (stands("//")) {
            skipBehind("\n", at_);
        } else if (stands("/*")) {
            skipBehind("*/", at_ + 2);
        } else if (stands("R\"")) {
            const std::size_t open = text_.find('(', at_);
            skipBehind(")" + text_.substr(at_ + 2, open - at_ - 2) + "\"", open + 1);
            isOpen_ = false;
        } else if (text_[at_] == '"' || text_[at_] == '\'') {
            quoted(text_[at_]);
        } else {
            isOpen_ = isOpen_ && std::isspace(static_cast<unsigned char>(text_[at_])) != 0;
            ++at_;
        }
    }
    void quoted(char quote) {
        // Between the digits of a number it is no quote.
        const bool isNumber =
            quote == '\'' && at_ > 0 && std::isxdigit(static_cast<unsigned char>(text_[at_ - 1]));
        const std::size_t begin = ++at_;
        if (isNumber) {
            return;
        }
        while (at_ < text_.size() && text_[at_] != quote) {
            at_ += text_[at_] == '\\' ? 2U : 1U;
        }
        if (quote == '"') {
            take(text_.substr(begin, at_ - begin));
        } else {
            isOpen_ = false;
        }
        ++at_;
    }
    void take(const std::string& literal) {
        if (isOpen_) {
            found_.back() += literal;
        } else {
            found_.push_back(literal);
        }
        isOpen_ = true;
    }

    const std::string& text_;
    std::size_t at_ = 0;
    std::vector<std::string> found_;
    bool isOpen_ = false; ///< nothing but blanks since the last
};

/// Not on the screen: what stands in files for other programs, and what is for whoever mends this
/// one.
const std::set<std::string> elsewhere{
    "covariance matrix not positive definite", // the context of an error
    "place_sigma_m REAL",                      // columns of the layers for other programs
    "depth_sigma_m REAL",
    "along_sigma_m REAL",
    "across_sigma_m REAL",
    "float32 little-endian: standard error [m], NaN where not given", // what such a column holds
    "standard error", // the second band of a GeoTIFF
    " mean "};        // "does 11.6 mean 11 ft 6?", put together

TEST(Words, LiteralsAreFoundAndCommentsAreNot) {
    EXPECT_THAT(
        LiteralReader("// \"a comment\"\nsay(\"one \" // why\n    \"sentence\", '\"', 1'000);\n"
                      "R\"(raw \"text\")\"; /* \"no\" */ \"a \\\"b\\\"\"")
            .read(),
        ElementsAre("one sentence", "a \\\"b\\\""));
}

TEST(Words, OfStatisticsAreFoundAsWholeWords) {
    for (const char* bad :
         {"the mean depth",
          "Confidence: high",
          "an estimate",
          "an interval of 1 ft",
          "standard error",
          "covariances",
          "its deviation"}) {
        EXPECT_NE(statisticsWordIn(bad), "") << bad;
    }
    for (const char* fine :
         {"what a word means",
          "did you mean \"sticks\"?",
          "does 11.6 mean 11 ft 6?",
          "was taken to mean",
          "columns that mean nothing here",
          "meanwhile"}) {
        EXPECT_EQ(statisticsWordIn(fine), "") << fine;
    }
}

/// Literals of more than one word.
std::vector<std::string> sentencesOf(const std::string& path) {
    const std::string text = readText(std::filesystem::path(BEDLORE_SOURCE_DIR) / path);
    std::vector<std::string> sentences = LiteralReader(text).read();
    std::erase_if(sentences, [](const std::string& literal) {
        return literal.find(' ') == std::string::npos || elsewhere.contains(literal);
    });
    return sentences;
}

TEST(Words, NoSentenceOfTheProgramIsOfStatistics) {
    std::size_t count = 0;
    std::vector<std::string> bad;
    for (const std::string& path : treeFiles(BEDLORE_SOURCE_DIR)) {
        if (!isSource(path) || !startsWithAny(path, {"gui/", "core/"})) {
            continue;
        }
        for (const std::string& sentence : sentencesOf(path)) {
            ++count;
            if (!statisticsWordIn(sentence).empty()) {
                bad.push_back(std::string(path).append(": ").append(sentence));
            }
        }
    }
    EXPECT_THAT(bad, IsEmpty());
    EXPECT_GT(count, 1000U) << "the sentences were not found";
}

} // namespace
} // namespace bedlore::testing
