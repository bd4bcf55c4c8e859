// SPDX-License-Identifier: MIT
#include "core/io/geotiff.hpp"
#include "tests/support/drawn_pit.hpp"
#include "tests/support/temp_folder.hpp"

#include <gmock/gmock.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

// The bytes of a GeoTIFF against the standards' own words (tests/reference/
// case12_standards_facts.csv: OGC 19-008r4), read here without any library.

namespace bedlore {
namespace {

using testing::DrawnPit;
using ::testing::ElementsAre;
using testing::TempFolder;

// Source: TIFF revision 6.0, section 2; OGC 19-008r4, requirements on tags and keys.
constexpr std::uint16_t pixelScaleTag = 33550;
constexpr std::uint16_t tiepointTag = 33922;
constexpr std::uint16_t keyDirectoryTag = 34735;
constexpr std::uint16_t nodataTag = 42113; // in use everywhere, not of the standard
constexpr std::uint16_t modelTypeKey = 1024;
constexpr std::uint16_t rasterTypeKey = 1025;
constexpr std::uint16_t projectedKey = 3072;
constexpr std::uint16_t shortType = 3;

struct Tag {
    std::uint16_t id = 0;
    std::uint16_t type = 0;
    std::uint32_t count = 0;
    std::uint32_t offset = 0; ///< of its values in the file
};

/// The first directory of a classic little-endian TIFF.
class Directory {
public:
    explicit Directory(std::string bytes)
        : bytes_(std::move(bytes)) {
        if (bytes_.substr(0, 4) != std::string("II\x2A\0", 4)) {
            throw std::runtime_error("not a little-endian classic TIFF");
        }
        const auto start = at<std::uint32_t>(4);
        const auto count = at<std::uint16_t>(start);
        for (std::uint32_t i = 0; i < count; ++i) {
            const std::uint32_t entry = start + 2 + 12 * i;
            Tag tag{
                .id = at<std::uint16_t>(entry),
                .type = at<std::uint16_t>(entry + 2),
                .count = at<std::uint32_t>(entry + 4),
                .offset = entry + 8};
            // Bytes of one value of each type. Source: TIFF revision 6.0, page 15.
            constexpr std::array<std::uint32_t, 13> sizes{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8};
            if (sizes.at(tag.type) * tag.count > 4) {
                tag.offset = at<std::uint32_t>(entry + 8);
            }
            order_.push_back(tag.id);
            tags_[tag.id] = tag;
        }
    }

    [[nodiscard]] const std::vector<std::uint16_t>& order() const { return order_; }
    [[nodiscard]] bool has(std::uint16_t id) const { return tags_.contains(id); }
    [[nodiscard]] const Tag& tag(std::uint16_t id) const { return tags_.at(id); }
    template <class Value>
    [[nodiscard]] std::vector<Value> values(std::uint16_t id) const {
        std::vector<Value> result;
        const Tag& found = tag(id);
        for (std::uint32_t i = 0; i < found.count; ++i) {
            result.push_back(
                at<Value>(found.offset + i * static_cast<std::uint32_t>(sizeof(Value))));
        }
        return result;
    }
    [[nodiscard]] std::string text(std::uint16_t id) const {
        const Tag& found = tag(id);
        return bytes_.substr(found.offset, found.count - 1);
    }

private:
    template <class Value>
    [[nodiscard]] Value at(std::uint32_t offset) const {
        Value value{};
        std::memcpy(&value, bytes_.substr(offset, sizeof(Value)).data(), sizeof(Value));
        return value;
    }

    std::string bytes_;
    std::vector<std::uint16_t> order_;
    std::map<std::uint16_t, Tag> tags_;
};

Directory directoryOf(SharingTier tier) {
    const TempFolder folder;
    const DrawnPit pit;
    const auto path = folder.path() / "bed.tif";
    const auto written = writeBedGeoTiff(path, pit.map(tier), pit.reduction.frame);
    EXPECT_TRUE(written) << written.error().message;
    std::ifstream in(path, std::ios::binary);
    return Directory({std::istreambuf_iterator<char>(in), {}});
}

/// Values of the keys that hold one short, in the order of the file.
std::vector<std::pair<std::uint16_t, std::uint16_t>> keysOf(const Directory& directory) {
    const auto shorts = directory.values<std::uint16_t>(keyDirectoryTag);
    std::vector<std::pair<std::uint16_t, std::uint16_t>> keys;
    for (std::size_t i = 4; i + 3 < shorts.size(); i += 4) {
        keys.emplace_back(shorts[i], shorts[i + 3]);
    }
    return keys;
}

TEST(GeoTiffLayout, TagsAndKeysStandInOrder) {
    const Directory directory = directoryOf(SharingTier::All);
    EXPECT_TRUE(std::is_sorted(directory.order().begin(), directory.order().end()));
    EXPECT_TRUE(directory.has(keyDirectoryTag));
    const auto keys = keysOf(directory);
    EXPECT_GE(keys.size(), 3U);
    EXPECT_TRUE(std::is_sorted(keys.begin(), keys.end()));
}

TEST(GeoTiffLayout, DirectoryOfKeysIsOfShortsWithItsVersion) {
    const Directory directory = directoryOf(SharingTier::Depth);
    EXPECT_EQ(directory.tag(keyDirectoryTag).type, shortType);
    const auto shorts = directory.values<std::uint16_t>(keyDirectoryTag);
    ASSERT_GE(shorts.size(), 4U);
    EXPECT_EQ(shorts[0], 1U); // version of the directory
    EXPECT_EQ(shorts[1], 1U); // revision
    EXPECT_LE(shorts[2], 1U); // minor revision
    EXPECT_EQ(shorts.size(), 4U + 4U * shorts[3]);
}

TEST(GeoTiffLayout, IsAProjectedRasterOfAreasPlacedByOneCorner) {
    const Directory directory = directoryOf(SharingTier::All);
    const auto keys = keysOf(directory);
    const std::map<std::uint16_t, std::uint16_t> byId(keys.begin(), keys.end());
    EXPECT_EQ(byId.at(modelTypeKey), 1U);  // projected
    EXPECT_EQ(byId.at(rasterTypeKey), 1U); // PixelIsArea
    EXPECT_TRUE(byId.contains(projectedKey));
    ASSERT_TRUE(directory.has(tiepointTag));
    ASSERT_TRUE(directory.has(pixelScaleTag));
    const GridFrame frame = DrawnPit().map(SharingTier::All).depth->frame;
    EXPECT_THAT(directory.values<double>(pixelScaleTag), ElementsAre(frame.cell, frame.cell, 0.0));
    EXPECT_THAT(
        directory.values<double>(tiepointTag),
        ElementsAre(0.0, 0.0, 0.0, frame.west, frame.north, 0.0));
}

TEST(GeoTiffLayout, NodataIsSaidInText) {
    EXPECT_EQ(std::stod(directoryOf(SharingTier::All).text(nodataTag)), -9999.0);
}

} // namespace
} // namespace bedlore
