// SPDX-License-Identifier: MIT
#include "gui/dialogs/import_dialog.hpp"

#include "gui/models/bad_rows_model.hpp"
#include "gui/models/preview_model.hpp"
#include "gui/widgets/list_table.hpp"
#include "gui/widgets/plain_label.hpp"
#include "gui/widgets/scrolled_part.hpp"

#include <QCheckBox>
#include <QCoreApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QListWidget>
#include <QLocale>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

QString words(const char* text) {
    return QCoreApplication::translate("bedlore::ImportDialog", text);
}

QString grouped(std::size_t number) {
    return QLocale(QLocale::English).toString(static_cast<qulonglong>(number)).replace(u',', u' ');
}

QString counted(std::size_t count, const QString& one, const QString& many) {
    return grouped(count) + u' ' + (count == 1 ? one : many);
}

/// Says below `table` the whole of the row that is chosen in it: cells are cut where they are long.
QLabel* wholeRowOf(QTableView& table, const char* name, QWidget* parent) {
    QLabel* label = plainLabel(name, parent);
    label->hide();
    const auto say = [&table, label](const QModelIndex& current) {
        QStringList parts;
        for (int i = 0; current.isValid() && i < table.model()->columnCount(); ++i) {
            const QString cell = current.siblingAtColumn(i).data().toString();
            if (!cell.isEmpty()) {
                parts << table.model()->headerData(i, Qt::Horizontal).toString() +
                             QStringLiteral(": ") + cell;
            }
        }
        label->setText(parts.join(QStringLiteral("; ")));
        label->setHidden(parts.isEmpty());
    };
    QObject::connect(table.selectionModel(), &QItemSelectionModel::currentRowChanged, label, say);
    QObject::connect(
        table.model(), &QAbstractItemModel::modelReset, label, [say] { say(QModelIndex()); });
    return label;
}

QString kindWords(const FilePreview& file) {
    const std::string_view kind = importFormat(file.kind).words;
    QString text = QString::fromUtf8(kind.data(), static_cast<qsizetype>(kind.size()));
    if (file.rowCount > 0) {
        text += QStringLiteral(", ") +
                counted(
                    file.rowCount,
                    file.kind == ImportKind::Page ? words("line") : words("row"),
                    file.kind == ImportKind::Page ? words("lines") : words("rows"));
    }
    const auto unclear = std::count_if(
        file.rows.begin(), file.rows.end(), [](const PreviewRow& row) { return row.isUnclear; });
    if (unclear > 0) {
        text += words(", %1 to look at").arg(unclear);
    }
    return text;
}

} // namespace

QString importCountWords(const ImportCounts& counts) {
    QStringList parts;
    const auto say = [&parts](std::size_t count, const char* one, const char* many) {
        if (count > 0) {
            parts << counted(count, words(one), words(many));
        }
    };
    say(counts.swims, "swim", "swims");
    say(counts.swimsChanged, "known swim brought up to date", "known swims brought up to date");
    say(counts.reels, "reel", "reels");
    say(counts.casts, "cast", "casts");
    say(counts.readings, "reading", "readings");
    say(counts.fixes, "depth from elsewhere", "depths from elsewhere");
    say(counts.shorelines, "shoreline", "shorelines");
    return parts.isEmpty() ? words("nothing new") : parts.join(QStringLiteral(", "));
}

ImportDialog::ImportDialog(const Start& start, QWidget* parent)
    : QDialog(parent)
    , rowsModel_(new PreviewModel(this))
    , badModel_(new BadRowsModel(this)) {
    setObjectName(QStringLiteral("importDialog"));
    setWindowTitle(tr("Take in files"));
    rowsModel_->setColours(start.colours);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    buildReading(start);
    buildPreview();
    buildButtons();
    resizeForText(*this, QSize(960, 620));
    refreshButtons();
}

void ImportDialog::buildReading(const Start& start) {
    headline_ = plainLabel("importHeadline", this);
    const QString what =
        start.files.size() == 1
            ? start.files.front()
            : counted(static_cast<std::size_t>(start.files.size()), tr("file"), tr("files"));
    headline_->setText(
        tr("%1, into %2. Nothing is written before you say so.").arg(what, start.water));
    progress_ = new QProgressBar(this);
    progress_->setObjectName(QStringLiteral("importProgress"));
    progress_->setAccessibleName(tr("How far the files are read"));
    progress_->setRange(0, 100);
    progress_->setFormat(tr("reading the files, %p %"));
    layout()->addWidget(headline_);
    layout()->addWidget(progress_);
}

void ImportDialog::buildPreview() {
    preview_ = new QWidget(this);
    list_ = new QListWidget(preview_);
    list_->setObjectName(QStringLiteral("importList"));
    list_->setAccessibleName(tr("Files"));
    list_->setFrameShape(QFrame::NoFrame);
    list_->setMaximumWidth(32 * list_->fontMetrics().averageCharWidth());
    fileWords_ = plainLabel("importFileWords", preview_);
    rows_ = makeListTable(rowsModel_, "importRows", tr("What each line would become"), preview_);
    badWords_ = plainLabel("importBadWords", preview_);
    bad_ = makeListTable(badModel_, "badRows", tr("Rows that cannot be used"), preview_);
    noticesWords_ = plainLabel("importNoticesWords", preview_);
    notices_ = new QPlainTextEdit(preview_);
    notices_->setObjectName(QStringLiteral("importNotices"));
    notices_->setAccessibleName(tr("What is taken for granted, and what to know"));
    notices_->setReadOnly(true);
    notices_->setTabChangesFocus(true);
    notices_->setFrameShape(QFrame::NoFrame);
    const auto block = [this](QLabel* head, QWidget* body, QWidget* below = nullptr) {
        head->setProperty("heading", true);
        auto* both = new QWidget(preview_);
        auto* stack = new QVBoxLayout(both);
        stack->setContentsMargins(0, 4, 0, 0);
        stack->setSpacing(4);
        stack->addWidget(head);
        stack->addWidget(body, 1);
        if (below != nullptr) {
            stack->addWidget(below);
        }
        return both;
    };
    auto* parts = new QSplitter(Qt::Vertical, preview_);
    parts->setHandleWidth(1);
    parts->setChildrenCollapsible(false);
    parts->addWidget(block(fileWords_, rows_, wholeRowOf(*rows_, "importWholeRow", preview_)));
    parts->addWidget(block(badWords_, bad_, wholeRowOf(*bad_, "badWholeRow", preview_)));
    parts->addWidget(block(noticesWords_, notices_));
    parts->setSizes({320, 160, 90});
    auto* row = new QHBoxLayout(preview_);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    row->addWidget(list_);
    row->addWidget(parts, 1);
    preview_->hide();
    static_cast<QVBoxLayout*>(layout())->addWidget(preview_, 1);
    connect(list_, &QListWidget::currentRowChanged, this, &ImportDialog::showFile);
}

void ImportDialog::buildButtons() {
    againWords_ = plainLabel("importAgainWords", this);
    again_ =
        new QCheckBox(tr("Ta&ke in all the same: what they say is then in the book twice"), this);
    again_->setObjectName(QStringLiteral("importAgain"));
    againWords_->hide();
    again_->hide();
    summary_ = plainLabel("importSummary", this);
    takeIn_ = new QPushButton(this);
    takeIn_->setObjectName(QStringLiteral("importTakeIn"));
    cancel_ = new QPushButton(tr("&Cancel"), this);
    cancel_->setObjectName(QStringLiteral("importCancel"));
    auto* row = new QHBoxLayout;
    row->setSpacing(8);
    row->addStretch();
    row->addWidget(takeIn_);
    row->addWidget(cancel_);
    auto* column = static_cast<QVBoxLayout*>(layout());
    column->addWidget(againWords_);
    column->addWidget(again_);
    column->addWidget(summary_);
    column->addLayout(row);
    connect(takeIn_, &QPushButton::clicked, this, &ImportDialog::takeInWanted);
    connect(cancel_, &QPushButton::clicked, this, &QDialog::reject);
    connect(again_, &QCheckBox::toggled, this, &ImportDialog::refreshButtons);
    takeIn_->hide();
}

void ImportDialog::showProgress(double share) {
    progress_->setValue(static_cast<int>(100.0 * share));
}

void ImportDialog::showFailure(const QString& sentence) {
    progress_->hide();
    summary_->setText(sentence);
    summary_->setProperty("warning", true);
    cancel_->setText(tr("&Close"));
    cancel_->setFocus();
}

void ImportDialog::showPlan(const ImportPlan& plan) {
    progress_->hide();
    preview_->show();
    showFiles(plan);
    showBadRows(plan);
    QStringList sentences;
    for (const auto* list : {&plan.assumed, &plan.notices}) {
        for (const std::string& sentence : *list) {
            sentences << QString::fromStdString(sentence);
        }
    }
    notices_->setPlainText(sentences.join(u'\n'));
    noticesWords_->setText(tr("What is taken for granted, and what to know"));
    notices_->parentWidget()->setHidden(sentences.isEmpty());
    showAgain(plan);
    offer(plan);
}

void ImportDialog::showFiles(const ImportPlan& plan) {
    files_ = plan.files;
    const QSignalBlocker quiet(list_);
    list_->clear();
    for (const FilePreview& file : files_) {
        list_->addItem(QString::fromStdString(file.name));
    }
    list_->setHidden(files_.size() < 2);
    list_->setCurrentRow(0);
    showFile(0);
}

void ImportDialog::showFile(int index) {
    if (index < 0 || static_cast<std::size_t>(index) >= files_.size()) {
        return;
    }
    const FilePreview& file = files_[static_cast<std::size_t>(index)];
    rowsModel_->show(file);
    QString text = QString::fromStdString(file.name) + QStringLiteral(": ") + kindWords(file);
    if (file.rows.empty()) {
        text = tr("%1: nothing of it can be used").arg(QString::fromStdString(file.name));
    } else if (file.rows.size() < file.rowCount) {
        text += tr("; the first %1 are shown").arg(file.rows.size());
    }
    fileWords_->setText(text);
    fitColumns(*rows_, width() / 2);
}

void ImportDialog::showBadRows(const ImportPlan& plan) {
    badModel_->show(plan.bad);
    badWords_->setText(
        tr("%1 cannot be used").arg(counted(rowsIn(plan.bad), tr("row"), tr("rows"))));
    bad_->parentWidget()->setHidden(plan.bad.empty());
    fitColumns(*bad_, width() / 3);
}

void ImportDialog::showAgain(const ImportPlan& plan) {
    QStringList twice;
    for (const FilePreview& file : plan.files) {
        if (!file.again.empty()) {
            twice << QString::fromStdString(file.again);
        }
    }
    needsAgain_ = !twice.isEmpty();
    again_->setVisible(needsAgain_);
    constexpr qsizetype mostNamed = 3;
    const QString named =
        twice.mid(0, mostNamed).join(u' ') +
        (twice.size() > mostNamed ? tr(" And %1 more.").arg(twice.size() - mostNamed) : QString());
    againWords_->setText(named);
    againWords_->setVisible(needsAgain_);
}

void ImportDialog::offer(const ImportPlan& plan) {
    const QString counts = importCountWords(plan.counts);
    takeIn_->setHidden(plan.refused);
    if (plan.refused) {
        summary_->setText(tr("Nothing can be taken in, because a file cannot be used as a whole. "
                             "Mend it, or leave it out."));
        cancel_->setText(tr("&Close"));
    } else if (plan.canSkipBad) {
        summary_->setText(tr("Without the bad rows: %1. Or mend them in the file and choose it "
                             "again.")
                              .arg(counts));
        takeIn_->setText(tr("&Take in without the bad rows"));
    } else {
        summary_->setText(tr("To be taken in: %1.").arg(counts));
        takeIn_->setText(tr("&Take in"));
    }
    refreshButtons();
    // Bad rows are left out on purpose, never by a Return that was meant for something else.
    QPushButton* usual = plan.refused || plan.canSkipBad || needsAgain_ ? cancel_ : takeIn_;
    usual->setDefault(true);
    usual->setFocus();
}

void ImportDialog::refreshButtons() {
    takeIn_->setEnabled(!isWriting_ && (!needsAgain_ || again_->isChecked()));
}

void ImportDialog::showWriting() {
    isWriting_ = true;
    progress_->setAccessibleName(tr("How much is written"));
    progress_->setFormat(tr("writing to the book, %p %"));
    progress_->setValue(0);
    progress_->show();
    summary_->setText(tr("It is all in the book when this closes. Stopped, nothing of it is."));
    again_->setEnabled(false);
    // A Return that is held down must not stop what it began.
    cancel_->setAutoDefault(false);
    cancel_->setText(tr("&Stop"));
    rows_->setFocus();
    refreshButtons();
}

void ImportDialog::endWriting(bool isTakenIn) {
    isWriting_ = false;
    done(isTakenIn ? Accepted : Rejected);
}

void ImportDialog::reject() {
    if (!isWriting_) {
        QDialog::reject();
        return;
    }
    cancel_->setEnabled(false);
    progress_->setFormat(tr("stopping"));
    Q_EMIT stopWanted();
}

} // namespace bedlore

#include "moc_import_dialog.cpp"
