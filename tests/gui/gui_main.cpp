// SPDX-License-Identifier: MIT
#include <QApplication>
#include <QFontMetrics>
#include <gtest/gtest.h>

#include <cstdlib>

int main(int argc, char** argv) {
    ::testing::InitGoogleTest(&argc, argv);
    setenv("QT_QPA_PLATFORM", "offscreen", 1);
    QApplication application(argc, argv);
    // Fonts before the threads that help: these let go of theirs at the end, while what keeps them
    // is still there.
    static_cast<void>(QFontMetrics(QApplication::font()).height());
    QApplication::setOrganizationName(QStringLiteral("bedlore tests"));
    return RUN_ALL_TESTS();
}
