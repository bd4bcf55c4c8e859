// SPDX-License-Identifier: MIT
#include "gui/document/bed_builder.hpp"

#include <chrono>
#include <utility>

namespace bedlore {

namespace {
// Long enough not to come between two lines of a page.
constexpr std::chrono::seconds idleTime{20};
} // namespace

BedBuilder::BedBuilder(Document& document, JobBoard& jobs, QObject* parent)
    : QObject(parent)
    , document_(document)
    , jobs_(jobs)
    , derivedFrom_(document.book()) {
    idle_.setSingleShot(true);
    idle_.setInterval(idleTime);
    connect(&idle_, &QTimer::timeout, this, [this] {
        if (Result<void> written = writeDerived(); !written) {
            Q_EMIT failed(QString::fromStdString(written.error().message));
        }
    });
    connect(&document_, &Document::changed, this, [this](const Change& change) {
        idle_.start();
        if (movesTheBed(change)) {
            rebuild();
        }
    });
}

void BedBuilder::show(const BedRequest& request) {
    if (request_ != request) {
        request_ = request;
        rebuild();
    }
}

bool BedBuilder::isCurrent() const {
    return map_ != nullptr && !jobs_.isRunning(QLatin1String(jobKind));
}

void BedBuilder::rebuild() {
    if (!request_) {
        return;
    }
    const auto book = document_.book();
    if (book->find(request_->water) == nullptr) {
        jobs_.stop(QLatin1String(jobKind));
        map_.reset();
        Q_EMIT built();
        return;
    }
    jobs_.start(
        QLatin1String(jobKind),
        tr("drawing the bed"),
        [book, request = *request_](const Progress& progress) {
            return makeBedMap(book, request, progress);
        },
        [this](Result<std::shared_ptr<const BedMap>> map) { take(std::move(map)); });
}

void BedBuilder::take(Result<std::shared_ptr<const BedMap>> map) {
    if (!map) {
        if (map.error().fault != Fault::Cancelled) {
            Q_EMIT failed(QString::fromStdString(map.error().message));
        }
        return;
    }
    map_ = std::move(*map);
    Q_EMIT built();
}

Result<void> BedBuilder::writeDerived() {
    const auto book = document_.book();
    if (book == derivedFrom_ || !document_.isWritable()) {
        return {};
    }
    std::vector<Reduction> reductions;
    for (const Water& water : book->all<Water>()) {
        if (map_ != nullptr && map_->book == book && map_->request.water == water.id) {
            reductions.push_back(map_->reduction);
            continue;
        }
        Result<Reduction> reduction = reduce(*book, {.water = water.id, .alone = std::nullopt});
        if (!reduction) {
            return fail(reduction.error());
        }
        reductions.push_back(std::move(*reduction));
    }
    Result<void> written = document_.writeDerived(reductions);
    if (written) {
        derivedFrom_ = book;
    }
    return written;
}

} // namespace bedlore

#include "moc_bed_builder.cpp"
