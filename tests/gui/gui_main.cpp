// SPDX-License-Identifier: MIT
#include <QApplication>
#include <gtest/gtest.h>

#include <cstdlib>

int main(int argc, char** argv) {
    ::testing::InitGoogleTest(&argc, argv);
    setenv("QT_QPA_PLATFORM", "offscreen", 1);
    QApplication application(argc, argv);
    QApplication::setOrganizationName(QStringLiteral("bedlore tests"));
    return RUN_ALL_TESTS();
}
