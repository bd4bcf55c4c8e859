// SPDX-License-Identifier: MIT
#include "gui/document/bed_builder.hpp"

#include "gui/document/reductions.hpp"

#include <chrono>
#include <utility>

namespace bedlore {

namespace {
// Long enough not to come between two lines of a page.
constexpr std::chrono::seconds idleTime{20};

/// `last` is used again where it is of the same book and request.
Result<std::shared_ptr<const BedPicture>> makePicture(
    const std::shared_ptr<const Book>& book,
    const BedRequest& request,
    const MapLook& look,
    std::shared_ptr<const BedMap> last,
    const Progress& progress) {
    if (last == nullptr || !last->settled || last->book != book || last->request != request) {
        Result<std::shared_ptr<const BedMap>> map =
            makeBedMap(book, request, progress.part(0.0, 0.9));
        if (!map) {
            return fail(map.error());
        }
        last = std::move(*map);
    }
    if (progress.cancelled()) {
        return fail(cancelledError());
    }
    return drawBed(std::move(last), look);
}
} // namespace

BedBuilder::BedBuilder(Document& document, JobBoard& jobs, QObject* parent)
    : QObject(parent)
    , document_(document)
    , jobs_(jobs) {
    idle_.setSingleShot(true);
    idle_.setInterval(idleTime);
    connect(&idle_, &QTimer::timeout, this, [this] {
        // Many are written when the book is closed, where he sees how far that is.
        if (!hasManyDepths(*document_.book())) {
            static_cast<void>(writeDerived()); // a failure has been said
        }
    });
    connect(
        &document_,
        &Document::writing,
        this,
        [this](const std::shared_ptr<const Book>& next, const Change& change) {
            // What it gives is delivered by the event loop: not before the book is written.
            if (movesTheBed(change) && canFollow()) {
                ahead_ = next;
                followThenRebuild(next);
            }
        });
    connect(&document_, &Document::changed, this, &BedBuilder::changeIsKept);
    connect(&document_, &Document::failed, this, &BedBuilder::changeIsLost);
    if (document_.derivedIsStale()) {
        idle_.start();
    }
}

void BedBuilder::show(const BedRequest& request) {
    if (request_ != request) {
        request_ = request;
        rebuild();
    }
}

void BedBuilder::setLook(const MapLook& look) {
    if (look_ != look) {
        look_ = look;
        rebuild();
    }
}

std::shared_ptr<const BedMap> BedBuilder::map() const {
    return picture_ != nullptr ? picture_->bed : nullptr;
}

bool BedBuilder::isCurrent() const {
    return picture_ != nullptr && !jobs_.isRunning(QLatin1String(jobKind));
}

bool BedBuilder::showsTheBook() const {
    const auto drawn = map();
    // One that is current may be of an earlier book, where nothing since has moved the bed.
    return drawn != nullptr && (drawn->book == document_.book() || isCurrent());
}

void BedBuilder::rebuild() {
    if (!request_) {
        return;
    }
    const auto book = document_.book();
    if (book->find(request_->water) == nullptr) {
        jobs_.stop(QLatin1String(jobKind));
        picture_.reset();
        Q_EMIT built();
        return;
    }
    rebuildWhole();
}

void BedBuilder::changeIsKept(const Change& change) {
    idle_.start();
    const bool isFollowed = ahead_ != nullptr && ahead_ == document_.book();
    ahead_.reset();
    if (isFollowed || !movesTheBed(change)) {
        return;
    }
    if (canFollow()) {
        followThenRebuild(document_.book());
    } else {
        rebuild();
    }
}

/// What it follows with has run ahead of the book.
void BedBuilder::changeIsLost() {
    if (ahead_ != nullptr) {
        ahead_.reset();
        live_.reset();
        rebuild();
    }
}

bool BedBuilder::canFollow() const {
    return request_ && live_ != nullptr && live_->request() == *request_;
}

void BedBuilder::followThenRebuild(const std::shared_ptr<const Book>& book) {
    jobs_.start(
        QLatin1String(jobKind),
        tr("drawing the bed"),
        [book, look = look_, live = live_](const Progress& progress) {
            const auto map = live->follow(book, progress);
            return map != nullptr ? drawBed(map, look) : nullptr;
        },
        [this](std::shared_ptr<const BedPicture> picture) {
            if (picture != nullptr) {
                take(std::move(picture));
            } else {
                live_.reset();
            }
            rebuild();
        });
}

void BedBuilder::rebuildWhole() {
    const auto book = document_.book();
    jobs_.start(
        QLatin1String(jobKind),
        tr("drawing the bed"),
        [book, request = *request_, look = look_, last = map()](const Progress& progress) {
            return makePicture(book, request, look, last, progress);
        },
        [this](Result<std::shared_ptr<const BedPicture>> picture) { take(std::move(picture)); });
}

void BedBuilder::take(Result<std::shared_ptr<const BedPicture>> picture) {
    if (!picture) {
        if (picture.error().fault != Fault::Cancelled) {
            Q_EMIT failed(QString::fromStdString(picture.error().message));
        }
        return;
    }
    // Freed when the next is shown: there is much of it.
    const auto former = std::exchange(picture_, std::move(*picture));
    if (picture_->bed->settled) {
        prepareToFollow();
    }
    Q_EMIT built();
}

/// Costs about what a grid costs: behind the map that is shown.
void BedBuilder::prepareToFollow() {
    jobs_.start(
        QLatin1String(followKind),
        QString(),
        [map = map()](const Progress&) { return LiveMap::over(*map); },
        [this](std::shared_ptr<LiveMap> live) { live_ = std::move(live); });
}

Result<void> BedBuilder::writeDerived() {
    if (!document_.isWritable()) {
        return {};
    }
    // They are made from the book as the file has it, whoever changed it last.
    if (const Result<bool> news = document_.catchUp(); !news) {
        return fail(news.error());
    }
    if (!document_.derivedIsStale()) {
        return {};
    }
    const Result<std::vector<Reduction>> reductions =
        reductionsOf(document_.book(), map().get(), {});
    if (!reductions) {
        Q_EMIT failed(QString::fromStdString(reductions.error().message));
        return fail(reductions.error());
    }
    return document_.writeDerived(*reductions);
}

} // namespace bedlore

#include "moc_bed_builder.cpp"
