// SPDX-License-Identifier: MIT
#include "gui/window/run_window.hpp"

#include <QApplication>

namespace bedlore {

int runWindow(int argc, char** argv, const WindowOptions& options) {
    QApplication application(argc, argv);
    QApplication::setApplicationName(QStringLiteral("bedlore"));
    QApplication::setApplicationDisplayName(QStringLiteral("Bedlore"));
    MainWindow window(options);
    window.show();
    return QApplication::exec();
}

} // namespace bedlore
