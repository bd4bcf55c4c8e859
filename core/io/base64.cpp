// SPDX-License-Identifier: MIT
#include "core/io/base64.hpp"

#include <array>
#include <cstdint>

namespace bedlore {

namespace {

constexpr std::string_view alphabet =
    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr std::uint8_t noDigit = 255;

constexpr std::array<std::uint8_t, 256> digitTable() {
    std::array<std::uint8_t, 256> digits{};
    for (std::uint8_t& digit : digits) {
        digit = noDigit;
    }
    for (std::size_t i = 0; i < alphabet.size(); ++i) {
        digits[static_cast<unsigned char>(alphabet[i])] = static_cast<std::uint8_t>(i);
    }
    return digits;
}
constexpr std::array<std::uint8_t, 256> digitOf = digitTable();

/// The bytes of one group of four characters, `count` of which are not padding.
bool decodeGroup(std::string_view group, std::size_t count, std::vector<std::byte>& bytes) {
    std::uint32_t bits = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        const std::uint8_t digit =
            i < count ? digitOf[static_cast<unsigned char>(group[i])] : std::uint8_t{0};
        if (digit == noDigit) {
            return false;
        }
        bits = (bits << 6U) | digit;
    }
    for (std::size_t i = 0; i < 3; ++i) {
        const auto byte = static_cast<std::uint8_t>((bits >> (16U - 8U * i)) & 0xFFU);
        if (i + 1 < count) {
            bytes.push_back(static_cast<std::byte>(byte));
        } else if (byte != 0) { // bits left over that nobody wrote
            return false;
        }
    }
    return true;
}

} // namespace

std::string toBase64(std::span<const std::byte> bytes) {
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t left = bytes.size() - i;
        std::uint32_t bits = 0;
        for (std::size_t k = 0; k < 3; ++k) {
            bits = (bits << 8U) | (k < left ? std::to_integer<std::uint32_t>(bytes[i + k]) : 0U);
        }
        for (std::size_t k = 0; k < 4; ++k) {
            text += k <= left ? alphabet[(bits >> (18U - 6U * k)) & 0x3FU] : '=';
        }
    }
    return text;
}

std::optional<std::vector<std::byte>> fromBase64(std::string_view text) {
    if (text.size() % 4 != 0) {
        return std::nullopt;
    }
    std::vector<std::byte> bytes;
    bytes.reserve(text.size() / 4 * 3);
    for (std::size_t i = 0; i < text.size(); i += 4) {
        const std::string_view group = text.substr(i, 4);
        std::size_t count = 4;
        if (i + 4 == text.size()) {
            count = group.ends_with("==") ? 2 : group.ends_with("=") ? 3 : 4;
        }
        if (!decodeGroup(group, count, bytes)) {
            return std::nullopt;
        }
    }
    return bytes;
}

} // namespace bedlore
