// SPDX-License-Identifier: MIT
#include "app/display_guard.hpp"

#include "app/console.hpp"

#include <QGuiApplication>

#include <string_view>
#include <unistd.h>

namespace bedlore {

namespace {

constexpr std::string_view sentence =
    "There is no display to open the window on. Without one, the commands read and map a book: see "
    "bedlore --help.\n";

QtMessageHandler usual = nullptr;

void hear(QtMsgType type, const QMessageLogContext& context, const QString& text) {
    const bool displayIsOpen = !QGuiApplication::platformName().isEmpty();
    if (displayIsOpen) {
        usual(type, context, text);
        return;
    }
    // What is remarked about one display before the next is tried is no news.
    if (type == QtFatalMsg) {
        // Nothing of ours is open yet, and the toolkit is in no state to be left in order.
        [[maybe_unused]] const auto written =
            write(STDERR_FILENO, sentence.data(), sentence.size());
        _exit(static_cast<int>(ExitStatus::MachineAtFault));
    }
}

} // namespace

void guardAgainstMissingDisplay() {
    usual = qInstallMessageHandler(hear);
}

} // namespace bedlore
