// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/id.hpp"
#include "core/book/place.hpp"
#include "core/book/swim.hpp"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

// Something on the far bank to aim at, and its picture.

namespace bedlore {

enum class MarkTime : std::uint8_t { Day, Night, Both };

/// `bearing` is as seen from `bearingFrom`; `place` is its own position where that is known.
struct Mark {
    Id<Mark> id;
    Id<Water> water;
    std::string name;
    MarkTime time = MarkTime::Day;
    std::optional<Id<Swim>> bearingFrom;
    std::optional<BearingEntry> bearing;
    Place place;
    std::optional<Date> goneSince;
    bool isPrivate = false;
    std::string note;
    friend bool operator==(const Mark&, const Mark&) = default;
};

/// A picture, re-encoded on the way in so that it carries no position, author or camera.
struct Photo {
    Id<Photo> id;
    Id<Mark> mark;
    std::string caption;
    std::string mediaType;
    std::shared_ptr<const std::vector<std::byte>> bytes;
    bool isPrivate = true;
    friend bool operator==(const Photo& a, const Photo& b) {
        const bool sameBytes = a.bytes == b.bytes || (a.bytes && b.bytes && *a.bytes == *b.bytes);
        return sameBytes && a.id == b.id && a.mark == b.mark && a.caption == b.caption &&
               a.mediaType == b.mediaType && a.isPrivate == b.isPrivate;
    }
};

} // namespace bedlore
