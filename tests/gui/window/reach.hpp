// SPDX-License-Identifier: MIT
#pragma once

#include <QAccessible>
#include <QTest>
#include <QWidget>
#include <gtest/gtest.h>

#include <set>
#include <string>

// Whether all that takes keys can be reached by them and says what it is.

namespace bedlore::testing {

inline std::string naming(const QWidget& widget) {
    return std::string(widget.metaObject()->className()) + " \"" +
           widget.objectName().toStdString() + "\"";
}

inline QString accessibleName(QWidget& widget) {
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(&widget);
    return face != nullptr ? face->text(QAccessible::Name) : QString();
}

/// What of `top` can have the focus now, and is not only a part of something that has it.
inline std::set<QWidget*> focusable(QWidget& top) {
    std::set<QWidget*> found;
    for (QWidget* widget : top.findChildren<QWidget*>()) {
        const bool takesTab = (widget->focusPolicy() & Qt::TabFocus) != 0;
        const bool isPart = widget->focusProxy() != nullptr || widget->isWindow();
        if (takesTab && !isPart && widget->isVisibleTo(&top) && widget->isEnabledTo(&top) &&
            widget->window() == &top) {
            found.insert(widget);
        }
    }
    return found;
}

/// Where Tab leads to from `first`, once around.
inline std::vector<QWidget*> tabRound(QWidget& top, QWidget& first) {
    std::vector<QWidget*> round;
    first.setFocus(Qt::TabFocusReason);
    QWidget* now = top.focusWidget();
    for (int i = 0; i < 200 && now != nullptr; ++i) {
        round.push_back(now);
        QTest::keyClick(now, Qt::Key_Tab);
        now = top.focusWidget();
        if (now == round.front()) {
            break;
        }
    }
    return round;
}

/// Fails for a focusable widget without a name, and for one that Tab does not lead to.
inline void expectReachable(QWidget& top, QWidget& first) {
    const std::vector<QWidget*> round = tabRound(top, first);
    const std::set<QWidget*> reached(round.begin(), round.end());
    for (QWidget* widget : focusable(top)) {
        EXPECT_FALSE(accessibleName(*widget).trimmed().isEmpty())
            << naming(*widget) << " has no name";
        // Of radio buttons that exclude each other Tab leads to one, the arrow keys to the rest.
        const bool isOneOfSeveral = widget->inherits("QRadioButton");
        EXPECT_TRUE(isOneOfSeveral || reached.contains(widget))
            << "Tab does not lead to " << naming(*widget);
    }
    EXPECT_FALSE(round.empty());
}

} // namespace bedlore::testing
