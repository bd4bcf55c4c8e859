// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"
#include "core/bed/covariance.hpp"
#include "core/bed/drift.hpp"
#include "core/bed/sounding_tree.hpp"

#include <Eigen/Core>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <utility>
#include <vector>

// A bed from more soundings than can be solved for at once.

namespace bedlore {

/// The effects of shared errors on the level of one sounding: which error, and what one standard
/// deviation of it does [m].
using SharedLoads = std::vector<std::pair<std::int32_t, double>>;

/// What the local model is told. The values of `data` are levels about some mean.
struct LocalModel {
    CovariancePart longPart;
    CovariancePart shortPart;
    double processVariance = 0.0; ///< of the bed about its drift [m²]
    Drift drift;
    Eigen::VectorXd driftPrecision;
    std::vector<LocalDatum> data;
    std::vector<SharedLoads> shared; ///< what `LocalDatum::shared` counts into
};

/// What is known at one place [m].
struct LocalEstimate {
    double value = 0.0;
    double sigma = 0.0;
    bool near = false; ///< whether a sounding lies within the reach asked for
};

/// Kriging in patches. The plane is parted into squares, small where soundings are dense; each
/// patch is solved from the soundings round it, those farther off gathered in ever larger squares,
/// and patches blend into each other over a margin with weights that fall to nothing at its end.
/// So no edge of a neighbourhood is seen, and a patch's factor serves all places in it.
///
/// The drift's coefficients and what is uncertain about them come from the whole (a cut through the
/// tree of soundings); each patch b is then simple kriging of what is left:
///   value = Σ w_b (k_bᵀK_b⁻¹(y_b − F_b beta) + fᵀbeta) / Σ w_b
///   sigma = Σ w_b s_b / Σ w_b,  s_b² = c0 − k_bᵀK_b⁻¹k_b + uᵀB⁻¹u,  u = f − F_bᵀK_b⁻¹k_b
/// The patches' errors at one place are nearly one and the same, and no standard deviation of a
/// weighted mean is larger than the weighted mean of standard deviations.
///
/// The same soundings give the same bed, to the byte, whatever their order and the number of
/// threads. Safe to use from several threads.
class LocalBed {
public:
    /// Of nothing: not to be asked.
    LocalBed() = default;
    /// `model.data` must not be empty.
    [[nodiscard]] static Result<LocalBed>
    of(LocalModel model, int threads, const Progress& progress = {});

    /// At `count` places, which are asked for by number, from several threads.
    [[nodiscard]] Result<std::vector<LocalEstimate>>
    at(std::size_t count,
       const std::function<Point(std::size_t)>& placeOf,
       double reach,
       const Progress& progress = {}) const;

    [[nodiscard]] const SoundingTree& tree() const { return tree_; }
    [[nodiscard]] std::size_t patchCount() const { return patches_.size(); }

private:
    class Patch;
    struct Shares;

    /// How much is taken into a patch.
    struct Neighbourhood {
        double openness = 0.0; ///< a square is taken whole from as far off as its side over this
        double growth = 0.0;   ///< and more so with distance, for each short range
        double margin = 0.0;   ///< over which patches blend, as a share of a side
        std::size_t mostInside = 0; ///< in a patch with its margin
        std::size_t mostItems = 0;
    };
    [[nodiscard]] static Neighbourhood neighbourhoodFor(std::size_t items);

    /// A square of the plane, parted in four or a patch.
    struct Split {
        PlaneSquare square;
        std::uint32_t children = 0; ///< the first of four; zero for a patch
        std::uint32_t patch = 0;
    };

    [[nodiscard]] Result<void> solveWhole(const Progress& progress);
    void part();
    [[nodiscard]] bool isPatch(const PlaneSquare& square) const;
    [[nodiscard]] PlaneSquare withMargin(const PlaneSquare& square) const {
        return square.grown(near_.margin * square.side);
    }
    [[nodiscard]] double weightAt(const PlaneSquare& patch, Point place) const;
    /// A node of the tree that is taken whole, and how wide its square is [m].
    struct Item {
        std::uint32_t node = 0;
        double side = 0.0;
    };
    [[nodiscard]] std::vector<Item> itemsFor(const PlaneSquare& round, std::size_t most) const;
    void findPatches(Point place, std::vector<std::pair<std::uint32_t, double>>& found) const;
    [[nodiscard]] std::optional<Shares> share(
        std::size_t count,
        const std::function<Point(std::size_t)>& placeOf,
        const Progress& progress) const;
    [[nodiscard]] Eigen::MatrixXd covarianceOf(const std::vector<std::uint32_t>& items) const;
    void addShared(const std::vector<std::uint32_t>& items, Eigen::MatrixXd& covariance) const;

    LocalModel model_; ///< its data are the tree's
    SoundingTree tree_;
    Neighbourhood near_;
    Eigen::VectorXd beta_;
    Eigen::MatrixXd driftCovariance_;
    std::vector<Split> splits_;
    std::vector<PlaneSquare> patches_;
    int threads_ = 1;
};

} // namespace bedlore
