// SPDX-License-Identifier: MIT
#pragma once

#include <QAccessible>
#include <QWidget>

namespace bedlore {

/// A screen reader says what has come up in `part` without having to look for it.
inline void announce(QWidget& part) {
    QAccessibleEvent event(&part, QAccessible::Alert);
    QAccessible::updateAccessibility(&event);
}

} // namespace bedlore
