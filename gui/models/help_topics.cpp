// SPDX-License-Identifier: MIT
#include "gui/models/help_topics.hpp"

#include <QDir>
#include <QFile>
#include <QRegularExpression>
#include <QStringList>
#include <QTextDocument>

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

const auto folder = QStringLiteral(":/help");

QString textOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

QString filled(QString text, const ActionLookup& actionNamed) {
    static const QRegularExpression mark(QStringLiteral(R"(\{(\w+)(:key)?\})"));
    qsizetype from = 0;
    for (QRegularExpressionMatch at = mark.match(text, from); at.hasMatch();
         at = mark.match(text, from)) {
        const auto action = actionNamed(at.captured(1));
        from = at.capturedEnd();
        if (!action) {
            continue;
        }
        const bool keyOnly = !at.captured(2).isEmpty();
        QString words = keyOnly ? action->key : QStringLiteral("**%1**").arg(action->words);
        if (!keyOnly && !action->key.isEmpty()) {
            words += QStringLiteral(" (%1)").arg(action->key);
        }
        text.replace(at.capturedStart(), at.capturedLength(), words);
        from = at.capturedStart() + words.size();
    }
    return text;
}

QString titleOf(const QString& markdown) {
    const QString first = markdown.section(u'\n', 0, 0);
    return first.startsWith(QLatin1String("# ")) ? first.mid(2).trimmed() : first;
}

QString plainOf(const QString& markdown) {
    QTextDocument document;
    document.setMarkdown(markdown);
    return document.toPlainText();
}

/// Lower case, without accents.
QString folded(const QString& text) {
    QString result;
    const QString apart = text.normalized(QString::NormalizationForm_KD).toCaseFolded();
    std::copy_if(apart.begin(), apart.end(), std::back_inserter(result), [](QChar letter) {
        return letter.category() != QChar::Mark_NonSpacing;
    });
    return result;
}

bool holdsAll(const QString& text, const QStringList& words) {
    return std::all_of(
        words.begin(), words.end(), [&](const QString& word) { return text.contains(word); });
}

} // namespace

std::vector<HelpTopic> helpTopics(const ActionLookup& actionNamed) {
    std::vector<HelpTopic> topics;
    const QDir pages(folder);
    for (const QString& name : pages.entryList({QStringLiteral("*.md")}, QDir::Files, QDir::Name)) {
        HelpTopic topic;
        topic.id = name.chopped(3);
        topic.markdown = filled(textOf(pages.filePath(name)), actionNamed);
        topic.title = titleOf(topic.markdown);
        topic.plain = plainOf(topic.markdown);
        topics.push_back(std::move(topic));
    }
    return topics;
}

std::vector<std::size_t> topicsAbout(const std::vector<HelpTopic>& topics, const QString& query) {
    const QStringList words = folded(query).split(u' ', Qt::SkipEmptyParts);
    std::vector<std::size_t> inTitle;
    std::vector<std::size_t> inText;
    for (std::size_t i = 0; i < topics.size(); ++i) {
        if (holdsAll(folded(topics[i].title), words)) {
            inTitle.push_back(i);
        } else if (holdsAll(folded(topics[i].plain), words)) {
            inText.push_back(i);
        }
    }
    inTitle.insert(inTitle.end(), inText.begin(), inText.end());
    return inTitle;
}

} // namespace bedlore
