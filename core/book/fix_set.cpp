// SPDX-License-Identifier: MIT
#include "core/book/fix_set.hpp"

namespace bedlore {

namespace {

template <class T>
bool sameValue(const std::shared_ptr<const T>& a, const std::shared_ptr<const T>& b) {
    return a == b || (a && b && *a == *b);
}

} // namespace

bool operator==(const FixSet& a, const FixSet& b) {
    return a.id == b.id && a.water == b.water && a.name == b.name && a.file == b.file &&
           a.frame == b.frame && sameValue(a.columns, b.columns) &&
           sameValue(a.excluded, b.excluded);
}

} // namespace bedlore
