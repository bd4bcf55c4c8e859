// SPDX-License-Identifier: MIT
#include "gui/panels/page_panel.hpp"

#include "core/book/page_waiting.hpp"
#include "gui/document/typed_lines.hpp"
#include "gui/widgets/plain_text.hpp"
#include "gui/widgets/wrapped_row.hpp"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <chrono>
#include <utility>

namespace bedlore {

namespace {

// Nothing typed is older than this before it is on the disk.
constexpr std::chrono::milliseconds pauseTime{1000};
// A disk that was full may have room again.
constexpr std::chrono::seconds againTime{10};

QStringList toQt(const std::vector<std::string>& lines) {
    QStringList all;
    all.reserve(static_cast<qsizetype>(lines.size()));
    for (const std::string& line : lines) {
        all << QString::fromStdString(line);
    }
    return all;
}

LineNote noteFor(const LineMeaning& meaning) {
    const std::string& asked = meaning.unclear.empty() ? meaning.remark : meaning.unclear;
    LineNote note{
        .words = QString::fromStdString(meaning.words),
        .question = QString::fromStdString(asked),
        .answers = {}};
    for (const LineOffer& offer : meaning.offers) {
        note.answers << QString::fromStdString(offer.words);
    }
    return note;
}

} // namespace

PagePanel::PagePanel(Document& document, QWidget* parent)
    : QWidget(parent)
    , document_(document)
    , session_(document)
    , editor_(new PageEditor(this))
    , strip_(new QWidget(this))
    , question_(new QLabel(strip_))
    , waiting_(new QLabel(this))
    , answers_(new WrappedRow) {
    setObjectName(QStringLiteral("pagePanel"));
    strip_->setObjectName(QStringLiteral("questionStrip"));
    question_->setObjectName(QStringLiteral("question"));
    question_->setTextFormat(Qt::PlainText);
    question_->setWordWrap(true);
    auto* strip = new QVBoxLayout(strip_);
    strip->setContentsMargins(16, 8, 16, 8);
    strip->setSpacing(4);
    strip->addWidget(question_);
    answers_->setSpacing(8);
    strip->addLayout(answers_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    waiting_->setObjectName(QStringLiteral("pageWaits"));
    waiting_->setTextFormat(Qt::PlainText);
    waiting_->setWordWrap(true);
    column->addWidget(editor_, 1);
    column->addWidget(waiting_);
    column->addWidget(strip_);
    setFocusProxy(editor_);
    editor_->setReadOnly(!document_.isWritable());

    connect(editor_, &PageEditor::keepWanted, this, &PagePanel::keep);
    connect(editor_, &PageEditor::undoWanted, this, &PagePanel::undoWanted);
    connect(editor_, &PageEditor::redoWanted, this, &PagePanel::redoWanted);
    connect(editor_, &PageEditor::answered, this, &PagePanel::answer);
    connect(editor_, &QPlainTextEdit::textChanged, this, &PagePanel::refreshNotes);
    connect(editor_, &PageEditor::currentLineChanged, this, [this] {
        refreshQuestion();
        Q_EMIT currentReadingChanged();
    });
    connect(&document_, &Document::changed, this, &PagePanel::followBook);
    connect(&document_, &Document::freed, this, &PagePanel::keepInPause);
    pause_.setObjectName(QStringLiteral("pause"));
    pause_.setSingleShot(true);
    pause_.setInterval(pauseTime);
    connect(&pause_, &QTimer::timeout, this, &PagePanel::keepInPause);
    again_.setObjectName(QStringLiteral("again"));
    again_.setSingleShot(true);
    again_.setInterval(againTime);
    connect(&again_, &QTimer::timeout, this, &PagePanel::keepInPause);
    connect(editor_, &QPlainTextEdit::textChanged, this, [this] {
        if (hasUnkept()) {
            pause_.start();
        } else {
            pause_.stop();
        }
    });
    refreshQuestion();
}

QSize PagePanel::minimumSizeHint() const {
    const QSize least = QWidget::minimumSizeHint();
    return {least.width(), std::max(least.height(), layout()->minimumHeightForWidth(width()))};
}

void PagePanel::open(Id<Page> page) {
    session_.open(page);
    known_ = session_.keptLines();
    editor_->setLines(toQt(known_));
    editor_->goToLine(editor_->document()->blockCount() - 1);
    refreshNotes();
    Q_EMIT pageChanged();
}

void PagePanel::begin(std::optional<Id<Water>> water, const QString& swim) {
    session_.begin(water);
    known_.clear();
    startSwim_ = swim;
    showStart();
    Q_EMIT pageChanged();
}

void PagePanel::showStart() {
    if (document_.isWritable()) {
        editor_->setStart({QStringLiteral("swim ") + startSwim_, QStringLiteral("date ")});
    } else {
        editor_->setLines({});
    }
    refreshNotes();
}

QStringList PagePanel::linesThatCount() const {
    QStringList lines = editor_->lines();
    if (const auto opened = editor_->openedLine()) {
        lines.removeAt(*opened);
    }
    return lines;
}

std::optional<std::size_t> PagePanel::countOf(int line) const {
    const auto opened = editor_->openedLine();
    if (line < 0 || line == opened) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(opened && line > *opened ? line - 1 : line);
}

std::vector<std::string> PagePanel::typedLines() const {
    return typedLines(!session_.page());
}

std::vector<std::string> PagePanel::typedLines(bool isNewPage) const {
    QStringList typed = linesThatCount();
    if (isNewPage) {
        while (!typed.isEmpty() && waitsToBeCompleted(typed.back().toStdString())) {
            typed.pop_back();
        }
        // "swim the Point" alone, filled in by us, is not typed yet.
        if (typed == QStringList{QStringLiteral("swim ") + startSwim_}) {
            typed.clear();
        }
    }
    std::vector<std::string> lines;
    lines.reserve(static_cast<std::size_t>(typed.size()));
    for (const QString& line : typed) {
        lines.push_back(line.toStdString());
    }
    return lines;
}

bool PagePanel::hasUnkept() const {
    return typedLines() != session_.keptLines();
}

bool PagePanel::keep() {
    return keepAs(PageSession::Typing::Done);
}

void PagePanel::keepInPause() {
    if (hasUnkept()) {
        keepAs(PageSession::Typing::Pausing);
    }
}

bool PagePanel::keepAs(PageSession::Typing typing) {
    pause_.stop();
    again_.stop();
    if (keeping_) {
        return true;
    }
    if (!document_.isWritable() || document_.isBusy()) {
        return !hasUnkept(); // typed while a book is busy, it is kept when the book is free
    }
    const bool isNew = !session_.page() && hasUnkept();
    const Result<void> kept = write(typing);
    refreshNotes();
    if (kept && isNew) {
        Q_EMIT pageChanged();
    }
    if (!kept && kept.error().fault == Fault::Machine) {
        Q_EMIT couldNotKeep(tr("%1 What you typed stays here and is tried again.")
                                .arg(QString::fromStdString(kept.error().message)));
        again_.start();
    }
    return kept.has_value();
}

Result<void> PagePanel::write(PageSession::Typing typing) {
    if (hasUnkept()) {
        // What another program changed comes in beside what is typed.
        if (const Result<bool> news = document_.catchUp(); !news) {
            return fail(news.error());
        }
    } else if (!session_.page()) {
        return {};
    }
    keeping_ = true;
    Result<void> kept = session_.keep(typedLines(), typing);
    keeping_ = false;
    if (kept) {
        known_ = session_.keptLines();
    } else {
        followBook();
    }
    return kept;
}

void PagePanel::answer(int number) {
    if (editor_->isTyping()) {
        editor_->endTyping();
        refreshNotes();
        if (!editor_->noteOf(editor_->currentLine()).question.isEmpty()) {
            return; // a question that he has not seen yet is shown, not answered
        }
    }
    const int line = editor_->questionLine();
    const auto counted = countOf(line);
    if (!counted || *counted >= meaning_.lines.size()) {
        return;
    }
    const LineMeaning& meaning = meaning_.lines[*counted];
    if (number < 0 || static_cast<std::size_t>(number) >= meaning.offers.size()) {
        return;
    }
    const LineOffer offer = meaning.offers[static_cast<std::size_t>(number)];
    const bool isPushedDown = !offer.above.empty() && editor_->currentLine() >= line;
    const int cursorLine = editor_->currentLine() + (isPushedDown ? 1 : 0);
    const bool isOnOpened = editor_->openedLine() == editor_->currentLine();
    keeping_ = true;
    const Result<std::vector<std::string>> taken = session_.take(offer, *counted, typedLines());
    keeping_ = false;
    if (taken) {
        known_ = session_.keptLines();
        editor_->setLines(toQt(*taken));
        editor_->goToLine(isOnOpened ? cursorLine - 1 : cursorLine);
        if (isOnOpened) {
            editor_->openLineBelow(); // he goes on where he was
        }
    } else {
        followBook();
    }
    refreshNotes();
}

void PagePanel::followBook() {
    if (keeping_) {
        return;
    }
    // The page may have come into the book, or gone from it, with this very change.
    const std::vector<std::string> typed = typedLines(known_.empty());
    if (typed == known_) {
        reload();
    } else {
        mergeTyped(typed);
    }
}

/// The book changed under what he types, which is not lost by it.
void PagePanel::mergeTyped(const std::vector<std::string>& typed) {
    const std::vector<std::string> stored = session_.keptLines();
    const std::vector<std::string> both = mergedLines(std::exchange(known_, stored), typed, stored);
    if (both != typed) {
        const int line = editor_->currentLine();
        const auto more = static_cast<int>(both.size()) - static_cast<int>(typed.size());
        const bool above = lineChange(typed, both).first <= static_cast<std::size_t>(line);
        editor_->setLines(toQt(both));
        editor_->goToLine(above ? line + more : line);
    }
    refreshNotes();
}

void PagePanel::reload() {
    known_ = session_.keptLines();
    if (!session_.page()) {
        showStart();
    } else if (hasUnkept()) {
        editor_->setLines(toQt(session_.keptLines()));
    }
    refreshNotes();
}

void PagePanel::setRemarks(PageRemarks remarks) {
    if (remarks_ != remarks) {
        remarks_ = std::move(remarks);
        refreshNotes();
    }
}

std::optional<Id<Reading>> PagePanel::currentReading() const {
    const std::vector<const PageLine*> kept = session_.keptRecords();
    const auto line = countOf(editor_->currentLine());
    return line && *line < kept.size() ? kept[*line]->reading : std::nullopt;
}

void PagePanel::goToLine(Id<PageLine> line) {
    editor_->closeOpenedLine();
    const std::vector<const PageLine*> kept = session_.keptRecords();
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (kept[i]->id == line) {
            editor_->goToLine(static_cast<int>(i));
        }
    }
}

void PagePanel::setColours(PaletteKind kind) {
    editor_->setColours(kind);
}

void PagePanel::refreshNotes() {
    std::vector<std::string> lines;
    for (const QString& line : linesThatCount()) {
        lines.push_back(line.toStdString());
    }
    const auto current = countOf(editor_->currentLine());
    meaning_ = session_.meaningOf(lines);
    const std::map<std::size_t, QString> remarks =
        remarksByLine(remarks_, {session_, *document_.book(), meaning_, lines});
    std::vector<LineNote> notes;
    notes.reserve(meaning_.lines.size());
    for (std::size_t i = 0; i < meaning_.lines.size(); ++i) {
        LineNote note = noteFor(meaning_.lines[i]);
        if (waitsToBeCompleted(lines[i])) {
            note = {.words = tr("waits to be typed"), .question = {}, .answers = {}};
        }
        const auto remark = remarks.find(i);
        if (remark != remarks.end() && note.question.isEmpty()) {
            note.question = remark->second;
        }
        const bool mayBeHalf = editor_->isTyping() && current == i;
        notes.push_back(mayBeHalf && !note.question.isEmpty() ? LineNote{} : std::move(note));
    }
    if (const auto opened = editor_->openedLine()) {
        notes.insert(notes.begin() + *opened, LineNote{});
    }
    editor_->setNotes(std::move(notes));
    refreshQuestion();
    refreshWaiting();
    Q_EMIT keptChanged(!hasUnkept());
}

void PagePanel::refreshWaiting() {
    QStringList sentences;
    for (const std::string& sentence : waitingWords(meaning_, saidByPage(meaning_))) {
        sentences << QString::fromStdString(sentence);
    }
    waiting_->setText(sentences.join(u'\n'));
    waiting_->setVisible(!sentences.isEmpty());
}

void PagePanel::refreshQuestion() {
    const int line = editor_->questionLine();
    const LineNote note = editor_->noteOf(line);
    // A question far above the cursor would only be in the way of typing.
    const bool near = line >= 0 && editor_->currentLine() - line <= 1;
    strip_->setVisible(near);
    const Asked now{near ? line : -1, near ? note : LineNote{}};
    if (now == asked_) {
        return; // the buttons may have the focus
    }
    asked_ = now;
    while (QLayoutItem* item = answers_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    if (near) {
        QWidget* last = editor_;
        question_->setText(tr("Line %1: %2").arg(line + 1).arg(note.question));
        for (int i = 0; i < note.answers.size(); ++i) {
            const QString key = i == 0 ? tr("F2") : tr("Alt+%1").arg(i + 1);
            auto* button =
                new QPushButton(plainInMenu(note.answers[i]) + QStringLiteral("  ") + key, strip_);
            button->setObjectName(QStringLiteral("answer%1").arg(i + 1));
            button->setFocusPolicy(Qt::TabFocus);
            connect(button, &QPushButton::clicked, this, [this, i] { answer(i); });
            answers_->addWidget(button);
            QWidget::setTabOrder(last, button);
            last = button;
        }
    }
    updateGeometry();
}

} // namespace bedlore

#include "moc_page_panel.cpp"
