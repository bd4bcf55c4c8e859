// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/book/book.hpp"
#include "core/book/change.hpp"
#include "core/book/edit.hpp"
#include "core/book/history.hpp"
#include "core/io/book_file.hpp"
#include "core/io/import.hpp"
#include "gui/jobs/job_board.hpp"

#include <QObject>
#include <QString>
#include <QStringList>

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

// The open book: its file, its history and the snapshot that everything on the screen is made from.

namespace bedlore {

/// The only holder of the book in the window. An edit is written to the disk first, then the
/// snapshot is swapped and `changed` emitted; where the write fails nothing moves, and `failed`
/// carries a sentence that says why.
class Document : public QObject {
    Q_OBJECT

public:
    [[nodiscard]] static Result<std::unique_ptr<Document>>
    create(const std::filesystem::path& path);
    /// Opens read-only by itself where another program holds the book or the folder forbids
    /// writing; `notices` say so.
    [[nodiscard]] static Result<std::unique_ptr<Document>>
    open(const std::filesystem::path& path, BookAccess access = BookAccess::ReadWrite);

    /// The book as it stands. A snapshot: no later edit touches it.
    [[nodiscard]] std::shared_ptr<const Book> book() const { return book_; }
    /// A source of ids that no record of this book ever had. What is taken from it counts only once
    /// edits that use it are applied.
    [[nodiscard]] IdSource freeIds() const { return IdSource(nextId_); }

    [[nodiscard]] const std::filesystem::path& path() const { return file_.path(); }
    /// The file's name without its folder and ending.
    [[nodiscard]] QString name() const;
    [[nodiscard]] bool isWritable() const { return file_.isWritable(); }
    /// Sentences about the opening, for the message bar.
    [[nodiscard]] QStringList notices() const;

    /// One act of the angler's, under the words that undo will show.
    [[nodiscard]] Result<Change> apply(const std::string& label, const Edits& edits);
    /// What was read from files. Ids that its plan has given away are not given again, even where
    /// it brings no record.
    [[nodiscard]] Result<Change> takeIn(const std::string& label, const ImportPlan& plan);

    /// Where something long is written: on another thread of `jobs`, which must not outlive the
    /// document, as the work of `kind` that `words` tell of.
    struct Behind {
        JobBoard& jobs;
        QString kind;
        QString words;
    };
    using Taken = std::function<void(const Result<Change>&)>;
    /// As `takeIn`, while the window goes on. `done` is called at the end, or at once where it
    /// cannot begin; until then the document is busy. Stopped before its commit it changes
    /// nothing: `done` then gets a `Fault::Cancelled`, which nobody else hears of.
    void takeInBehind(
        const Behind& behind,
        const std::string& label,
        const std::shared_ptr<const ImportPlan>& plan,
        const Taken& done);
    /// Whether something is being written behind. The book stands as it was; it can be read, but
    /// whatever would write to it fails in a sentence, and nothing is caught up with.
    [[nodiscard]] bool isBusy() const { return isBusy_; }

    /// More of the last act: undo takes both back as one. Only while there is an act to undo.
    [[nodiscard]] Result<Change> goOn(const Edits& edits);
    [[nodiscard]] Result<Change> undo();
    [[nodiscard]] Result<Change> redo();
    [[nodiscard]] bool canUndo() const { return mayEdit() && history_.canUndo(); }
    [[nodiscard]] bool canRedo() const { return mayEdit() && history_.canRedo(); }
    /// What undo would take back; empty when there is nothing.
    [[nodiscard]] QString undoWords() const;
    [[nodiscard]] QString redoWords() const;

    /// Gives up the right to write, so that another opener may have it. For good.
    void stopWriting();
    /// A complete copy under another name, which must not exist.
    [[nodiscard]] Result<void> saveCopy(const std::filesystem::path& target);
    /// Writes what was derived for other programs. The next edit makes it stale again. Fails in a
    /// book that is open for reading only.
    [[nodiscard]] Result<void> writeDerived(const std::vector<Reduction>& reductions);
    using MakeReductions = std::function<Result<std::vector<Reduction>>(const Progress&)>;
    /// As `writeDerived`, while the window goes on, with what `make` gives on the other thread. To
    /// `done` goes what for `takeInBehind`.
    void writeDerivedBehind(
        const Behind& behind,
        const MakeReductions& make,
        const std::function<void(const Result<void>&)>& done);
    /// Whether that was made from another state of the book, or never.
    [[nodiscard]] bool derivedIsStale() const { return derivedFrom_ != book_; }
    /// Looks whether another program changed records in the file. If so they are shown: `changed`
    /// tells which, then `caughtUp` says so, and there is nothing to undo any more. Fails where the
    /// file that is written to is not there any more.
    [[nodiscard]] Result<bool> catchUp();

Q_SIGNALS:
    /// An edit is about to be written that would make the book `next`: for whoever can use the time
    /// that a disk takes. Nothing of it may be shown before `changed` says that it is kept; where
    /// it is not, `failed` follows instead.
    void writing(const std::shared_ptr<const bedlore::Book>& next, const bedlore::Change& change);
    /// The disk is being waited for, on another thread: time to paint what is to be seen by now.
    /// Neither the document nor what hangs on it may be changed meanwhile.
    void beingWritten();
    void changed(const bedlore::Change& change);
    /// Nothing was moved; the sentence says why.
    void failed(const QString& sentence);
    /// What was written behind is at its end: the document is not busy any more.
    void freed();
    /// Another program changed the book, which is shown as it is now.
    void caughtUp(const QString& sentence);

private:
    explicit Document(BookFile file);

    /// Writes and swaps, but leaves the history to the caller; gives what was done and its inverse.
    /// Where another program changed the book nothing is written, and `advice` says what to do now.
    /// The next id is `leastNextId` or later.
    [[nodiscard]] Result<Applied>
    writeThenSwap(const Edits& edits, const char* advice, std::int64_t leastNextId = 1);
    /// Whether something can be written now, to the book as it is shown.
    [[nodiscard]] Result<void> expectReady(const char* advice);
    [[nodiscard]] bool mayEdit() const { return isWritable() && !isBusy_; }
    [[nodiscard]] Result<bool> takeNews();
    /// A failure, which is said but where he stopped it himself.
    [[nodiscard]] tl::unexpected<Error> refuseUnlessStopped(Error error);
    [[nodiscard]] tl::unexpected<Error> refuse(Error error);

    BookFile file_;
    std::shared_ptr<const Book> book_;
    std::int64_t nextId_;
    History history_;
    std::shared_ptr<const Book> derivedFrom_; ///< null where that is not known
    bool isBusy_ = false;
};

} // namespace bedlore
