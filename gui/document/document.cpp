// SPDX-License-Identifier: MIT
#include "gui/document/document.hpp"

#include "core/book/difference.hpp"

#include <algorithm>
#include <utility>

namespace bedlore {

namespace {

const std::string newsWords =
    "Another program changed this book while it was open. What it changed is shown now";
constexpr auto doItAgain = "; do once more what you did last.";
constexpr auto nothingToUndo = ", and what you did before that cannot be undone any more.";

} // namespace

Result<std::unique_ptr<Document>> Document::create(const std::filesystem::path& path) {
    Result<BookFile> file = BookFile::create(path);
    if (!file) {
        return fail(file.error());
    }
    return std::unique_ptr<Document>(new Document(std::move(*file)));
}

Result<std::unique_ptr<Document>>
Document::open(const std::filesystem::path& path, BookAccess access) {
    Result<BookFile> file = BookFile::open(path, access);
    if (!file) {
        return fail(file.error());
    }
    return std::unique_ptr<Document>(new Document(std::move(*file)));
}

Document::Document(BookFile file)
    : file_(std::move(file))
    , book_(std::make_shared<const Book>(file_.book()))
    , nextId_(file_.nextId()) {}

QString Document::name() const {
    return QString::fromStdString(file_.path().stem().string());
}

QStringList Document::notices() const {
    QStringList sentences;
    for (const std::string& sentence : file_.notices()) {
        sentences << QString::fromStdString(sentence);
    }
    return sentences;
}

tl::unexpected<Error> Document::refuse(Error error) {
    Q_EMIT failed(QString::fromStdString(error.message));
    return fail(std::move(error));
}

Result<Applied>
Document::writeThenSwap(const Edits& edits, const char* advice, std::int64_t leastNextId) {
    if (!isWritable()) {
        return refuse(machineError(
            "This book is open for reading only: nothing was changed. Close it in other windows, "
            "then choose Open again in the Book menu; or save a copy and open that."));
    }
    const Result<bool> news = takeNews();
    if (!news) {
        return refuse(news.error());
    }
    if (*news) {
        return refuse(machineError(newsWords + advice));
    }
    Result<Applied> applied = applyEdits(*book_, edits);
    if (!applied) {
        return refuse(applied.error());
    }
    const std::int64_t nextId = std::max({nextId_, largestId(edits) + 1, leastNextId});
    auto next = std::make_shared<const Book>(applied->book);
    if (!edits.empty()) { // else only ids are given away, and `changed` will not follow
        Q_EMIT writing(next, applied->change);
    }
    if (Result<void> written = file_.write(edits, nextId); !written) {
        return refuse(written.error());
    }
    nextId_ = nextId;
    book_ = std::move(next);
    return applied;
}

Result<bool> Document::catchUp() {
    Result<bool> news = takeNews();
    if (!news) {
        return refuse(news.error());
    }
    if (*news) {
        Q_EMIT caughtUp(QString::fromStdString(newsWords + nothingToUndo));
    }
    return news;
}

Result<bool> Document::takeNews() {
    Result<bool> news = file_.catchUp();
    if (!news || !*news) {
        return news;
    }
    const std::shared_ptr<const Book> before =
        std::exchange(book_, std::make_shared<const Book>(file_.book()));
    nextId_ = std::max(nextId_, file_.nextId());
    // What could be undone led back to a book that is no longer there.
    history_ = {};
    Q_EMIT changed(differenceOf(*before, *book_));
    return true;
}

Result<Change> Document::apply(const std::string& label, const Edits& edits) {
    if (edits.empty()) {
        return Change{};
    }
    Result<Applied> done = writeThenSwap(edits, doItAgain);
    if (!done) {
        return fail(done.error());
    }
    history_.applied(label, std::move(done->inverse));
    Q_EMIT changed(done->change);
    return done->change;
}

Result<Change> Document::takeIn(const std::string& label, const ImportPlan& plan) {
    if (plan.edits.empty() && plan.nextId <= nextId_) {
        return Change{};
    }
    Result<Applied> done = writeThenSwap(plan.edits, doItAgain, plan.nextId);
    if (!done) {
        return fail(done.error());
    }
    if (plan.edits.empty()) {
        return Change{}; // nothing that could be undone
    }
    history_.applied(label, std::move(done->inverse));
    Q_EMIT changed(done->change);
    return done->change;
}

Result<Change> Document::goOn(const Edits& edits) {
    Result<Applied> done = writeThenSwap(edits, doItAgain);
    if (!done) {
        return fail(done.error());
    }
    history_.wentOn(std::move(done->inverse));
    Q_EMIT changed(done->change);
    return done->change;
}

Result<Change> Document::undo() {
    if (!history_.canUndo()) {
        return fail(inputError("There is nothing to undo."));
    }
    const Edits edits = history_.nextUndo().edits;
    Result<Applied> done = writeThenSwap(edits, nothingToUndo);
    if (!done) {
        return fail(done.error());
    }
    history_.undone(std::move(done->inverse));
    Q_EMIT changed(done->change);
    return done->change;
}

Result<Change> Document::redo() {
    if (!history_.canRedo()) {
        return fail(inputError("There is nothing to do again."));
    }
    const Edits edits = history_.nextRedo().edits;
    Result<Applied> done = writeThenSwap(edits, nothingToUndo);
    if (!done) {
        return fail(done.error());
    }
    history_.redone(std::move(done->inverse));
    Q_EMIT changed(done->change);
    return done->change;
}

QString Document::undoWords() const {
    return history_.canUndo() ? QString::fromStdString(history_.nextUndo().label) : QString();
}

QString Document::redoWords() const {
    return history_.canRedo() ? QString::fromStdString(history_.nextRedo().label) : QString();
}

void Document::stopWriting() {
    file_.stopWriting();
    history_ = {};
}

Result<void> Document::saveCopy(const std::filesystem::path& target) {
    Result<void> copied = file_.copyTo(target);
    if (!copied) {
        return refuse(copied.error());
    }
    return copied;
}

Result<void> Document::writeDerived(const std::vector<Reduction>& reductions) {
    Result<void> written = file_.writeDerived(reductions);
    if (!written) {
        return refuse(
            {written.error().fault,
             "The tables for other programs were not written. " + written.error().message,
             written.error().context});
    }
    return written;
}

} // namespace bedlore

#include "moc_document.cpp"
