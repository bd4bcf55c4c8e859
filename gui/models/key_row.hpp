// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

// A key and what it does, as the list of keys shows it.

namespace bedlore {

/// `where` is the menu, or the part of the window that must have the focus.
struct KeyRow {
    QString where;
    QString key;
    QString words;
    friend bool operator==(const KeyRow&, const KeyRow&) = default;
};

} // namespace bedlore
