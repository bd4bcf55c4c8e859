// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"
#include "core/bed/bed_fit.hpp"
#include "core/bed/live_grid.hpp"
#include "core/bed/nearest_squares.hpp"
#include "core/bed/surface.hpp"
#include "core/geometry/raster.hpp"
#include "core/reduction/sounding.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

// A bed that follows the page while it is typed: one reading more, less or changed, at once.

namespace bedlore {

/// A fitted bed on one grid with its unknowns, slopes and shared errors frozen, so that a change of
/// a few readings costs one pass over the grid. Exact under what is frozen; a fit behind it gives
/// the unknowns anew.
class LiveBed {
public:
    /// Over `frame`, as `surface` was fitted to `reduction`. Empty where following makes no sense:
    /// without readings, with so few that several sets of unknowns are averaged (a fit is quick
    /// then), or with more than are solved for at once.
    [[nodiscard]] static std::optional<LiveBed> over(
        const BedSurface& surface,
        const Reduction& reduction,
        const GridFrame& frame,
        const BedOptions& options = {});

    /// Takes in what differs between the reduction that it stands at and `next`. False when that is
    /// more than a few readings, lies beyond the frame or changes what is frozen: this is then
    /// of no more use, and a fit is needed.
    [[nodiscard]] bool follow(const Reduction& next);

    /// The bed as it now stands.
    [[nodiscard]] BedGrid grid() const;
    /// The same for any point, from the factor that the grid grew. Cost n².
    [[nodiscard]] Result<BedSurface> surface() const;

    [[nodiscard]] std::size_t soundingCount() const { return entries_.size(); }

private:
    /// What a sounding is, whatever its neighbours in the reduction: place, level, errors, cast.
    using Identity =
        std::tuple<std::int64_t, double, double, double, double, double, double, double>;
    /// A shared error by the record that it belongs to.
    using ErrorKey = std::pair<SharedErrorKind, std::int64_t>;

    struct Entry {
        Identity identity;
        BedDatum datum;
        Point place;
        Eigen::RowVector2d slope;
    };
    /// All entries under one reduction.
    struct Terms {
        SharedErrors errors;
        Eigen::VectorXd zeta;
        std::vector<Point> places;
        std::vector<std::vector<SharedEffect>> effects;
        std::vector<SoundingTerms> each;
    };

    LiveBed(BedSurface surface, const GridFrame& frame, int threads);
    [[nodiscard]] static std::vector<Identity>
    identitiesOf(const Reduction& reduction, const std::vector<BedDatum>& data);
    [[nodiscard]] ErrorKey keyOf(const Reduction& reduction, const SharedError& error) const;
    [[nodiscard]] bool build(const Reduction& reduction);
    [[nodiscard]] bool holds(Point place) const;
    [[nodiscard]] bool sameErrors(const Reduction& next, const SharedErrors& errors) const;
    [[nodiscard]] Terms termsUnder(const Reduction& reduction) const;
    [[nodiscard]] Eigen::RowVector2d slopeAt(Point place) const;
    [[nodiscard]] double between(const Terms& terms, std::size_t a, std::size_t b) const;
    [[nodiscard]] double ownVariance(const Terms& terms, std::size_t entry) const;
    [[nodiscard]] Eigen::RowVectorXd valuesOf(const Terms& terms, std::size_t entry) const;
    void fillToNodes(
        const SoundingTerms& terms,
        Point place,
        Eigen::Index begin,
        Eigen::Ref<Eigen::VectorXf> out) const;
    [[nodiscard]] bool addEntry(const Terms& terms, std::size_t entry);
    void measureNearest();
    void removeEntry(std::size_t entry);
    [[nodiscard]] NearestSquares::Place fromCorner(Point place) const;

    BedSurface from_; ///< its fit is what is frozen
    GridFrame frame_;
    int threads_ = 1;
    CovariancePart longPart_;
    CovariancePart shortPart_;
    Eigen::VectorXf nodeEast_, nodeNorth_; ///< from the frame's corner
    Eigen::MatrixXd nodeDrift_;            ///< the drift's basis, a row for each node
    std::map<ErrorKey, double> sigmas_;
    std::map<ErrorKey, double> zetas_;
    std::vector<Entry> entries_; ///< in the order of `grid_`
    LiveGrid grid_;
    NearestSquares nearest_;
    std::optional<Reduction> at_;
};

} // namespace bedlore
