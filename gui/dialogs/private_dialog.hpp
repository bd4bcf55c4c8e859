// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/document.hpp"
#include "gui/document/private_things.hpp"

#include <QDialog>

#include <vector>

class QLabel;
class QListWidget;

// Which spots and marks leave only where he says so each time.

namespace bedlore {

/// Nothing changes before it is kept, which is one act that undo takes back. `document` must
/// outlive it.
class PrivateDialog : public QDialog {
    Q_OBJECT

public:
    PrivateDialog(Document& document, Id<Water> water, QWidget* parent);

    /// Stays open, with a sentence, where it cannot be kept.
    void accept() override;

private:
    [[nodiscard]] std::vector<PrivateChoice> chosen() const;

    Document& document_;
    std::vector<PrivateChoice> before_;
    QListWidget* list_ = nullptr;
    QLabel* fault_ = nullptr;
};

} // namespace bedlore
