// SPDX-License-Identifier: MIT
#include "gui/dialogs/tier_choice.hpp"

#include <QButtonGroup>
#include <QCheckBox>
#include <QRadioButton>
#include <QVBoxLayout>

#include <utility>

namespace bedlore {

TierChoice::TierChoice(QWidget* parent)
    : QWidget(parent)
    , tiers_(new QButtonGroup(this))
    , private_(new QCheckBox(tr("Pri&vate spots and marks too"), this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    const std::pair<SharingTier, QString> rows[] = {
        {SharingTier::Depth, tr("&Depths only: nothing that shows where you fish")},
        {SharingTier::Bottom, tr("With the &bottom (not built yet: depths only for now)")},
        {SharingTier::All, tr("&Everything: casts, readings, swims and how sure, for yourself")}};
    for (const auto& [tier, words] : rows) {
        auto* button = new QRadioButton(words, this);
        button->setObjectName(
            QStringLiteral("tier_") + QString::fromUtf8(bedlore::word(tier).data()));
        tiers_->addButton(button, static_cast<int>(tier));
        column->addWidget(button);
    }
    private_->setObjectName(QStringLiteral("exportPrivate"));
    column->addWidget(private_);
    tiers_->button(static_cast<int>(SharingTier::Depth))->setChecked(true);
    private_->setEnabled(false);
    connect(tiers_, &QButtonGroup::idToggled, this, [this](int /*id*/, bool checked) {
        if (checked) {
            follow();
        }
    });
    connect(private_, &QCheckBox::toggled, this, &TierChoice::changed);
}

SharingTier TierChoice::tier() const {
    return static_cast<SharingTier>(tiers_->checkedId());
}

PrivateThings TierChoice::privateThings() const {
    return private_->isChecked() ? PrivateThings::Include : PrivateThings::LeaveOut;
}

void TierChoice::follow() {
    const bool everything = tier() == SharingTier::All;
    private_->setEnabled(everything);
    if (!everything) {
        const QSignalBlocker quiet(private_);
        private_->setChecked(false);
    }
    Q_EMIT changed();
}

} // namespace bedlore

#include "moc_tier_choice.cpp"
