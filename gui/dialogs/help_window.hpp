// SPDX-License-Identifier: MIT
#pragma once

#include "gui/models/help_topics.hpp"
#include "gui/paint/theme.hpp"

#include <QDialog>
#include <QString>

#include <vector>

class QLineEdit;
class QListWidget;
class QTextBrowser;

// The help: its pages on the left, one of them on the right, a line to find one by.

namespace bedlore {

/// Stays open beside the window. Nothing in it leads out of the program.
class HelpWindow : public QDialog {
    Q_OBJECT

public:
    explicit HelpWindow(const ActionLookup& actionNamed, QWidget* parent = nullptr);

    [[nodiscard]] const std::vector<HelpTopic>& topics() const { return topics_; }
    /// The page that is shown.
    [[nodiscard]] QString topic() const;
    /// Whatever he types next is looked for.
    void beginToFind();
    /// False where there is no such page.
    bool show(const QString& id);
    using QDialog::show;
    /// By night its pictures are shown in red light.
    void setColours(PaletteKind kind);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void list();
    void showCurrent();

    std::vector<HelpTopic> topics_;
    QLineEdit* find_;
    QListWidget* list_;
    QTextBrowser* page_;
};

} // namespace bedlore
