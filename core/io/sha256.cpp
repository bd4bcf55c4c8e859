// SPDX-License-Identifier: MIT
#include "core/io/sha256.hpp"

#include <algorithm>
#include <bit>

namespace bedlore {

namespace {

// Symbols as in FIPS 180-4: K  the constants of section 4.2.2; W  message schedule; a…h  working
// variables.
constexpr std::array<std::uint32_t, 64> K{
    0x428a2f98, 0x71374491, 0xb5c0fbcf, 0xe9b5dba5, 0x3956c25b, 0x59f111f1, 0x923f82a4, 0xab1c5ed5,
    0xd807aa98, 0x12835b01, 0x243185be, 0x550c7dc3, 0x72be5d74, 0x80deb1fe, 0x9bdc06a7, 0xc19bf174,
    0xe49b69c1, 0xefbe4786, 0x0fc19dc6, 0x240ca1cc, 0x2de92c6f, 0x4a7484aa, 0x5cb0a9dc, 0x76f988da,
    0x983e5152, 0xa831c66d, 0xb00327c8, 0xbf597fc7, 0xc6e00bf3, 0xd5a79147, 0x06ca6351, 0x14292967,
    0x27b70a85, 0x2e1b2138, 0x4d2c6dfc, 0x53380d13, 0x650a7354, 0x766a0abb, 0x81c2c92e, 0x92722c85,
    0xa2bfe8a1, 0xa81a664b, 0xc24b8b70, 0xc76c51a3, 0xd192e819, 0xd6990624, 0xf40e3585, 0x106aa070,
    0x19a4c116, 0x1e376c08, 0x2748774c, 0x34b0bcb5, 0x391c0cb3, 0x4ed8aa4a, 0x5b9cca4f, 0x682e6ff3,
    0x748f82ee, 0x78a5636f, 0x84c87814, 0x8cc70208, 0x90befffa, 0xa4506ceb, 0xbef9a3f7, 0xc67178f2};

std::uint32_t bigEndian(const unsigned char* bytes) {
    return (std::uint32_t{bytes[0]} << 24U) | (std::uint32_t{bytes[1]} << 16U) |
           (std::uint32_t{bytes[2]} << 8U) | std::uint32_t{bytes[3]};
}

std::array<std::uint32_t, 64> schedule(const unsigned char* bytes) {
    std::array<std::uint32_t, 64> W{};
    for (std::size_t t = 0; t < 16; ++t) {
        W[t] = bigEndian(bytes + 4 * t);
    }
    for (std::size_t t = 16; t < 64; ++t) {
        const std::uint32_t s0 =
            std::rotr(W[t - 15], 7) ^ std::rotr(W[t - 15], 18) ^ (W[t - 15] >> 3U);
        const std::uint32_t s1 =
            std::rotr(W[t - 2], 17) ^ std::rotr(W[t - 2], 19) ^ (W[t - 2] >> 10U);
        W[t] = s1 + W[t - 7] + s0 + W[t - 16];
    }
    return W;
}

} // namespace

void Sha256::block(const unsigned char* bytes) {
    const auto W = schedule(bytes);
    auto [a, b, c, d, e, f, g, h] = state_;
    for (std::size_t t = 0; t < 64; ++t) {
        const std::uint32_t S1 = std::rotr(e, 6) ^ std::rotr(e, 11) ^ std::rotr(e, 25);
        const std::uint32_t choice = (e & f) ^ (~e & g);
        const std::uint32_t T1 = h + S1 + choice + K[t] + W[t];
        const std::uint32_t S0 = std::rotr(a, 2) ^ std::rotr(a, 13) ^ std::rotr(a, 22);
        const std::uint32_t majority = (a & b) ^ (a & c) ^ (b & c);
        h = g;
        g = f;
        f = e;
        e = d + T1;
        d = c;
        c = b;
        b = a;
        a = T1 + S0 + majority;
    }
    const std::array<std::uint32_t, 8> added{a, b, c, d, e, f, g, h};
    for (std::size_t i = 0; i < state_.size(); ++i) {
        state_[i] += added[i];
    }
}

void Sha256::add(std::string_view bytes) {
    total_ += bytes.size();
    while (!bytes.empty()) {
        const std::size_t taken = std::min(bytes.size(), pending_.size() - pendingCount_);
        std::copy_n(
            bytes.begin(), taken, pending_.begin() + static_cast<std::ptrdiff_t>(pendingCount_));
        pendingCount_ += taken;
        bytes.remove_prefix(taken);
        if (pendingCount_ == pending_.size()) {
            block(pending_.data());
            pendingCount_ = 0;
        }
    }
}

std::string Sha256::hex() {
    const std::uint64_t bits = total_ * 8;
    std::string padding(1, '\x80');
    const std::size_t used = (pendingCount_ + 1) % 64;
    padding.append(used <= 56 ? 56 - used : 120 - used, '\0');
    for (unsigned shift = 64; shift > 0;) {
        shift -= 8;
        padding.push_back(static_cast<char>((bits >> shift) & 0xffU));
    }
    add(padding);
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const std::uint32_t word : state_) {
        for (unsigned shift = 32; shift > 0;) {
            shift -= 4;
            text.push_back(digits[(word >> shift) & 0xfU]);
        }
    }
    return text;
}

std::string sha256(std::string_view bytes) {
    Sha256 sum;
    sum.add(bytes);
    return sum.hex();
}

} // namespace bedlore
