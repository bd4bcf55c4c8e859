// SPDX-License-Identifier: MIT
#include "core/io/plain_photo.hpp"
#include "tests/support/made_photo.hpp"

#include <gtest/gtest.h>

#include <optional>

// Markers and chunks by hand from ITU-T T.81, table B.1, and the PNG specification, section 11.

namespace bedlore::testing {
namespace {

using namespace std::string_view_literals;

/// A JPEG with two scans, a restart and a stuffed FF; with `secrets` also everything that goes.
PhotoBytes jpeg(bool secrets) {
    PhotoBytes bytes;
    addNumber(bytes, 0xFFD8, 2);
    addSegment(bytes, 0xE0, "JFIF\0 1.02"sv);
    if (secrets) {
        addSegment(bytes, 0xE1, "Exif\0\0 52.1 north"sv);
        addSegment(bytes, 0xED, "Photoshop the author"sv);
        addSegment(bytes, 0xEE, "another's own"sv);
        addSegment(bytes, 0xFE, "a comment"sv);
    }
    addSegment(bytes, 0xEE, "Adobe\0d\0\0\0\0\1"sv);
    addSegment(bytes, 0xDB, "quantisation"sv);
    addNumber(bytes, 0xFF, 1); // one more FF may stand before a marker
    addSegment(bytes, 0xC2, "frame"sv);
    addSegment(bytes, 0xC4, "tables"sv);
    addSegment(bytes, 0xDA, "scan one"sv);
    addText(bytes, "data\xFF\0more\xFF\xD0 after a restart"sv);
    if (secrets) {
        addSegment(bytes, 0xE2, "between the scans"sv);
    }
    addSegment(bytes, 0xDA, "scan two"sv);
    addText(bytes, "data");
    addNumber(bytes, 0xFFD9, 2);
    if (secrets) {
        addText(bytes, "a second picture behind the end");
    }
    return bytes;
}

PhotoBytes png(bool secrets) {
    PhotoBytes bytes = pngHead();
    for (const char* type : {"gAMA", "cHRM", "sRGB", "iCCP", "pHYs", "PLTE", "tRNS"}) {
        addChunk(bytes, type, "kept");
    }
    if (secrets) {
        for (const char* type : {"eXIf", "tEXt", "iTXt", "zTXt", "tIME", "prVt"}) {
            addChunk(bytes, type, "52.1 north");
        }
    }
    addChunk(bytes, "IDAT", "first");
    addChunk(bytes, "IDAT", "second");
    addChunk(bytes, "IEND", "");
    if (secrets) {
        addText(bytes, "behind the end");
    }
    return bytes;
}

TEST(PlainPhoto, OfAJpegOnlyThePictureStays) {
    EXPECT_EQ(plainPhoto(jpeg(true)), jpeg(false));
}

TEST(PlainPhoto, OfAPngOnlyThePictureStays) {
    EXPECT_EQ(plainPhoto(png(true)), png(false));
}

TEST(PlainPhoto, ACleanPictureIsGivenBackAsItIs) {
    EXPECT_EQ(plainPhoto(jpeg(false)), jpeg(false));
    EXPECT_EQ(plainPhoto(png(false)), png(false));
}

TEST(PlainPhoto, OneThatIsCutOffAnywhereIsNone) {
    for (const PhotoBytes& whole : {jpeg(false), png(false)}) {
        for (std::size_t size = 0; size < whole.size(); ++size) {
            const PhotoBytes cut(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(size));
            EXPECT_EQ(plainPhoto(cut), std::nullopt) << size << " of " << whole.size();
        }
    }
}

TEST(PlainPhoto, WhatIsNoPictureIsNone) {
    PhotoBytes gif;
    addText(gif, "GIF89a and so on");
    EXPECT_EQ(plainPhoto(gif), std::nullopt);
    PhotoBytes noScan;
    addNumber(noScan, 0xFFD8FFD9, 4);
    EXPECT_EQ(plainPhoto(noScan), std::nullopt);
    PhotoBytes noFrame;
    addNumber(noFrame, 0xFFD8, 2);
    addSegment(noFrame, 0xDA, "scan");
    addNumber(noFrame, 0xFFD9, 2);
    EXPECT_EQ(plainPhoto(noFrame), std::nullopt);
    PhotoBytes shortLength;
    addNumber(shortLength, 0xFFD8FFDB, 4);
    addNumber(shortLength, 1, 2); // shorter than the length itself
    EXPECT_EQ(plainPhoto(shortLength), std::nullopt);
    PhotoBytes noData = pngHead();
    addChunk(noData, "IEND", "");
    EXPECT_EQ(plainPhoto(noData), std::nullopt);
    PhotoBytes unknown = pngHead();
    addChunk(unknown, "WHAT", "critical, and nobody knows it");
    addChunk(unknown, "IDAT", "data");
    addChunk(unknown, "IEND", "");
    EXPECT_EQ(plainPhoto(unknown), std::nullopt);
    EXPECT_EQ(plainPhoto({}), std::nullopt);
}

TEST(PlainPhoto, ALargerOneThanMayBeIsNone) {
    PhotoBytes large = png(false);
    large.resize(mostPhotoBytes + 1);
    EXPECT_EQ(plainPhoto(large), std::nullopt);
    large.resize(mostPhotoBytes);
    EXPECT_EQ(plainPhoto(large), png(false)) << "what is behind the end goes";
}

} // namespace
} // namespace bedlore::testing
