// SPDX-License-Identifier: MIT
#pragma once

#include <QString>
#include <QWidget>

#include <functional>
#include <vector>

class QToolButton;

// One sentence that says where we are, each part of it a choice: "Harl Pit › the Point › 12 April".

namespace bedlore {

/// Something that can be chosen in one part of the sentence.
struct Choice {
    QString words;
    bool isChosen = false;
    std::function<void()> choose;
    bool startsGroup = false; ///< a line above it
};

class ChoiceLine : public QWidget {
    Q_OBJECT

public:
    /// `names` are the parts' object names, from left to right, each with its name for a screen
    /// reader.
    struct Part {
        QString objectName;
        QString accessibleName;
    };
    explicit ChoiceLine(const std::vector<Part>& parts, QWidget* parent = nullptr);

    /// What part `index` says, and what else it could. A part without words is hidden.
    void setPart(std::size_t index, const QString& words, std::vector<Choice> choices);

private:
    std::vector<QString> names_;
    std::vector<QToolButton*> buttons_;
    std::vector<QWidget*> arrows_;
};

} // namespace bedlore
