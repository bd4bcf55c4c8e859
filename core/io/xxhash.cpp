// SPDX-License-Identifier: MIT
#include "core/io/xxhash.hpp"

#include <array>
#include <bit>
#include <cstring>

namespace bedlore {

// Words are read as they lie in memory.
static_assert(std::endian::native == std::endian::little);

namespace {

// The constants' names are the specification's.
constexpr std::uint64_t prime1 = 0x9E3779B185EBCA87;
constexpr std::uint64_t prime2 = 0xC2B2AE3D27D4EB4F;
constexpr std::uint64_t prime3 = 0x165667B19E3779F9;
constexpr std::uint64_t prime4 = 0x85EBCA77C2B2AE63;
constexpr std::uint64_t prime5 = 0x27D4EB2F165667C5;

template <class Word>
std::uint64_t wordAt(const std::byte* at) {
    Word word{};
    std::memcpy(&word, at, sizeof(word));
    return word;
}

std::uint64_t round(std::uint64_t lane, std::uint64_t word) {
    return std::rotl(lane + word * prime2, 31) * prime1;
}

std::uint64_t merged(std::uint64_t sum, std::uint64_t lane) {
    return (sum ^ round(0, lane)) * prime1 + prime4;
}

std::uint64_t mixed(std::uint64_t sum) {
    sum = (sum ^ (sum >> 33)) * prime2;
    sum = (sum ^ (sum >> 29)) * prime3;
    return sum ^ (sum >> 32);
}

/// Takes in what is left when no whole stripe is.
std::uint64_t withRest(std::uint64_t sum, std::span<const std::byte> rest) {
    while (rest.size() >= 8) {
        sum = std::rotl(sum ^ round(0, wordAt<std::uint64_t>(rest.data())), 27) * prime1 + prime4;
        rest = rest.subspan(8);
    }
    if (rest.size() >= 4) {
        sum = std::rotl(sum ^ (wordAt<std::uint32_t>(rest.data()) * prime1), 23) * prime2 + prime3;
        rest = rest.subspan(4);
    }
    for (const std::byte byte : rest) {
        sum = std::rotl(sum ^ (std::to_integer<std::uint64_t>(byte) * prime5), 11) * prime1;
    }
    return sum;
}

} // namespace

std::uint64_t xxHash64(std::span<const std::byte> bytes, std::uint64_t seed) {
    constexpr std::size_t stripe = 32;
    std::span<const std::byte> rest = bytes;
    std::uint64_t sum = seed + prime5;
    if (bytes.size() >= stripe) {
        std::array<std::uint64_t, 4> lanes{
            seed + prime1 + prime2, seed + prime2, seed, seed - prime1};
        for (; rest.size() >= stripe; rest = rest.subspan(stripe)) {
            for (std::size_t i = 0; i < lanes.size(); ++i) {
                lanes[i] = round(lanes[i], wordAt<std::uint64_t>(rest.data() + 8 * i));
            }
        }
        sum = std::rotl(lanes[0], 1) + std::rotl(lanes[1], 7) + std::rotl(lanes[2], 12) +
              std::rotl(lanes[3], 18);
        for (const std::uint64_t lane : lanes) {
            sum = merged(sum, lane);
        }
    }
    return mixed(withRest(sum + bytes.size(), rest));
}

} // namespace bedlore
