// SPDX-License-Identifier: MIT
#include "core/io/sha256.hpp"

#include <gtest/gtest.h>

namespace bedlore {

namespace {

// Source: NIST, "Secure Hash Standard examples" for FIPS 180-4 (SHA256.pdf: "abc" and the 448-bit
// message), and NIST CAVP "SHA256ShortMsg.rsp" (Len = 0); the million "a" from FIPS 180-2,
// appendix B.3.
TEST(Sha256, GivesThePublishedDigests) {
    EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    EXPECT_EQ(
        sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    EXPECT_EQ(
        sha256(std::string(1'000'000, 'a')),
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST(Sha256, IsTheSameInPiecesOfAnySize) {
    std::string text;
    for (int i = 0; i < 300; ++i) {
        text.push_back(static_cast<char>(i * 7));
    }
    for (std::size_t size = 0; size < text.size(); ++size) {
        const std::string whole = text.substr(0, size);
        Sha256 sum;
        for (std::size_t at = 0; at < size; at += 13) {
            sum.add(std::string_view(whole).substr(at, 13));
        }
        EXPECT_EQ(sum.hex(), sha256(whole)) << size;
    }
}

} // namespace

} // namespace bedlore
