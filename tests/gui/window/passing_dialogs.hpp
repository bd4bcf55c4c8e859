// SPDX-License-Identifier: MIT
#pragma once

#include "gui/dialogs/tables_dialog.hpp"
#include "gui/dialogs/waiting_dialog.hpp"

#include <array>

namespace bedlore::testing {

/// The dialogs that come up before or while something is written, without what opens them.
class PassingDialogs {
public:
    PassingDialogs() {
        for (QDialog* dialog : all()) {
            dialog->show();
        }
    }
    [[nodiscard]] std::array<QDialog*, 2> all() { return {&tables_, &waiting_}; }

private:
    TablesDialog tables_{PrivateCounts{.spots = 2, .marks = 1}};
    WaitingDialog waiting_{
        {.title = QStringLiteral("Closing"),
         .sentence = QStringLiteral("The tables for other programs are being written."),
         .share = QStringLiteral("writing, %p %"),
         .stop = QStringLiteral("Leave without them")}};
};

} // namespace bedlore::testing
