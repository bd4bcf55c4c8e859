// SPDX-License-Identifier: MIT
#include "core/bed/live_grid.hpp"

#include "core/base/contract.hpp"
#include "core/base/parallel.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace bedlore {

namespace {

using Index = Eigen::Index;

// Nodes of a tile: its rows for a few hundred data stay in a processor's own cache.
constexpr Index tileNodes = 512;
// Room for so many data more, so that the first line typed does not move all of W.
constexpr Index spare = 64;
// A datum whose own variance is less than this share of its prior one adds nothing but rounding.
constexpr double leastShare = 1e-10;

} // namespace

LiveGrid::LiveGrid(const Eigen::VectorXd& priorVariance, Index valueCount, int threads)
    : whitened_(0, valueCount)
    , means_(Eigen::MatrixXd::Zero(priorVariance.size(), valueCount))
    , variance_(priorVariance)
    , threads_(threads) {
    for (Index begin = 0; begin < priorVariance.size(); begin += tileNodes) {
        tiles_.push_back(
            {.begin = begin,
             .rows = Eigen::MatrixXf(std::min(tileNodes, priorVariance.size() - begin), 0)});
    }
    reserve(spare);
}

LiveGrid::LiveGrid(
    const Eigen::VectorXd& priorVariance,
    Eigen::MatrixXd lower,
    const Eigen::MatrixXd& values,
    const ToNodes& toNodes,
    int threads)
    : LiveGrid(priorVariance, values.cols(), threads) {
    count_ = values.rows();
    lower_ = std::move(lower);
    whitened_ = lower_.triangularView<Eigen::Lower>().solve(values);
    const Eigen::MatrixXf narrow = lower_.cast<float>();
    forEachTile([&](Tile& tile) {
        const Index nodes = tile.rows.rows();
        tile.rows.resize(nodes, count_ + spare);
        auto rows = tile.rows.leftCols(count_);
        for (Index i = 0; i < count_; ++i) {
            toNodes(i, tile.begin, rows.col(i));
        }
        narrow.triangularView<Eigen::Lower>().transpose().solveInPlace<Eigen::OnTheRight>(rows);
        const Eigen::MatrixXd wide = rows.cast<double>();
        means_.middleRows(tile.begin, nodes).noalias() = wide * whitened_;
        variance_.segment(tile.begin, nodes) -= wide.rowwise().squaredNorm();
    });
    lower_.conservativeResize(count_ + spare, count_ + spare);
    whitened_.conservativeResize(count_ + spare, Eigen::NoChange);
}

void LiveGrid::reserve(Index count) {
    lower_.conservativeResize(count, count);
    whitened_.conservativeResize(count, Eigen::NoChange);
    for (Tile& tile : tiles_) {
        tile.rows.conservativeResize(Eigen::NoChange, count);
    }
}

void LiveGrid::forEachTile(const std::function<void(Tile&)>& work) {
    static_cast<void>(
        inParallel(tiles_.size(), threads_, {}, [&](std::size_t i) { work(tiles_[i]); }));
}

bool LiveGrid::add(const LiveDatum& datum) {
    BEDLORE_EXPECTS(datum.toData.size() == count_ && datum.toNodes.size() == nodeCount());
    BEDLORE_EXPECTS(datum.values.size() == means_.cols());
    const auto lower = lower_.topLeftCorner(count_, count_).triangularView<Eigen::Lower>();
    const Eigen::VectorXd l = lower.solve(datum.toData);
    const double left = datum.own - l.squaredNorm();
    if (!(left > leastShare * datum.own)) {
        return false;
    }
    if (count_ == lower_.rows()) {
        reserve(count_ + std::max(count_ / 4, spare));
    }
    const double d = std::sqrt(left);
    const Eigen::RowVectorXd added = (datum.values - l.transpose() * whitened_.topRows(count_)) / d;
    lower_.row(count_).head(count_) = l.transpose();
    lower_(count_, count_) = d;
    whitened_.row(count_) = added;
    const Eigen::VectorXf narrow = l.cast<float>();
    const auto scale = static_cast<float>(1.0 / d);
    forEachTile([&](Tile& tile) {
        const Index nodes = tile.rows.rows();
        auto row = tile.rows.col(count_);
        row = datum.toNodes.segment(tile.begin, nodes);
        row.noalias() -= tile.rows.leftCols(count_) * narrow;
        row *= scale;
        const Eigen::VectorXd wide = row.cast<double>();
        means_.middleRows(tile.begin, nodes).noalias() += wide * added;
        variance_.segment(tile.begin, nodes) -= wide.cwiseAbs2();
    });
    ++count_;
    return true;
}

/// Takes a row out of L and makes it triangular again; the rotations are of columns k and k + 1,
/// from `index` on.
std::vector<LiveGrid::Rotation> LiveGrid::removeRow(Index index) {
    const Index last = count_ - 1;
    for (Index column = 0; column < count_; ++column) {
        const Index from = std::max(index, column - 1);
        auto whole = lower_.col(column);
        std::copy(whole.data() + from + 1, whole.data() + count_, whole.data() + from);
    }
    std::vector<Rotation> rotations;
    for (Index k = index; k < last; ++k) {
        const double a = lower_(k, k);
        const double b = lower_(k, k + 1);
        const double length = std::hypot(a, b);
        const Rotation turn{.c = a / length, .s = b / length};
        lower_(k, k) = length;
        for (Index row = k + 1; row < last; ++row) {
            const double left = lower_(row, k);
            const double right = lower_(row, k + 1);
            lower_(row, k) = turn.c * left + turn.s * right;
            lower_(row, k + 1) = turn.c * right - turn.s * left;
        }
        const Eigen::RowVectorXd left = whitened_.row(k);
        const Eigen::RowVectorXd right = whitened_.row(k + 1);
        whitened_.row(k) = turn.c * left + turn.s * right;
        whitened_.row(k + 1) = turn.c * right - turn.s * left;
        rotations.push_back(turn);
    }
    return rotations;
}

void LiveGrid::remove(Index index) {
    BEDLORE_EXPECTS(index >= 0 && index < count_);
    const std::vector<Rotation> rotations = removeRow(index);
    const Index last = count_ - 1;
    const Eigen::RowVectorXd taken = whitened_.row(last);
    forEachTile([&](Tile& tile) {
        const Index nodes = tile.rows.rows();
        Eigen::VectorXf kept(nodes);
        for (Index k = index; k < last; ++k) {
            const Rotation& turn = rotations[static_cast<std::size_t>(k - index)];
            const auto c = static_cast<float>(turn.c);
            const auto s = static_cast<float>(turn.s);
            auto left = tile.rows.col(k);
            auto right = tile.rows.col(k + 1);
            kept = left;
            left = c * kept + s * right;
            right = c * right - s * kept;
        }
        const Eigen::VectorXd gone = tile.rows.col(last).cast<double>();
        means_.middleRows(tile.begin, nodes).noalias() -= gone * taken;
        variance_.segment(tile.begin, nodes) += gone.cwiseAbs2();
    });
    --count_;
}

} // namespace bedlore
