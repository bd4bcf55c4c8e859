// SPDX-License-Identifier: MIT
#include "core/bed/prediction.hpp"

#include "core/bed/triangular.hpp"

#include <algorithm>
#include <cmath>

namespace bedlore {

namespace {

using Index = Eigen::Index;

template <class Scalar>
using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic>;
template <class Scalar>
using Array = Eigen::Array<Scalar, Eigen::Dynamic, 1>;

/// A node's system, narrowed.
template <class Scalar>
struct NodeParts {
    double weight = 1.0;
    CovariancePart longPart;
    CovariancePart shortPart;
    double variance = 0.0; ///< of the bed about its drift
    Matrix<Scalar> lower;
    Matrix<Scalar> driftRoot; ///< L⁻¹F
    Eigen::MatrixXd driftCovariance;
    Eigen::VectorXd alpha;
    Eigen::VectorXd beta;
};

} // namespace

template <class Scalar>
class Predictor<Scalar>::Parts {
public:
    Parts(const BedFit& fit, std::span<const Point> recorded)
        : drift_(fit.drift)
        , meanLevel_(fit.meanLevel) {
        // Narrow numbers are kept near zero: places are taken from the first sounding.
        origin_ = fit.places.front();
        setPlaces(fit.places, east_, north_);
        setPlaces(recorded, recordedEast_, recordedNorth_);
        spread_ = fit.placeSpread.cast<Scalar>();
        for (const BedNode& node : fit.nodes) {
            NodeParts<Scalar> parts;
            parts.weight = node.weight;
            parts.longPart = fit.shape.longPart(node.theta);
            parts.shortPart = fit.shape.shortPart(node.theta);
            parts.variance = fit.shape.processVariance(node.theta);
            parts.lower = node.solved.lower().cast<Scalar>();
            parts.driftRoot = node.solved.driftRoot().cast<Scalar>();
            parts.driftCovariance = node.solved.driftCovariance();
            parts.alpha = node.solved.alpha();
            parts.beta = node.solved.beta();
            nodes_.push_back(std::move(parts));
        }
    }

    [[nodiscard]] BlockPrediction at(std::span<const Point> places) const {
        const auto count = static_cast<Index>(places.size());
        const Eigen::MatrixXd f = drift_.at(places).transpose();
        Matrix<Scalar> square = squares(places, east_, north_);
        BlockPrediction block;
        block.nearest = squares(places, recordedEast_, recordedNorth_)
                            .colwise()
                            .minCoeff()
                            .transpose()
                            .array()
                            .template cast<double>()
                            .sqrt();
        Eigen::ArrayXd mean = Eigen::ArrayXd::Zero(count);
        Eigen::ArrayXd second = Eigen::ArrayXd::Zero(count);
        for (const NodeParts<Scalar>& node : nodes_) {
            Matrix<Scalar> k = covariances(node, square);
            const Eigen::ArrayXd level =
                (k.template cast<double>().transpose() * node.alpha + f.transpose() * node.beta)
                    .array();
            const Eigen::ArrayXd variance = variances(node, k, f);
            mean += node.weight * level;
            second += node.weight * (variance + level.square());
        }
        block.level = mean + meanLevel_;
        block.sigma = (second - mean.square()).max(0.0).sqrt();
        return block;
    }

private:
    void setPlaces(std::span<const Point> places, Array<Scalar>& east, Array<Scalar>& north) {
        east.resize(static_cast<Index>(places.size()));
        north.resize(east.size());
        for (Index i = 0; i < east.size(); ++i) {
            const Point& p = places[static_cast<std::size_t>(i)];
            east[i] = static_cast<Scalar>(p.east - origin_.east);
            north[i] = static_cast<Scalar>(p.north - origin_.north);
        }
    }

    [[nodiscard]] Matrix<Scalar> squares(
        std::span<const Point> places,
        const Array<Scalar>& east,
        const Array<Scalar>& north) const {
        Matrix<Scalar> square(east.size(), static_cast<Index>(places.size()));
        for (Index j = 0; j < square.cols(); ++j) {
            const Point& p = places[static_cast<std::size_t>(j)];
            const auto e = static_cast<Scalar>(p.east - origin_.east);
            const auto n = static_cast<Scalar>(p.north - origin_.north);
            square.col(j) = (east - e).square() + (north - n).square();
        }
        return square;
    }

    [[nodiscard]] Matrix<Scalar>
    covariances(const NodeParts<Scalar>& node, const Matrix<Scalar>& square) const {
        Matrix<Scalar> k(square.rows(), square.cols());
        const auto longRange = static_cast<Scalar>(1.0 / node.longPart.range);
        const auto longVariance = static_cast<Scalar>(node.longPart.variance);
        const auto shortRange = static_cast<Scalar>(1.0 / node.shortPart.range);
        const auto shortVariance = static_cast<Scalar>(node.shortPart.variance);
        Array<Scalar> h(square.rows());
        for (Index j = 0; j < square.cols(); ++j) {
            h = square.col(j).array().sqrt() * longRange;
            correlate(node.longPart.family, h);
            k.col(j) = h * longVariance;
            if (node.shortPart.variance > 0.0) {
                h = (square.col(j).array() + spread_).sqrt() * shortRange;
                correlate(node.shortPart.family, h);
                k.col(j).array() += h * shortVariance;
            }
        }
        return k;
    }

    /// c0 − |L⁻¹k|² + uᵀB⁻¹u; spoils `k`.
    [[nodiscard]] Eigen::ArrayXd
    variances(const NodeParts<Scalar>& node, Matrix<Scalar>& k, const Eigen::MatrixXd& f) const {
        node.lower.template triangularView<Eigen::Lower>().solveInPlace(k);
        const Eigen::MatrixXd u = f - (node.driftRoot.transpose() * k).template cast<double>();
        const Eigen::ArrayXd explained =
            k.colwise().squaredNorm().transpose().array().template cast<double>();
        const Eigen::ArrayXd drifting =
            u.cwiseProduct(node.driftCovariance * u).colwise().sum().transpose().array();
        return (node.variance - explained + drifting).max(0.0);
    }

    Drift drift_;
    double meanLevel_;
    Point origin_;
    Array<Scalar> east_, north_;
    Array<Scalar> recordedEast_, recordedNorth_;
    Array<Scalar> spread_;
    std::vector<NodeParts<Scalar>> nodes_;
};

template <class Scalar>
Predictor<Scalar>::Predictor(const BedFit& fit, std::span<const Point> recorded)
    : parts_(std::make_unique<const Parts>(fit, recorded)) {}

template <class Scalar>
Predictor<Scalar>::~Predictor() = default;
template <class Scalar>
Predictor<Scalar>::Predictor(Predictor&&) noexcept = default;
template <class Scalar>
Predictor<Scalar>& Predictor<Scalar>::operator=(Predictor&&) noexcept = default;

template <class Scalar>
BlockPrediction Predictor<Scalar>::at(std::span<const Point> places) const {
    return parts_->at(places);
}

template class Predictor<float>;
template class Predictor<double>;

} // namespace bedlore
