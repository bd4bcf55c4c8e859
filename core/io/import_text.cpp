// SPDX-License-Identifier: MIT
#include "core/io/import_text.hpp"

#include <algorithm>
#include <cstdint>
#include <cstring>

namespace bedlore {

namespace {

constexpr std::size_t sentenceCharacters = 1000;

unsigned char at(std::string_view text, std::size_t i) {
    return static_cast<unsigned char>(text[i]);
}

/// Bytes of a character that begins with `lead`, or 0 where none does.
std::size_t bytesFrom(unsigned char lead) {
    if (lead < 0x80) {
        return 1;
    }
    if (lead < 0xC2 || lead > 0xF4) {
        return 0;
    }
    return lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
}

/// Overlong forms, surrogates and what lies beyond U+10FFFF show in the second byte.
bool mayFollow(unsigned char lead, unsigned char second) {
    const unsigned char low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
    return second >= low && second <= high;
}

/// Bytes of the well-formed character at `i`, or 0. Source: The Unicode Standard 15.0, table 3-7.
std::size_t characterBytes(std::string_view text, std::size_t i) {
    const unsigned char lead = at(text, i);
    const std::size_t count = bytesFrom(lead);
    if (count <= 1) {
        return count;
    }
    if (text.size() - i < count || !mayFollow(lead, at(text, i + 1))) {
        return 0;
    }
    for (std::size_t k = 2; k < count; ++k) {
        if ((at(text, i + k) & 0xC0U) != 0x80U) {
            return 0;
        }
    }
    return count;
}

/// Whether eight bytes are all plain ASCII and none of them NUL.
bool plainEight(const char* bytes) {
    std::uint64_t word = 0;
    std::memcpy(&word, bytes, sizeof word);
    constexpr std::uint64_t high = 0x8080808080808080U;
    constexpr std::uint64_t ones = 0x0101010101010101U;
    return (word & high) == 0 && ((word - ones) & high) == 0;
}

bool isControl(std::string_view text, std::size_t i) {
    const unsigned char c = at(text, i);
    // U+0080 to U+009F are controls too, and some terminals obey them.
    return c < 0x20 || c == 0x7F || (c == 0xC2 && i + 1 < text.size() && at(text, i + 1) < 0xA0);
}

} // namespace

std::optional<std::size_t> firstBadByte(std::string_view text) {
    std::size_t i = 0;
    while (i < text.size()) {
        if (text.size() - i >= 8 && plainEight(text.data() + i)) {
            i += 8;
            continue;
        }
        const std::size_t count = text[i] == '\0' ? 0 : characterBytes(text, i);
        if (count == 0) {
            return i;
        }
        i += count;
    }
    return std::nullopt;
}

std::string namedByte(char byte) {
    if (byte == '\0') {
        return "a NUL byte";
    }
    constexpr std::string_view digits = "0123456789ABCDEF";
    const auto value = static_cast<unsigned char>(byte);
    return std::string("byte ") + digits[value >> 4U] + digits[value & 0xFU];
}

std::optional<std::string> otherEncoding(std::string_view firstBytes) {
    using namespace std::string_view_literals;
    if (firstBytes.starts_with("\xFF\xFE\0\0"sv) || firstBytes.starts_with("\0\0\xFE\xFF"sv)) {
        return "UTF-32";
    }
    if (firstBytes.starts_with("\xFF\xFE"sv) || firstBytes.starts_with("\xFE\xFF"sv)) {
        return "UTF-16";
    }
    return std::nullopt;
}

std::string shown(std::string_view text, std::size_t most) {
    std::string result;
    std::size_t characters = 0;
    for (std::size_t i = 0; i < text.size(); ++characters) {
        if (characters == most) {
            return result + "…";
        }
        const std::size_t count = characterBytes(text, i);
        if (count == 0 || isControl(text, i)) {
            result += "\xEF\xBF\xBD"; // U+FFFD, the replacement character
        } else {
            result += text.substr(i, count);
        }
        i += std::max<std::size_t>(count, 1);
    }
    return result;
}

std::string shownSentence(std::string_view text) {
    return shown(text, sentenceCharacters);
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string lowerCase(std::string_view text) {
    std::string result(text);
    for (char& c : result) {
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return result;
}

bool hasControlCharacters(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (isControl(text, i)) {
            return true;
        }
    }
    return false;
}

int lineAt(std::string_view text, std::size_t offset) {
    int line = 1;
    for (std::size_t i = 0; i < std::min(offset, text.size()); ++i) {
        const bool half = text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n';
        line += (text[i] == '\n' || text[i] == '\r') && !half ? 1 : 0;
    }
    return line;
}

} // namespace bedlore
