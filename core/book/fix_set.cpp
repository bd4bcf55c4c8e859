// SPDX-License-Identifier: MIT
#include "core/book/fix_set.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

bool sameFloats(const std::vector<float>& a, const std::vector<float>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](float x, float y) {
        return x == y || (std::isnan(x) && std::isnan(y));
    });
}

bool sameColumns(const FixColumns& a, const FixColumns& b) {
    return a.x == b.x && a.y == b.y && a.depth == b.depth && sameFloats(a.sigma, b.sigma) &&
           sameFloats(a.level, b.level) && a.day == b.day && a.substrate == b.substrate &&
           a.cover == b.cover;
}

} // namespace

bool operator==(const FixSet& a, const FixSet& b) {
    return a.id == b.id && a.water == b.water && a.name == b.name && a.file == b.file &&
           a.frame == b.frame &&
           (a.columns == b.columns ||
            (a.columns && b.columns && sameColumns(*a.columns, *b.columns))) &&
           (a.excluded == b.excluded || (a.excluded && b.excluded && *a.excluded == *b.excluded));
}

} // namespace bedlore
