// SPDX-License-Identifier: MIT
#include "gui/document/document.hpp"

#include "core/base/contract.hpp"
#include "core/base/parallel.hpp"
#include "core/book/difference.hpp"

#include <algorithm>
#include <new>
#include <utility>

namespace bedlore {

namespace {

const std::string newsWords =
    "Another program changed this book while it was open. What it changed is shown now";
constexpr auto busyWords =
    "The book is being written to at this moment, so nothing was changed. Try again when that is "
    "over, or stop it.";
constexpr auto doItAgain = "; do once more what you did last.";
constexpr auto nothingToUndo = ", and what you did before that cannot be undone any more.";

Error ofDerived(const Error& error) {
    return {
        error.fault,
        "The tables for other programs were not written. " + error.message,
        error.context};
}

/// On another thread nobody else would catch it. A write that it ends is taken back.
template <class Work>
auto unlessMemoryIsOut(const Work& work) -> decltype(work()) {
    try {
        return work();
    } catch (const std::bad_alloc&) {
        return fail(machineError("There is not enough memory to write this. Nothing was changed. "
                                 "Close other programs and try again."));
    }
}

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
    , nextId_(file_.nextId())
    , derivedFrom_(file_.derivedIsStale() ? nullptr : book_) {}

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

tl::unexpected<Error> Document::refuseUnlessStopped(Error error) {
    return error.fault == Fault::Cancelled ? fail(std::move(error)) : refuse(std::move(error));
}

Result<void> Document::expectReady(const char* advice) {
    if (isBusy_) {
        return refuse(machineError(busyWords));
    }
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
    return {};
}

Result<Applied>
Document::writeThenSwap(const Edits& edits, const char* advice, std::int64_t leastNextId) {
    if (const Result<void> ready = expectReady(advice); !ready) {
        return fail(ready.error());
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
    Result<void> written;
    inParallelBeside(
        [this] { Q_EMIT beingWritten(); },
        1,
        usualThreads(),
        [&](std::size_t) {
            // Nothing may be thrown out of another thread.
            written = unlessMemoryIsOut([&] { return file_.write(edits, nextId); });
        });
    if (!written) {
        return refuse(written.error());
    }
    nextId_ = nextId;
    book_ = std::move(next);
    return applied;
}

Result<bool> Document::catchUp() {
    if (isBusy_) {
        return false; // what is written looks by itself whether it is alone
    }
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

void Document::takeInBehind(
    const Behind& behind,
    const std::string& label,
    const std::shared_ptr<const ImportPlan>& plan,
    const Taken& done) {
    if (plan->edits.empty() && plan->nextId <= nextId_) {
        done(Change{});
        return;
    }
    if (const Result<void> ready = expectReady(doItAgain); !ready) {
        done(fail(ready.error()));
        return;
    }
    const std::int64_t nextId = std::max({nextId_, largestId(plan->edits) + 1, plan->nextId});
    isBusy_ = true;
    behind.jobs.startToTheEnd(
        behind.kind,
        behind.words,
        [this, book = book_, plan, nextId](const Progress& progress) {
            return unlessMemoryIsOut([&]() -> Result<Applied> {
                Result<Applied> applied = applyEdits(*book, plan->edits);
                if (!applied) {
                    return applied;
                }
                if (Result<void> written = file_.write(plan->edits, nextId, progress); !written) {
                    return fail(written.error());
                }
                return applied;
            });
        },
        [this, label, plan, nextId, done](Result<Applied> applied) {
            isBusy_ = false;
            if (!applied) {
                Q_EMIT freed();
                done(refuseUnlessStopped(applied.error()));
                return;
            }
            nextId_ = nextId;
            book_ = std::make_shared<const Book>(std::move(applied->book));
            if (!plan->edits.empty()) { // else there is nothing that could be undone
                history_.applied(label, std::move(applied->inverse));
                Q_EMIT changed(applied->change);
            }
            Q_EMIT freed();
            done(applied->change);
        });
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
    BEDLORE_EXPECTS(!isBusy_);
    file_.stopWriting();
    history_ = {};
}

Result<void> Document::saveCopy(const std::filesystem::path& target) {
    if (isBusy_) {
        return refuse(machineError(busyWords));
    }
    Result<void> copied = file_.copyTo(target);
    if (!copied) {
        return refuse(copied.error());
    }
    return copied;
}

Result<void> Document::writeDerived(const std::vector<Reduction>& reductions) {
    if (isBusy_) {
        return fail(machineError(busyWords)); // nobody asked for it: they are written later
    }
    Result<void> written = file_.writeDerived(reductions);
    if (!written) {
        return refuse(ofDerived(written.error()));
    }
    derivedFrom_ = book_;
    return written;
}

void Document::writeDerivedBehind(
    const Behind& behind,
    const MakeReductions& make,
    const std::function<void(const Result<void>&)>& done) {
    if (isBusy_) {
        done(refuse(machineError(busyWords)));
        return;
    }
    isBusy_ = true;
    behind.jobs.startToTheEnd(
        behind.kind,
        behind.words,
        [this, make](const Progress& progress) {
            return unlessMemoryIsOut([&]() -> Result<void> {
                // Making them takes about a tenth of the time that writing them takes.
                const Result<std::vector<Reduction>> made = make(progress.part(0.0, 0.1));
                return made ? file_.writeDerived(*made, progress.part(0.1, 1.0))
                            : fail(made.error());
            });
        },
        [this, book = book_, done](const Result<void>& written) {
            isBusy_ = false;
            if (written) {
                derivedFrom_ = book;
            }
            Q_EMIT freed();
            done(written ? written : refuseUnlessStopped(ofDerived(written.error())));
        });
}

} // namespace bedlore

#include "moc_document.cpp"
