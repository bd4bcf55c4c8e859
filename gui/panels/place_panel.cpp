// SPDX-License-Identifier: MIT
#include "gui/panels/place_panel.hpp"

#include <QLabel>
#include <QVBoxLayout>

namespace bedlore {

namespace {

QLabel* addLabel(QVBoxLayout& column, const char* name, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setObjectName(QString::fromLatin1(name));
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    column.addWidget(label);
    return label;
}

void set(QLabel& label, const std::string& words) {
    label.setText(QString::fromStdString(words));
    label.setVisible(!words.empty());
}

} // namespace

PlacePanel::PlacePanel(QWidget* parent)
    : QWidget(parent) {
    setObjectName(QStringLiteral("placePanel"));
    setAccessibleName(tr("The chosen place"));
    setAttribute(Qt::WA_StyledBackground);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(4);
    addLabel(*column, "placeTitle", this)->setText(tr("HERE"));
    hint_ = addLabel(*column, "placeHint", this);
    hint_->setText(tr("Click the plan, or move it with the arrow keys and press Return, to see how "
                      "deep a place is and how to reach it."));
    depth_ = addLabel(*column, "placeDepth", this);
    within_ = addLabel(*column, "placeWithin", this);
    bottom_ = addLabel(*column, "placeBottom", this);
    column->addSpacing(16);
    reachTitle_ = addLabel(*column, "placeReachTitle", this);
    reachTitle_->setText(tr("LINE OUT, TIGHT"));
    howFar_ = addLabel(*column, "placeHowFar", this);
    direction_ = addLabel(*column, "placeDirection", this);
    column->addStretch();
    level_ = addLabel(*column, "placeLevel", this);
    show(std::nullopt);
}

void PlacePanel::show(const std::optional<PlaceReadout>& readout) {
    const PlaceReadout words = readout.value_or(PlaceReadout{});
    hint_->setVisible(!readout);
    set(*depth_, words.depth);
    set(*within_, words.within);
    set(*bottom_, words.bottom);
    reachTitle_->setVisible(!words.howFar.empty());
    set(*howFar_, words.howFar);
    set(*direction_, words.direction);
    level_->setVisible(readout.has_value() && !level_->text().isEmpty());
    setAccessibleDescription(QString::fromStdString(words.line()));
}

void PlacePanel::setLevelWords(const QString& words) {
    level_->setText(words);
}

} // namespace bedlore

#include "moc_place_panel.cpp"
