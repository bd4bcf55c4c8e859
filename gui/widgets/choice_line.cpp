// SPDX-License-Identifier: MIT
#include "gui/widgets/choice_line.hpp"

#include "gui/widgets/elided_button.hpp"
#include "gui/widgets/plain_text.hpp"

#include <QAction>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QToolButton>

#include <utility>

namespace bedlore {

ChoiceLine::ChoiceLine(const std::vector<Part>& parts, QWidget* parent)
    : QWidget(parent) {
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(4);
    for (const Part& part : parts) {
        auto* arrow = new QLabel(QStringLiteral("›"), this);
        arrow->setObjectName(QStringLiteral("choiceArrow"));
        auto* button = new ElidedButton(this);
        button->setObjectName(part.objectName);
        names_.push_back(part.accessibleName);
        button->setAccessibleName(part.accessibleName);
        button->setAutoRaise(true);
        button->setPopupMode(QToolButton::InstantPopup);
        button->setFocusPolicy(Qt::TabFocus);
        button->setMenu(new QMenu(button));
        arrow->setVisible(!buttons_.empty());
        row->addWidget(arrow);
        row->addWidget(button);
        arrows_.push_back(arrow);
        buttons_.push_back(button);
    }
    row->addStretch(1);
}

void ChoiceLine::setPart(std::size_t index, const QString& words, std::vector<Choice> choices) {
    QToolButton* button = buttons_[index];
    button->setText(plainInMenu(words));
    button->setAccessibleName(QStringLiteral("%1: %2").arg(names_[index], words));
    button->setVisible(!words.isEmpty());
    arrows_[index]->setVisible(index > 0 && !words.isEmpty());
    QMenu* menu = button->menu();
    menu->clear();
    for (Choice& choice : choices) {
        if (choice.startsGroup) {
            menu->addSeparator();
        }
        QAction* action = menu->addAction(plainInMenu(choice.words));
        action->setCheckable(choice.isChosen);
        action->setChecked(choice.isChosen);
        connect(
            action, &QAction::triggered, this, [choose = std::move(choice.choose)] { choose(); });
    }
}

} // namespace bedlore

#include "moc_choice_line.cpp"
