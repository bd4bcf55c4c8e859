// SPDX-License-Identifier: MIT
#include "core/io/plain_photo.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace bedlore {

namespace {

using Bytes = std::span<const std::byte>;
using Kept = std::optional<std::vector<std::byte>>;

std::uint32_t numberAt(Bytes bytes, std::size_t at, std::size_t size) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i) {
        value = value << 8U | std::to_integer<std::uint32_t>(bytes[at + i]);
    }
    return value;
}

bool beginsWith(Bytes bytes, std::string_view text) {
    return bytes.size() >= text.size() &&
           std::equal(text.begin(), text.end(), bytes.begin(), [](char c, std::byte b) {
               return static_cast<std::byte>(c) == b;
           });
}

constexpr std::byte markerBegin{0xFF};

namespace jpeg {
constexpr std::uint32_t huffmanTable = 0xC4;
constexpr std::uint32_t extension = 0xC8;
constexpr std::uint32_t arithmeticTable = 0xCC;
constexpr std::uint32_t firstRestart = 0xD0;
constexpr std::uint32_t lastRestart = 0xD7;
constexpr std::uint32_t endOfImage = 0xD9;
constexpr std::uint32_t startOfScan = 0xDA;
constexpr std::uint32_t application0 = 0xE0;
constexpr std::uint32_t application14 = 0xEE;
} // namespace jpeg

class JpegReader {
public:
    explicit JpegReader(Bytes bytes)
        : bytes_(bytes) {}

    Kept read() {
        keep(0, 2); // start of image
        at_ = 2;
        while (at_ < bytes_.size()) {
            const std::size_t begin = at_;
            const auto marker = nextMarker();
            if (!marker) {
                return std::nullopt;
            }
            if (*marker == jpeg::endOfImage) {
                keep(begin, at_);
                return hasScan_ ? Kept(std::move(kept_)) : std::nullopt;
            }
            if (!takeSegment(begin, *marker)) {
                return std::nullopt;
            }
        }
        return std::nullopt;
    }

private:
    void keep(std::size_t begin, std::size_t end) {
        kept_.insert(
            kept_.end(),
            bytes_.begin() + static_cast<std::ptrdiff_t>(begin),
            bytes_.begin() + static_cast<std::ptrdiff_t>(end));
    }

    /// Moves behind a marker, which any number of bytes FF may lead up to.
    std::optional<std::uint32_t> nextMarker() {
        if (bytes_[at_] != markerBegin) {
            return std::nullopt;
        }
        while (at_ < bytes_.size() && bytes_[at_] == markerBegin) {
            ++at_;
        }
        return at_ < bytes_.size() ? std::optional(numberAt(bytes_, at_++, 1)) : std::nullopt;
    }

    /// A segment with its length; after the head of a scan its data too.
    bool takeSegment(std::size_t begin, std::uint32_t marker) {
        if (marker < 0xC0 || (marker >= jpeg::firstRestart && marker < jpeg::endOfImage) ||
            bytes_.size() - at_ < 2) {
            return false; // stands alone, or is none
        }
        const std::size_t length = numberAt(bytes_, at_, 2);
        if (length < 2 || bytes_.size() - at_ < length) {
            return false;
        }
        const Bytes content = bytes_.subspan(at_ + 2, length - 2);
        at_ += length;
        hasFrame_ = hasFrame_ || isFrame(marker);
        if (marker == jpeg::startOfScan) {
            if (!hasFrame_) {
                return false;
            }
            hasScan_ = true;
            skipScan();
        }
        if (isOfThePicture(marker, content)) {
            keep(begin, at_);
        }
        return true;
    }

    static bool isFrame(std::uint32_t marker) {
        return marker >= 0xC0 && marker <= 0xCF && marker != jpeg::huffmanTable &&
               marker != jpeg::extension && marker != jpeg::arithmeticTable;
    }

    static bool isOfThePicture(std::uint32_t marker, Bytes content) {
        if (marker == jpeg::application14) {
            return beginsWith(content, "Adobe");
        }
        return marker <= jpeg::application0; // above are applications, reserved ones and comments
    }

    /// Up to the marker that ends the data of a scan; FF 00 is a byte of it, a restart is inside.
    void skipScan() {
        while (at_ < bytes_.size()) {
            if (bytes_[at_] == markerBegin && at_ + 1 < bytes_.size()) {
                const std::uint32_t next = numberAt(bytes_, at_ + 1, 1);
                const bool isInside =
                    next == 0 || (next >= jpeg::firstRestart && next <= jpeg::lastRestart);
                if (!isInside) {
                    return;
                }
                ++at_;
            }
            ++at_;
        }
    }

    Bytes bytes_;
    std::size_t at_ = 0;
    bool hasFrame_ = false;
    bool hasScan_ = false;
    std::vector<std::byte> kept_;
};

constexpr std::string_view pngSignature = "\x89PNG\r\n\x1A\n";

/// Of the ancillary chunks those without which colours or sizes are others.
bool staysInPng(std::string_view type) {
    constexpr std::array<std::string_view, 10> kept{
        "IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA", "cHRM", "sRGB", "iCCP", "pHYs"};
    return std::find(kept.begin(), kept.end(), type) != kept.end();
}

std::string pngTypeAt(Bytes bytes, std::size_t chunk) {
    std::string type;
    for (std::size_t i = 0; i < 4; ++i) {
        type += static_cast<char>(bytes[chunk + 4 + i]);
    }
    return type;
}

/// The header comes first and nowhere else; what nobody knows must not be needed.
bool mayStand(std::string_view type, std::uint32_t length, bool isFirst) {
    constexpr std::uint32_t headerLength = 13;
    const bool isHeader = type == "IHDR" && length == headerLength;
    const bool isCritical = type.front() >= 'A' && type.front() <= 'Z';
    return isFirst == isHeader && (!isCritical || staysInPng(type));
}

Kept plainPng(Bytes bytes) {
    constexpr std::size_t around = 12; // length, type and check sum
    std::size_t at = pngSignature.size();
    std::vector<std::byte> kept(
        bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(pngSignature.size()));
    bool hasData = false;
    while (bytes.size() - at >= around) {
        const std::uint32_t length = numberAt(bytes, at, 4);
        if (length > bytes.size() - at - around) {
            return std::nullopt;
        }
        const std::string type = pngTypeAt(bytes, at);
        if (!mayStand(type, length, at == pngSignature.size())) {
            return std::nullopt;
        }
        hasData = hasData || type == "IDAT";
        const std::size_t end = at + around + length;
        if (staysInPng(type)) {
            kept.insert(
                kept.end(),
                bytes.begin() + static_cast<std::ptrdiff_t>(at),
                bytes.begin() + static_cast<std::ptrdiff_t>(end));
        }
        if (type == "IEND") {
            return hasData ? Kept(std::move(kept)) : std::nullopt;
        }
        at = end;
    }
    return std::nullopt;
}

} // namespace

std::optional<std::vector<std::byte>> plainPhoto(std::span<const std::byte> bytes) {
    if (bytes.size() > mostPhotoBytes) {
        return std::nullopt;
    }
    if (beginsWith(bytes, "\xFF\xD8")) {
        return JpegReader(bytes).read();
    }
    return beginsWith(bytes, pngSignature) ? plainPng(bytes) : std::nullopt;
}

} // namespace bedlore
