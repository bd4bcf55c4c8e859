// SPDX-License-Identifier: MIT
#include "core/io/geopackage_geometry.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <sqlite3.h>

namespace bedlore {

// Numbers are written as they lie in memory, and the flags say so.
static_assert(std::endian::native == std::endian::little);

namespace {

constexpr std::size_t headerSize = 8;
constexpr std::uint8_t littleEndianFlag = 0x01;
constexpr std::uint8_t emptyFlag = 0x10;
constexpr std::uint8_t boxOfFourFlag = 0x02; ///< envelope code 1: min x, max x, min y, max y
constexpr std::uint32_t wkbPoint = 1;
constexpr std::uint32_t wkbLine = 2;

class Bytes {
public:
    template <class T>
    void put(T value) {
        const auto raw = std::bit_cast<std::array<std::byte, sizeof(T)>>(value);
        bytes_.insert(bytes_.end(), raw.begin(), raw.end());
    }
    void header(std::int32_t srsId, std::uint8_t flags) {
        put('G');
        put('P');
        put(std::uint8_t{0}); // version 1
        put(static_cast<std::uint8_t>(flags | littleEndianFlag));
        put(srsId);
    }
    void wkb(std::uint32_t type) {
        put(std::uint8_t{1}); // little-endian
        put(type);
    }
    void point(LayerPoint p) {
        put(p.x);
        put(p.y);
    }
    [[nodiscard]] std::vector<std::byte> take() { return std::move(bytes_); }

private:
    std::vector<std::byte> bytes_;
};

double doubleAt(std::span<const std::byte> bytes, std::size_t at, bool little) {
    std::array<std::byte, sizeof(double)> raw{};
    std::copy_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), raw.size(), raw.begin());
    if (!little) {
        std::reverse(raw.begin(), raw.end());
    }
    return std::bit_cast<double>(raw);
}

std::optional<LayerBox> pointBounds(std::span<const std::byte> wkb) {
    constexpr std::size_t pointSize = 21; // byte order, type, x, y
    if (wkb.size() < pointSize) {
        return std::nullopt;
    }
    const bool little = wkb[0] == std::byte{1};
    const std::byte type = little ? wkb[1] : wkb[4];
    const double x = doubleAt(wkb, 5, little);
    const double y = doubleAt(wkb, 13, little);
    if (type != static_cast<std::byte>(wkbPoint) || std::isnan(x) || std::isnan(y)) {
        return std::nullopt;
    }
    return LayerBox{.minX = x, .minY = y, .maxX = x, .maxY = y};
}

template <double LayerBox::*member>
void boundOfArgument(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
    const auto* start = static_cast<const std::byte*>(sqlite3_value_blob(values[0]));
    const auto size = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    const std::optional<LayerBox> box =
        start == nullptr ? std::nullopt : boundsOf(std::span(start, size));
    if (box) {
        sqlite3_result_double(context, (*box).*member);
    } else {
        sqlite3_result_null(context);
    }
}

void argumentIsEmpty(sqlite3_context* context, int /*count*/, sqlite3_value** values) {
    const auto* start = static_cast<const std::byte*>(sqlite3_value_blob(values[0]));
    const auto size = static_cast<std::size_t>(sqlite3_value_bytes(values[0]));
    if (start == nullptr) {
        sqlite3_result_null(context);
        return;
    }
    sqlite3_result_int(context, boundsOf(std::span(start, size)) ? 0 : 1);
}

} // namespace

void LayerBox::add(LayerPoint point) {
    minX = std::min(minX, point.x);
    minY = std::min(minY, point.y);
    maxX = std::max(maxX, point.x);
    maxY = std::max(maxY, point.y);
}

std::vector<std::byte> encodePoint(int srsId, LayerPoint point) {
    Bytes bytes;
    bytes.header(srsId, 0);
    bytes.wkb(wkbPoint);
    bytes.point(point);
    return bytes.take();
}

std::vector<std::byte> encodeLine(int srsId, std::span<const LayerPoint> line) {
    Bytes bytes;
    if (line.empty()) {
        bytes.header(srsId, emptyFlag);
    } else {
        LayerBox box{line[0].x, line[0].y, line[0].x, line[0].y};
        for (const LayerPoint& point : line) {
            box.add(point);
        }
        bytes.header(srsId, boxOfFourFlag);
        bytes.put(box.minX);
        bytes.put(box.maxX);
        bytes.put(box.minY);
        bytes.put(box.maxY);
    }
    bytes.wkb(wkbLine);
    bytes.put(static_cast<std::uint32_t>(line.size()));
    for (const LayerPoint& point : line) {
        bytes.point(point);
    }
    return bytes.take();
}

std::optional<LayerBox> boundsOf(std::span<const std::byte> geometry) {
    // Sizes of the envelopes by their code, section 2.1.3.1.1.
    constexpr std::array<std::size_t, 5> envelopeSizes{0, 32, 48, 48, 64};
    if (geometry.size() < headerSize || geometry[0] != std::byte{'G'} ||
        geometry[1] != std::byte{'P'}) {
        return std::nullopt;
    }
    const auto flags = std::to_integer<std::uint8_t>(geometry[3]);
    const std::size_t envelope = (flags >> 1U) & 0x07U;
    if ((flags & emptyFlag) != 0 || envelope >= envelopeSizes.size() ||
        geometry.size() < headerSize + envelopeSizes[envelope]) {
        return std::nullopt;
    }
    if (envelope == 0) {
        return pointBounds(geometry.subspan(headerSize));
    }
    const bool little = (flags & littleEndianFlag) != 0;
    const auto edge = [&](std::size_t i) {
        return doubleAt(geometry, headerSize + i * sizeof(double), little);
    };
    return LayerBox{.minX = edge(0), .minY = edge(2), .maxX = edge(1), .maxY = edge(3)};
}

Result<void> registerSpatialFunctions(Database& database) {
    using Function = void (*)(sqlite3_context*, int, sqlite3_value**);
    constexpr std::array<std::pair<const char*, Function>, 5> functions{{
        {"ST_IsEmpty", argumentIsEmpty},
        {"ST_MinX", boundOfArgument<&LayerBox::minX>},
        {"ST_MaxX", boundOfArgument<&LayerBox::maxX>},
        {"ST_MinY", boundOfArgument<&LayerBox::minY>},
        {"ST_MaxY", boundOfArgument<&LayerBox::maxY>},
    }};
    for (const auto& [name, function] : functions) {
        const int code = sqlite3_create_function_v2(
            database.handle(),
            name,
            1,
            SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS,
            nullptr,
            function,
            nullptr,
            nullptr,
            nullptr);
        if (code != SQLITE_OK) {
            return fail(machineError(
                "\"" + database.fileName() + "\" could not be used.",
                std::string("no function ") + name));
        }
    }
    return {};
}

} // namespace bedlore
