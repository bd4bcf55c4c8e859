// SPDX-License-Identifier: MIT
#include "gui/panels/shorthand_panel.hpp"

#include "gui/widgets/plain_label.hpp"
#include "gui/widgets/wrapped_row.hpp"

#include <QCompleter>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QTreeWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <cstddef>
#include <utility>

namespace bedlore {

namespace {

QString toQt(std::string_view text) {
    return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QStringList meanings() {
    QStringList words;
    for (const std::string_view word : vocabulary()) {
        words << toQt(word);
    }
    return words;
}

} // namespace

ShorthandPanel::ShorthandPanel(QWidget* parent)
    : QWidget(parent)
    , list_(new QTreeWidget(this))
    , empty_(plainLabel("shorthandEmpty", this))
    , choices_(new WrappedRow)
    , words_(plainLabel("shorthandWords", this)) {
    empty_->hide();
    words_->hide();
    setObjectName(QStringLiteral("shorthandPanel"));
    setAccessibleName(tr("Your shorthand"));
    auto* inside = new QWidget;
    auto* title = new QLabel(tr("YOUR SHORTHAND"), inside);
    title->setProperty("heading", true);
    list_->setObjectName(QStringLiteral("shorthandList"));
    list_->setAccessibleName(tr("Words taught and answers remembered"));
    list_->setHeaderLabels({tr("you write"), tr("it means")});
    list_->header()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    list_->setFrameShape(QFrame::NoFrame);
    list_->setRootIsDecorated(false);
    list_->setAllColumnsShowFocus(true);
    list_->setTabKeyNavigation(false);
    list_->setMinimumHeight(48);
    list_->installEventFilter(this);
    empty_->setText(tr("Nothing yet. What you answer on a page, and words of your own that you "
                       "teach here, stand in this list and count for the whole book."));
    choices_->setSpacing(8);
    auto* column = new QVBoxLayout(inside);
    column->setContentsMargins(16, 8, 16, 8);
    column->setSpacing(4);
    column->addWidget(title);
    column->addWidget(list_, 1);
    column->addWidget(empty_);
    column->addLayout(choices_);
    column->addLayout(fields());
    column->addWidget(words_);
    // At a large text it is higher than its room.
    auto* scroll = new QScrollArea(this);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setMinimumHeight(64);
    scroll->setWidget(inside);
    auto* around = new QVBoxLayout(this);
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(scroll);
    connect(list_, &QTreeWidget::currentItemChanged, this, &ShorthandPanel::offerChoices);
}

QLayout* ShorthandPanel::fields() {
    word_ = new QLineEdit(this);
    word_->setObjectName(QStringLiteral("shorthandWord"));
    word_->setAccessibleName(tr("A word of your own"));
    word_->setPlaceholderText(tr("your word"));
    word_->setMinimumWidth(48);
    meaning_ = new QLineEdit(this);
    meaning_->setObjectName(QStringLiteral("shorthandMeaning"));
    meaning_->setAccessibleName(tr("What it means"));
    meaning_->setPlaceholderText(tr("means, such as gravel"));
    meaning_->setMinimumWidth(64);
    auto* completer = new QCompleter(meanings(), meaning_);
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setCompletionMode(QCompleter::InlineCompletion);
    meaning_->setCompleter(completer);
    teach_ = new QPushButton(tr("Teach"), this);
    teach_->setObjectName(QStringLiteral("shorthandTeach"));
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addWidget(word_, 1);
    row->addWidget(meaning_, 2);
    row->addWidget(teach_);
    connect(word_, &QLineEdit::returnPressed, this, [this] { meaning_->setFocus(); });
    connect(meaning_, &QLineEdit::returnPressed, this, &ShorthandPanel::teach);
    connect(teach_, &QPushButton::clicked, this, &ShorthandPanel::teach);
    return row;
}

void ShorthandPanel::show(std::vector<Taught> taught, bool isWritable) {
    writable_ = isWritable;
    for (QWidget* part : std::initializer_list<QWidget*>{word_, meaning_, teach_}) {
        part->setEnabled(isWritable);
    }
    empty_->setVisible(taught.empty());
    list_->setVisible(!taught.empty());
    setFocusProxy(taught.empty() ? static_cast<QWidget*>(word_) : list_);
    if (taught == taught_) {
        return;
    }
    const int row = list_->indexOfTopLevelItem(list_->currentItem());
    taught_ = std::move(taught);
    list_->clear();
    for (const Taught& one : taught_) {
        list_->addTopLevelItem(new QTreeWidgetItem({toQt(one.asked), toQt(one.meaning)}));
    }
    list_->resizeColumnToContents(0);
    if (row >= 0 && !taught_.empty()) {
        const int last = static_cast<int>(taught_.size()) - 1;
        list_->setCurrentItem(list_->topLevelItem(std::min(row, last)));
    }
    offerChoices();
}

QList<QWidget*> ShorthandPanel::tabChain() const {
    return {list_, word_, meaning_, teach_};
}

const Taught* ShorthandPanel::chosen() const {
    const int row = list_->indexOfTopLevelItem(list_->currentItem());
    const auto at = static_cast<std::size_t>(row);
    return row >= 0 && at < taught_.size() ? &taught_[at] : nullptr;
}

void ShorthandPanel::addChoice(
    const QString& words, const QString& name, std::function<void()> act) {
    auto* button = new QPushButton(words, this);
    button->setObjectName(name);
    // Queued: what it does rebuilds the row of buttons that it stands in.
    connect(
        button,
        &QPushButton::clicked,
        this,
        [act = std::move(act)] { act(); },
        Qt::QueuedConnection);
    choices_->addWidget(button);
    QWidget* before = list_;
    if (choices_->count() > 1) {
        before = lastChoice_;
    }
    QWidget::setTabOrder(before, button);
    lastChoice_ = button;
}

void ShorthandPanel::offerChoices() {
    while (QLayoutItem* item = choices_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    const Taught* one = chosen();
    if (one == nullptr || !writable_) {
        return;
    }
    const Taught taught = *one;
    addChoice(tr("Forget, and ask again"), QStringLiteral("shorthandForget"), [this, taught] {
        Q_EMIT forgetWanted(taught);
    });
    if (taught.isWord) {
        addChoice(tr("Change"), QStringLiteral("shorthandChange"), [this, taught] {
            begin(toQt(taught.asked));
            meaning_->setText(toQt(taught.meaning));
            meaning_->selectAll();
        });
    }
    int number = 0;
    for (const Taught::Choice& choice : taught.choices) {
        ++number;
        if (choice.words != taught.meaning) {
            addChoice(
                tr("%1 instead").arg(toQt(choice.words)),
                QStringLiteral("shorthandChoice%1").arg(number),
                [this, taught, value = toQt(choice.value)] { Q_EMIT answerWanted(taught, value); });
        }
    }
}

void ShorthandPanel::begin(const QString& word) {
    say({});
    word_->setText(word);
    meaning_->clear();
    (word.isEmpty() ? word_ : meaning_)->setFocus();
}

void ShorthandPanel::clearFields() {
    say({});
    word_->clear();
    meaning_->clear();
}

void ShorthandPanel::say(const QString& sentence) {
    words_->setText(sentence);
    words_->setVisible(!sentence.isEmpty());
}

void ShorthandPanel::teach() {
    Q_EMIT teachWanted(word_->text(), meaning_->text());
}

bool ShorthandPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == list_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const Taught* one = chosen();
        if (key->key() == Qt::Key_Delete && one != nullptr && writable_) {
            const Taught taught = *one;
            Q_EMIT forgetWanted(taught);
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

} // namespace bedlore

#include "moc_shorthand_panel.cpp"
