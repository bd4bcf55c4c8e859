// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "gui/document/bed_map.hpp"
#include "gui/document/bed_picture.hpp"
#include "gui/document/document.hpp"
#include "gui/document/live_map.hpp"
#include "gui/jobs/job_board.hpp"

#include <QObject>
#include <QString>
#include <QTimer>

#include <memory>
#include <optional>
#include <vector>

// Rebuilds what is derived whenever the book changes.

namespace bedlore {

/// Keeps the map of the chosen water up to date off the window's thread. An edit of a few readings
/// shows at once under the unknowns found last (`LiveMap`), and a full rebuild follows behind. A
/// newer edit stops the rebuild that runs; a late result is dropped. When nothing happens for a
/// while the tables for other programs are written. `document` and `jobs` must outlive it.
class BedBuilder : public QObject {
    Q_OBJECT

public:
    BedBuilder(Document& document, JobBoard& jobs, QObject* parent = nullptr);

    /// Chooses which bed is built, and builds it if it is another one.
    void show(const BedRequest& request);
    [[nodiscard]] const std::optional<BedRequest>& request() const { return request_; }
    /// Another look of the same bed is only drawn anew.
    void setLook(const MapLook& look);
    [[nodiscard]] const MapLook& look() const { return look_; }

    /// The last map that was finished; null before the first and for a book without water. It may
    /// be older than the book.
    [[nodiscard]] std::shared_ptr<const BedPicture> picture() const { return picture_; }
    [[nodiscard]] std::shared_ptr<const BedMap> map() const;
    /// Whether the map is of the book as it stands, and settled.
    [[nodiscard]] bool isCurrent() const;
    /// Whether the map is of everything that the book holds, settled or not.
    [[nodiscard]] bool showsTheBook() const;

    /// Writes the tables for other programs now, if they are out of date and the book may be
    /// written to. Where that fails it has been said.
    [[nodiscard]] Result<void> writeDerived();

    static constexpr auto jobKind = "bed";
    static constexpr auto followKind = "bed to follow with";

Q_SIGNALS:
    void built();
    void failed(const QString& sentence);

private:
    void rebuild();
    [[nodiscard]] bool canFollow() const;
    void followThenRebuild(const std::shared_ptr<const Book>& book);
    void changeIsKept(const Change& change);
    void changeIsLost();
    void rebuildWhole();
    void take(Result<std::shared_ptr<const BedPicture>> picture);
    void prepareToFollow();

    Document& document_;
    JobBoard& jobs_;
    std::optional<BedRequest> request_;
    MapLook look_;
    std::shared_ptr<const BedPicture> picture_;
    std::shared_ptr<LiveMap> live_;     ///< null where there is nothing to follow with
    std::shared_ptr<const Book> ahead_; ///< being followed to while it is written
    QTimer idle_;
};

} // namespace bedlore
