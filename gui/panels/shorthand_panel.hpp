// SPDX-License-Identifier: MIT
#pragma once

#include "core/book/taught.hpp"

#include <QString>
#include <QWidget>

#include <functional>
#include <vector>

class QLabel;
class QLayout;
class QLineEdit;
class QPushButton;
class QTreeWidget;

// His own shorthand: the words that he taught the book and the answers that it remembers.

namespace bedlore {

class WrappedRow;

/// Lists what was taught, and asks for it to be changed, forgotten or added to. Holds no book: what
/// it asks for is done elsewhere and shown again.
class ShorthandPanel : public QWidget {
    Q_OBJECT

public:
    explicit ShorthandPanel(QWidget* parent = nullptr);

    /// The row that was chosen stays chosen where it is still there.
    void show(std::vector<Taught> taught, bool isWritable);
    /// Ready to be told what `word` means.
    void begin(const QString& word);
    /// Why something could not be taught; empty to take the words away.
    void say(const QString& sentence);
    /// What was typed is taken: the fields are free for the next word.
    void clearFields();

    /// What takes the keys, in the order of Tab.
    [[nodiscard]] QList<QWidget*> tabChain() const;

Q_SIGNALS:
    void teachWanted(const QString& word, const QString& meaning);
    void answerWanted(const bedlore::Taught& taught, const QString& value);
    void forgetWanted(const bedlore::Taught& taught);

protected:
    /// Delete in the list forgets.
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    [[nodiscard]] QLayout* fields();
    void offerChoices();
    void addChoice(const QString& words, const QString& name, std::function<void()> act);
    void teach();
    [[nodiscard]] const Taught* chosen() const;

    std::vector<Taught> taught_;
    bool writable_ = true;
    QTreeWidget* list_;
    QLabel* empty_;
    WrappedRow* choices_;
    QPushButton* lastChoice_ = nullptr; ///< in the order of Tab; counts while there are choices
    QLineEdit* word_ = nullptr;
    QLineEdit* meaning_ = nullptr;
    QPushButton* teach_ = nullptr;
    QLabel* words_;
};

} // namespace bedlore
