// SPDX-License-Identifier: MIT
#include "core/io/import_text.hpp"

#include <gtest/gtest.h>

namespace bedlore {

namespace {

using namespace std::string_view_literals;

TEST(ImportText, KnowsGoodUtf8) {
    for (const std::string_view good :
         {""sv,
          "plain"sv,
          "28½ — ok"sv,
          "\xF0\x9F\x8E\xA3"sv,
          "\xED\x9F\xBF"sv,
          "\xEF\xBF\xBF"sv,
          "\xF4\x8F\xBF\xBF"sv}) {
        EXPECT_FALSE(firstBadByte(good).has_value()) << good;
    }
}

// Source: The Unicode Standard 15.0, table 3-7, and the ill-formed sequences of its section 3.9.
TEST(ImportText, FindsTheFirstByteThatIsNoUtf8) {
    EXPECT_EQ(firstBadByte("caf\xE9"sv), 3U);          // Latin-1
    EXPECT_EQ(firstBadByte("12345678\xE9"sv), 8U);     // behind a plain word
    EXPECT_EQ(firstBadByte("\xC0\xAF"sv), 0U);         // overlong "/"
    EXPECT_EQ(firstBadByte("\xE0\x80\xAF"sv), 0U);     // overlong again
    EXPECT_EQ(firstBadByte("\xED\xA0\x80"sv), 0U);     // a surrogate
    EXPECT_EQ(firstBadByte("\xF4\x90\x80\x80"sv), 0U); // beyond U+10FFFF
    EXPECT_EQ(firstBadByte("ab\xE2\x82"sv), 2U);       // cut off
    EXPECT_EQ(firstBadByte("ab\x80"sv), 2U);           // goes on without a beginning
    EXPECT_EQ(firstBadByte("12345678\0"sv), 8U);       // NUL
    EXPECT_EQ(firstBadByte("1234567\x01\x00"sv), 8U);
}

TEST(ImportText, TellsOtherEncodingsByTheirMark) {
    EXPECT_EQ(otherEncoding("\xFF\xFEs\0"sv), "UTF-16");
    EXPECT_EQ(otherEncoding("\xFE\xFF\0s"sv), "UTF-16");
    EXPECT_EQ(otherEncoding("\xFF\xFE\0\0"sv), "UTF-32");
    EXPECT_FALSE(otherEncoding("\xEF\xBB\xBFswim"sv).has_value());
    EXPECT_FALSE(otherEncoding("").has_value());
}

TEST(ImportText, ShowsOnlyWhatATerminalCannotObey) {
    EXPECT_EQ(shown("28½"), "28½");
    EXPECT_EQ(shown("a\x1b[31mb\nc"), "a\uFFFD[31mb\uFFFDc");
    EXPECT_EQ(
        shown("\xC2\x9B"
              "31m"),
        "\uFFFD31m");
    EXPECT_EQ(shown("caf\xE9!"), "caf\uFFFD!");
    EXPECT_EQ(shown(std::string(60, 'x')), std::string(60, 'x'));
    EXPECT_EQ(shown(std::string(61, 'x')), std::string(60, 'x') + "…");
    EXPECT_EQ(
        shown(
            "a\x05"
            "bc",
            2),
        "a\uFFFD…");
    EXPECT_EQ(shownSentence(std::string(999, 'x') + "\x05y"), std::string(999, 'x') + "\uFFFD…");
}

TEST(ImportText, CountsLinesByAnyEnd) {
    const std::string_view text = "a\r\nb\nc\rd";
    EXPECT_EQ(lineAt(text, 0), 1);
    EXPECT_EQ(lineAt(text, 3), 2);
    EXPECT_EQ(lineAt(text, 5), 3);
    EXPECT_EQ(lineAt(text, 7), 4);
}

} // namespace

} // namespace bedlore
