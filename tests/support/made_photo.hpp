// SPDX-License-Identifier: MIT
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

// Pictures made by hand, byte by byte.

namespace bedlore::testing {

using PhotoBytes = std::vector<std::byte>;

inline void addText(PhotoBytes& to, std::string_view text) {
    for (const char c : text) {
        to.push_back(static_cast<std::byte>(c));
    }
}

inline void addNumber(PhotoBytes& to, std::uint32_t value, std::size_t size) {
    for (std::size_t i = size; i > 0; --i) {
        to.push_back(static_cast<std::byte>(value >> (8U * (i - 1)) & 0xFFU));
    }
}

/// A chunk of a PNG, its check sum left at zero.
inline void addChunk(PhotoBytes& to, std::string_view type, std::string_view content) {
    addNumber(to, static_cast<std::uint32_t>(content.size()), 4);
    addText(to, type);
    addText(to, content);
    addNumber(to, 0, 4);
}

/// What a PNG begins with: its signature and a header of 13 bytes.
inline PhotoBytes pngHead() {
    PhotoBytes png;
    addText(png, "\x89PNG\r\n\x1A\n");
    addChunk(png, "IHDR", "wide-and-high");
    return png;
}

/// A PNG with `content` as its image data.
inline PhotoBytes pngOf(std::string_view content) {
    PhotoBytes png = pngHead();
    addChunk(png, "IDAT", content);
    addChunk(png, "IEND", "");
    return png;
}

/// A segment of a JPEG.
inline void addSegment(PhotoBytes& to, std::uint32_t marker, std::string_view content) {
    addNumber(to, 0xFF00U | marker, 2);
    addNumber(to, static_cast<std::uint32_t>(content.size()) + 2, 2);
    addText(to, content);
}

} // namespace bedlore::testing
