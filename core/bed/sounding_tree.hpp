// SPDX-License-Identifier: MIT
#pragma once

#include "core/bed/covariance.hpp"
#include "core/geometry/point.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

// Many soundings in a tree of squares, each square with what it says as a whole.

namespace bedlore {

/// One sounding as the local model takes it in: metres and square metres.
struct LocalDatum {
    Point place;
    double value = 0.0;  ///< what is to be predicted, as it was found here
    double noise = 0.0;  ///< variance of its independent error
    double spread = 0.0; ///< mean square error of its place, each direction summed
    /// Of its shared errors, into a list that is kept elsewhere; negative without any.
    std::int32_t shared = -1;
};

/// An upright square of the plane; `corner` is its south-west one.
struct PlaneSquare {
    Point corner;
    double side = 0.0;

    /// One quarter, 0 to 3: bit 0 is east, bit 1 north.
    [[nodiscard]] PlaneSquare quarter(unsigned which) const {
        const double half = 0.5 * side;
        return {
            {corner.east + ((which & 1U) != 0 ? half : 0.0),
             corner.north + ((which & 2U) != 0 ? half : 0.0)},
            half};
    }
    [[nodiscard]] PlaneSquare grown(double by) const {
        return {{corner.east - by, corner.north - by}, side + 2.0 * by};
    }
    /// From the nearest point of one to the nearest of the other; zero where they meet [m].
    [[nodiscard]] double distanceTo(const PlaneSquare& other) const;
    [[nodiscard]] double distanceTo(Point place) const;
};

/// What the bed does inside a square: how far the mean over places anywhere in it may lie from the
/// bed at its middle.
class WithinSquare {
public:
    WithinSquare(const CovariancePart& longPart, const CovariancePart& shortPart)
        : long_(longPart)
        , short_(shortPart) {}
    /// Mean square difference [m²] for a square of this side [m].
    ///
    /// With gamma(h) = C(0) − C(h), c the middle and x, y anywhere in the square:
    ///   E (mean f(x) − f(c))² = 2 E gamma(|x − c|) − E gamma(|x − y|)
    /// Source: the dispersion variance of Journel & Huijbregts (1978), Mining Geostatistics,
    /// section II.C; the means over sixteen places of a regular lattice.
    [[nodiscard]] double variance(double side) const;

private:
    [[nodiscard]] double gamma(double distance) const;
    CovariancePart long_;
    CovariancePart short_;
};

/// Soundings ordered by where they lie, squares within squares over them. The same soundings give
/// the same tree whatever their order.
class SoundingTree {
public:
    /// A square with something in it, as one sounding at the weighted middle of its own.
    struct Node {
        Point place;
        double value = 0.0;
        float noise = 0.0F;  ///< of the weighted mean [m²]
        float within = 0.0F; ///< what the bed does inside: to be added to it [m²]; none for one
        float spread = 0.0F; ///< mean of its own [m²]
        float shared = 0.0F; ///< variance of shared errors, as if all were one [m²]
        std::uint32_t begin = 0; ///< into `data`
        std::uint32_t count = 0;
        std::uint32_t children = 0; ///< the first of four; zero where it is never parted
    };

    SoundingTree() = default;
    /// `sharedVariance` is that of each entry of the shared list. Plain soundings (without shared
    /// errors) that lie so close together that the bed varies little between them are never parted:
    /// what that adds to the variance of their mean is at most `leastMerged` of it, more where that
    /// leaves over `most` squares.
    SoundingTree(
        std::vector<LocalDatum> data,
        std::span<const double> sharedVariance,
        const WithinSquare& within,
        std::size_t most);

    [[nodiscard]] const std::vector<LocalDatum>& data() const { return data_; }
    [[nodiscard]] const std::vector<Node>& nodes() const { return nodes_; }
    [[nodiscard]] const PlaneSquare& square() const { return square_; }
    /// Squares that are never parted.
    [[nodiscard]] std::size_t itemCount() const { return items_; }

    /// Nodes that together stand for everything, at most `most` of them: a whole depth of the tree.
    [[nodiscard]] std::vector<std::uint32_t> cut(std::size_t most) const;

    /// Distance from `place` to the nearest sounding, or `farthest` where none is nearer [m].
    [[nodiscard]] double nearest(Point place, double farthest) const;

    static constexpr double leastMerged = 0.02;

private:
    class Grower;
    [[nodiscard]] std::size_t itemsWith(double merged) const;
    void prune(double merged);

    std::vector<LocalDatum> data_;
    std::vector<Node> nodes_;
    PlaneSquare square_;
    std::size_t items_ = 0;
};

/// Sorts soundings along a curve that fills the plane (Morton order over `square`), those at one
/// place by what they say. `codes` holds where on the curve each lies.
void sortAlongCurve(
    std::vector<LocalDatum>& data, const PlaneSquare& square, std::vector<std::uint64_t>& codes);

/// The smallest square that holds all; side at least one metre.
[[nodiscard]] PlaneSquare squareRound(std::span<const LocalDatum> data);

} // namespace bedlore
