// SPDX-License-Identifier: MIT
#pragma once

#include <QString>

// The angler's own words in places where Qt would read them as something else.

namespace bedlore {

/// For menus and buttons: an ampersand is an ampersand, not the mark of a key.
[[nodiscard]] inline QString plainInMenu(QString words) {
    return words.replace(u'&', QStringLiteral("&&"));
}

/// For tooltips, which take what looks like markup for markup.
[[nodiscard]] inline QString plainTip(const QString& words) {
    return words.isEmpty() ? QString()
                           : QStringLiteral("<span style=\"white-space:pre-wrap\">") +
                                 words.toHtmlEscaped() + QStringLiteral("</span>");
}

/// For a window's title, in which "[*]" stands for "not saved".
[[nodiscard]] inline QString plainTitle(QString words) {
    return words.replace(QStringLiteral("[*]"), QStringLiteral("[*][*]"));
}

} // namespace bedlore
