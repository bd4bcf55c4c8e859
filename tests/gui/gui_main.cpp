// SPDX-License-Identifier: MIT
#include <QApplication>
#include <QFontMetrics>
#include <gtest/gtest.h>

int main(int argc, char** argv) {
    ::testing::InitGoogleTest(&argc, argv);
    qputenv("QT_QPA_PLATFORM", "offscreen");
    QApplication application(argc, argv);
    // Fonts before the threads that help: these let go of theirs at the end, while what keeps them
    // is still there.
    static_cast<void>(QFontMetrics(QApplication::font()).height());
    QApplication::setOrganizationName(QStringLiteral("bedlore tests"));
    return RUN_ALL_TESTS();
}
