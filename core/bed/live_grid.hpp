// SPDX-License-Identifier: MIT
#pragma once

#include <Eigen/Core>

#include <functional>
#include <vector>

// Best linear prediction on fixed nodes from data that come and go one at a time.

namespace bedlore {

/// A datum as `LiveGrid` takes it.
struct LiveDatum {
    Eigen::VectorXd toData;    ///< covariance to each datum that is there, in their order
    double own = 0.0;          ///< its variance, noise in
    Eigen::VectorXf toNodes;   ///< covariance to each node, without noise
    Eigen::RowVectorXd values; ///< about known means of zero: the level, and what else is wanted
};

/// Means of r values and their variance at m nodes under n data, each change at the cost of one
/// pass over n × m numbers.
///
/// Symbols: K = L Lᵀ covariance of the data (double), k covariance of data to nodes, W = L⁻¹ k
/// (float, kept in tiles of nodes), v = L⁻¹ y. Mean = Wᵀ v, variance = c0 − |W|² by columns.
///   add: l = L⁻¹ k_new, d² = K_new − |l|², a row w = (k_new − lᵀ W) / d, an element (y − lᵀ v) /
///   d. remove i: row i is taken from L, which is made triangular again by Givens rotations of its
///   columns; the same rotations of the rows of W and V leave last rows r and q that belong to what
///   went: means − rᵀ q, variance + r².
/// Both are exact; against a fresh factor the float numbers differ by about 1e-5 of a standard
/// deviation. Source: Golub & Van Loan (2013), Matrix Computations, section 6.5.4 (removing and
/// appending rows); Rasmussen & Williams (2006), algorithm 2.1.
class LiveGrid {
public:
    LiveGrid() = default;
    /// Without data: `priorVariance` at each node, `valueCount` means.
    LiveGrid(const Eigen::VectorXd& priorVariance, Eigen::Index valueCount, int threads = 1);

    /// With data: `lower` is L, `values` Y; `toNodes(i, begin, out)` writes the covariance
    /// of datum i to the nodes from `begin` on, as many as `out` holds, and is called from several
    /// threads.
    using ToNodes = std::function<void(Eigen::Index, Eigen::Index, Eigen::Ref<Eigen::VectorXf>)>;
    LiveGrid(
        const Eigen::VectorXd& priorVariance,
        Eigen::MatrixXd lower,
        const Eigen::MatrixXd& values,
        const ToNodes& toNodes,
        int threads = 1);

    /// False, and nothing changed, when the datum follows so closely from the others that rounding
    /// leaves it no variance of its own.
    [[nodiscard]] bool add(const LiveDatum& datum);
    /// `index` as counted now; those after it move down by one.
    void remove(Eigen::Index index);

    [[nodiscard]] Eigen::Index dataCount() const { return count_; }
    [[nodiscard]] Eigen::Index nodeCount() const { return variance_.size(); }
    /// A row for each node, a column for each value.
    [[nodiscard]] const Eigen::MatrixXd& means() const { return means_; }
    [[nodiscard]] const Eigen::VectorXd& variance() const { return variance_; }
    /// L; what stands above its diagonal means nothing.
    [[nodiscard]] auto lower() const { return lower_.topLeftCorner(count_, count_); }
    /// V.
    [[nodiscard]] auto whitened() const { return whitened_.topRows(count_); }

private:
    /// Columns are data, rows the nodes of the tile.
    struct Tile {
        Eigen::Index begin = 0;
        Eigen::MatrixXf rows;
    };
    struct Rotation {
        double c = 1.0;
        double s = 0.0;
    };

    void reserve(Eigen::Index count);
    [[nodiscard]] std::vector<Rotation> removeRow(Eigen::Index index);
    void forEachTile(const std::function<void(Tile&)>& work);

    Eigen::MatrixXd lower_; ///< n × n in the corner of what is reserved
    Eigen::MatrixXd whitened_;
    std::vector<Tile> tiles_;
    Eigen::MatrixXd means_;
    Eigen::VectorXd variance_;
    Eigen::Index count_ = 0;
    int threads_ = 1;
};

} // namespace bedlore
