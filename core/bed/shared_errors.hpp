// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/bed_data.hpp"

#include <Eigen/Core>

#include <cstdint>
#include <span>
#include <vector>

// Errors that many soundings share: a cast's aim, a visit's compass and sticks, where a swim is.

namespace bedlore {

/// What moves when one shared error is one standard deviation above its mean.
enum class SharedErrorKind : std::uint8_t {
    Aim,
    Rotation,
    RangeScale,
    RangeOffset,
    Level,
    SwimEast,
    SwimNorth,
};

/// One error: of the `index`-th cast, visit or swim; `sigma` in radians, metres or as a share.
struct SharedError {
    SharedErrorKind kind = SharedErrorKind::Aim;
    std::size_t index = 0;
    double sigma = 0.0;
};

/// The effect of one error, by one standard deviation, on one sounding: how far its true place lies
/// from where it is taken to be, and how far its level is off [m].
struct SharedEffect {
    Eigen::Index error = 0;
    double east = 0.0;
    double north = 0.0;
    double level = 0.0;
};

/// All shared errors of a set of soundings, each a standard normal variable; `zeta` holds one value
/// for each.
class SharedErrors {
public:
    SharedErrors() = default;
    SharedErrors(const Reduction& reduction, std::span<const BedDatum> data);

    [[nodiscard]] const std::vector<SharedError>& errors() const { return errors_; }
    [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(errors_.size()); }

    /// Where the soundings lie if the errors are `zeta`.
    [[nodiscard]] std::vector<Point>
    places(std::span<const BedDatum> data, const Eigen::VectorXd& zeta) const;
    /// First-order effects about `zeta`, a list for each sounding.
    [[nodiscard]] std::vector<std::vector<SharedEffect>>
    effects(std::span<const BedDatum> data, const Eigen::VectorXd& zeta) const;

private:
    /// Indices into `errors_` of one kind, one for each cast, visit or swim; −1 where there is no
    /// such error.
    using Table = std::vector<Eigen::Index>;
    struct Bent {
        double direction = 0.0;
        double range = 0.0;
        double line = 0.0;
        double eastShift = 0.0;
        double northShift = 0.0;
    };

    void add(SharedErrorKind kind, std::size_t index, double sigma);
    [[nodiscard]] Table& table(SharedErrorKind kind);
    [[nodiscard]] const Table& table(SharedErrorKind kind) const;
    [[nodiscard]] double
    valueOf(SharedErrorKind kind, std::size_t index, const Eigen::VectorXd& zeta) const;
    [[nodiscard]] Bent bent(const ThrowGeometry& thrown, const Eigen::VectorXd& zeta) const;

    std::vector<SharedError> errors_;
    std::vector<Table> tables_;
    std::vector<std::size_t> visitOfCast_;
    std::vector<std::size_t> swimOfVisit_;
};

} // namespace bedlore
