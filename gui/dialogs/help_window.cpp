// SPDX-License-Identifier: MIT
#include "gui/dialogs/help_window.hpp"

#include "gui/paint/red_light.hpp"
#include "gui/widgets/scrolled_part.hpp"

#include <QCoreApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QScrollBar>
#include <QShortcut>
#include <QTextBlock>
#include <QTextBrowser>
#include <QTextCursor>
#include <QTextTable>
#include <QUrl>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>
#include <vector>

namespace bedlore {

namespace {

constexpr int topicRole = Qt::UserRole;
const auto topicScheme = QStringLiteral("topic");

/// Examples come in the desktop's fixed letters, at a size of its own: here they grow with the
/// rest.
void setExampleSize(QTextDocument& page, double points) {
    std::vector<std::pair<int, int>> examples;
    for (QTextBlock block = page.begin(); block.isValid(); block = block.next()) {
        for (auto part = block.begin(); !part.atEnd(); ++part) {
            const QTextFragment words = part.fragment();
            if (words.charFormat().hasProperty(QTextFormat::FontPointSize)) {
                examples.emplace_back(words.position(), words.position() + words.length());
            }
        }
    }
    QTextCharFormat size;
    size.setFontPointSize(points);
    QTextCursor cursor(&page);
    for (const auto& [from, to] : examples) {
        cursor.setPosition(from);
        cursor.setPosition(to, QTextCursor::KeepAnchor);
        cursor.mergeCharFormat(size);
    }
}

/// Lines of tables come in a grey of their own, whatever the colours of the window.
void setTableLines(const QTextDocument& page, const QColor& colour) {
    for (QTextFrame* frame : page.rootFrame()->childFrames()) {
        if (auto* table = qobject_cast<QTextTable*>(frame)) {
            QTextTableFormat format = table->format();
            format.setBorderBrush(colour);
            format.setBorderStyle(QTextFrameFormat::BorderStyle_Solid);
            table->setFormat(format);
        }
    }
}

/// Takes pictures from the program itself, and follows no link by itself.
class HelpPage : public QTextBrowser {
public:
    explicit HelpPage(QWidget* parent)
        : QTextBrowser(parent) {
        setObjectName(QStringLiteral("helpPage"));
        setOpenLinks(false);
        setOpenExternalLinks(false);
        document()->setDocumentMargin(16.0);
    }

    [[nodiscard]] PaletteKind colours() const { return colours_; }
    void setColours(PaletteKind kind) { colours_ = kind; }

    void showMarkdown(const QString& text) {
        setMarkdown(text);
        setTableLines(*document(), palette().color(QPalette::Mid));
        setExampleSize(*document(), font().pointSizeF());
    }

protected:
    void changeEvent(QEvent* event) override {
        QTextBrowser::changeEvent(event);
        if (event->type() == QEvent::FontChange) {
            setExampleSize(*document(), font().pointSizeF());
        }
    }
    QVariant loadResource(int type, const QUrl& name) override {
        QVariant found =
            QTextBrowser::loadResource(type, QUrl(QStringLiteral("qrc:/help/") + name.path()));
        if (colours_ != PaletteKind::Night || type != QTextDocument::ImageResource) {
            return found;
        }
        return inRedLight(QImage::fromData(found.toByteArray()));
    }

private:
    PaletteKind colours_ = PaletteKind::Light;
};

} // namespace

HelpWindow::HelpWindow(const ActionLookup& actionNamed, QWidget* parent)
    : QDialog(parent)
    , topics_(helpTopics(actionNamed))
    , find_(new QLineEdit)
    , list_(new QListWidget)
    , page_(new HelpPage(this)) {
    setObjectName(QStringLiteral("helpWindow"));
    setWindowTitle(tr("Help"));
    resizeForText(*this, QSize(960, 640));
    find_->setObjectName(QStringLiteral("helpFind"));
    find_->setPlaceholderText(tr("Find"));
    find_->setAccessibleName(tr("Find in the help"));
    find_->installEventFilter(this);
    list_->setObjectName(QStringLiteral("helpTopics"));
    list_->setAccessibleName(tr("Pages of the help"));
    page_->setAccessibleName(tr("Page of the help"));
    auto* left = new QVBoxLayout;
    left->setSpacing(8);
    left->addWidget(find_);
    left->addWidget(list_, 1);
    auto* whole = new QHBoxLayout(this);
    whole->setContentsMargins(16, 16, 16, 16);
    whole->setSpacing(16);
    whole->addLayout(left, 2);
    whole->addWidget(page_, 5);
    auto* toFind = new QShortcut(QKeySequence(QStringLiteral("Ctrl+F")), this);
    connect(toFind, &QShortcut::activated, this, &HelpWindow::beginToFind);
    connect(find_, &QLineEdit::textChanged, this, &HelpWindow::list);
    connect(list_, &QListWidget::currentRowChanged, this, &HelpWindow::showCurrent);
    connect(page_, &QTextBrowser::anchorClicked, this, [this](const QUrl& link) {
        if (link.scheme() == topicScheme) {
            show(link.path());
        }
    });
    list();
}

QString HelpWindow::topic() const {
    const QListWidgetItem* item = list_->currentItem();
    return item != nullptr ? topics_[item->data(topicRole).toUInt()].id : QString();
}

void HelpWindow::beginToFind() {
    find_->setFocus(Qt::ShortcutFocusReason);
    find_->selectAll();
}

bool HelpWindow::show(const QString& id) {
    const auto found = std::find_if(
        topics_.begin(), topics_.end(), [&](const HelpTopic& topic) { return topic.id == id; });
    if (found == topics_.end()) {
        return false;
    }
    find_->clear();
    list_->setCurrentRow(static_cast<int>(found - topics_.begin()));
    return true;
}

void HelpWindow::setColours(PaletteKind kind) {
    auto* page = static_cast<HelpPage*>(page_);
    if (kind == page->colours()) {
        return; // the page is not laid out anew without need
    }
    page->setColours(kind);
    const int place = page_->verticalScrollBar()->value();
    showCurrent();
    page_->verticalScrollBar()->setValue(place);
}

void HelpWindow::list() {
    const QString before = topic();
    list_->clear();
    for (const std::size_t i : topicsAbout(topics_, find_->text())) {
        auto* item = new QListWidgetItem(topics_[i].title, list_);
        item->setData(topicRole, static_cast<uint>(i));
        if (find_->text().isEmpty() && topics_[i].id == before) {
            list_->setCurrentItem(item);
        }
    }
    if (list_->currentRow() < 0 && list_->count() > 0) {
        list_->setCurrentRow(0);
    }
    if (list_->count() == 0) {
        page_->setPlainText(tr("No page of the help says that. Try one word of it."));
    }
}

void HelpWindow::showCurrent() {
    const QListWidgetItem* item = list_->currentItem();
    if (item == nullptr) {
        return;
    }
    static_cast<HelpPage*>(page_)->showMarkdown(topics_[item->data(topicRole).toUInt()].markdown);
    page_->moveCursor(QTextCursor::Start);
    if (!find_->text().isEmpty() && !page_->find(find_->text())) {
        page_->moveCursor(QTextCursor::Start);
    }
}

/// The arrows go through the list while he types what he looks for; Return goes to the page.
bool HelpWindow::eventFilter(QObject* watched, QEvent* event) {
    if (watched == find_ && event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Up || key == Qt::Key_Down) {
            QCoreApplication::sendEvent(list_, event);
            return true;
        }
        if (key == Qt::Key_Return || key == Qt::Key_Enter) {
            page_->setFocus(Qt::TabFocusReason);
            return true;
        }
    }
    return QDialog::eventFilter(watched, event);
}

} // namespace bedlore

#include "moc_help_window.cpp"
