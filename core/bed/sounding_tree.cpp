// SPDX-License-Identifier: MIT
#include "core/bed/sounding_tree.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>
#include <utility>

namespace bedlore {

namespace {

// How finely the curve tells places apart: 2²¹ steps each way, a millimetre over two kilometres.
constexpr unsigned curveBits = 21;

/// The lower 21 bits, with a zero after each.
std::uint64_t spreadBits(std::uint64_t x) {
    x &= 0x1FFFFFU;
    x = (x | (x << 16U)) & 0x0000FFFF0000FFFFU;
    x = (x | (x << 8U)) & 0x00FF00FF00FF00FFU;
    x = (x | (x << 4U)) & 0x0F0F0F0F0F0F0F0FU;
    x = (x | (x << 2U)) & 0x3333333333333333U;
    x = (x | (x << 1U)) & 0x5555555555555555U;
    return x;
}

std::uint64_t codeOf(Point place, const PlaneSquare& square) {
    constexpr auto steps = static_cast<double>(1U << curveBits);
    const auto step = [&](double along) {
        return static_cast<std::uint64_t>(
            std::clamp(std::floor(along / square.side * steps), 0.0, steps - 1.0));
    };
    return spreadBits(step(place.east - square.corner.east)) |
           (spreadBits(step(place.north - square.corner.north)) << 1U);
}

auto contentOf(const LocalDatum& datum) {
    return std::tuple(
        datum.place.east, datum.place.north, datum.value, datum.noise, datum.spread, datum.shared);
}

} // namespace

double PlaneSquare::distanceTo(const PlaneSquare& other) const {
    const double east = std::max(
        {0.0,
         other.corner.east - (corner.east + side),
         corner.east - (other.corner.east + other.side)});
    const double north = std::max(
        {0.0,
         other.corner.north - (corner.north + side),
         corner.north - (other.corner.north + other.side)});
    return std::hypot(east, north);
}

double PlaneSquare::distanceTo(Point place) const {
    return distanceTo(PlaneSquare{place, 0.0});
}

double WithinSquare::gamma(double distance) const {
    return long_.variance - covarianceAt(long_, distance) + short_.variance -
           covarianceAt(short_, distance);
}

double WithinSquare::variance(double side) const {
    constexpr int n = 4;
    const auto at = [&](int i) { return side * ((i + 0.5) / n - 0.5); };
    double toMiddle = 0.0;
    double apart = 0.0;
    for (int i = 0; i < n; ++i) {
        for (int j = 0; j < n; ++j) {
            toMiddle += gamma(std::hypot(at(i), at(j))) / (n * n);
            // By symmetry the differences i, j along one way occur n − i times and both ways.
            const double times = (i == 0 ? 1.0 : 2.0) * (n - i) * (j == 0 ? 1.0 : 2.0) * (n - j);
            apart += times * gamma(std::hypot(side * i / n, side * j / n)) / (n * n * n * n);
        }
    }
    return std::max(0.0, 2.0 * toMiddle - apart);
}

PlaneSquare squareRound(std::span<const LocalDatum> data) {
    if (data.empty()) {
        return {{}, 1.0};
    }
    Point least = data.front().place;
    Point most = least;
    for (const LocalDatum& datum : data) {
        least = {std::min(least.east, datum.place.east), std::min(least.north, datum.place.north)};
        most = {std::max(most.east, datum.place.east), std::max(most.north, datum.place.north)};
    }
    const double side =
        std::max({1.0, most.east - least.east, most.north - least.north}) * (1.0 + 1e-9);
    return {least, side};
}

void sortAlongCurve(
    std::vector<LocalDatum>& data, const PlaneSquare& square, std::vector<std::uint64_t>& codes) {
    std::vector<std::pair<std::uint64_t, std::uint32_t>> order(data.size());
    for (std::size_t i = 0; i < data.size(); ++i) {
        order[i] = {codeOf(data[i].place, square), static_cast<std::uint32_t>(i)};
    }
    std::sort(order.begin(), order.end(), [&](const auto& a, const auto& b) {
        return a.first != b.first ? a.first < b.first
                                  : contentOf(data[a.second]) < contentOf(data[b.second]);
    });
    std::vector<LocalDatum> sorted;
    sorted.reserve(data.size());
    codes.resize(data.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        codes[i] = order[i].first;
        sorted.push_back(data[order[i].second]);
    }
    data = std::move(sorted);
}

/// Parts squares and sums what is in each.
class SoundingTree::Grower {
public:
    Grower(
        SoundingTree& tree,
        std::span<const std::uint64_t> codes,
        std::span<const double> sharedVariance,
        const WithinSquare& within)
        : tree_(tree)
        , codes_(codes)
        , sharedVariance_(sharedVariance) {
        for (unsigned depth = 0; depth <= curveBits; ++depth) {
            within_[depth] = within.variance(tree.square_.side / static_cast<double>(1U << depth));
        }
    }

    void grow(std::uint32_t number, std::uint32_t begin, std::uint32_t end, unsigned depth) {
        tree_.nodes_[number] = summed(begin, end);
        Node node = tree_.nodes_[number];
        if (node.count <= 1) {
            return;
        }
        node.within = static_cast<float>(within_[depth]);
        const bool close = within_[depth] <= leastMerged * static_cast<double>(node.noise);
        if (depth < curveBits && !(close && node.shared == 0.0F)) {
            node.children = static_cast<std::uint32_t>(tree_.nodes_.size());
            tree_.nodes_.resize(tree_.nodes_.size() + 4);
            growQuarters(node, depth);
        }
        tree_.nodes_[number] = node;
    }

private:
    void growQuarters(const Node& node, unsigned depth) {
        std::uint32_t begin = node.begin;
        const std::uint32_t end = node.begin + node.count;
        const unsigned shift = 2 * (curveBits - depth - 1);
        for (std::uint32_t which = 0; which < 4; ++which) {
            const auto last = std::partition_point(
                codes_.begin() + begin, codes_.begin() + end, [&](std::uint64_t code) {
                    return ((code >> shift) & 3U) <= which;
                });
            const auto to = static_cast<std::uint32_t>(last - codes_.begin());
            grow(node.children + which, begin, to, depth + 1);
            begin = to;
        }
    }

    /// All from `begin` to before `end` as one.
    [[nodiscard]] Node summed(std::uint32_t begin, std::uint32_t end) const {
        Node node;
        node.begin = begin;
        node.count = end - begin;
        double weight = 0.0;
        double spread = 0.0;
        double shared = 0.0;
        for (std::uint32_t i = begin; i < end; ++i) {
            const LocalDatum& datum = tree_.data_[i];
            const double w = 1.0 / datum.noise;
            weight += w;
            node.place.east += w * datum.place.east;
            node.place.north += w * datum.place.north;
            node.value += w * datum.value;
            spread += w * datum.spread;
            if (datum.shared >= 0) {
                shared += w * std::sqrt(sharedVariance_[static_cast<std::size_t>(datum.shared)]);
            }
        }
        if (node.count == 0) {
            return node;
        }
        node.place.east /= weight;
        node.place.north /= weight;
        node.value /= weight;
        node.noise = static_cast<float>(1.0 / weight);
        node.spread = static_cast<float>(spread / weight);
        node.shared = static_cast<float>((shared / weight) * (shared / weight));
        if (node.count == 1) {
            // The very numbers.
            node.place = tree_.data_[begin].place;
            node.value = tree_.data_[begin].value;
        }
        return node;
    }

    SoundingTree& tree_;
    std::span<const std::uint64_t> codes_;
    std::span<const double> sharedVariance_;
    std::array<double, curveBits + 1> within_{};
};

SoundingTree::SoundingTree(
    std::vector<LocalDatum> data,
    std::span<const double> sharedVariance,
    const WithinSquare& within,
    std::size_t most)
    : data_(std::move(data))
    , square_(squareRound(data_)) {
    std::vector<std::uint64_t> codes;
    sortAlongCurve(data_, square_, codes);
    nodes_.resize(1);
    Grower(*this, codes, sharedVariance, within)
        .grow(0, 0, static_cast<std::uint32_t>(data_.size()), 0);
    constexpr double mostMerged = 1e6;
    double merged = leastMerged;
    items_ = itemsWith(merged);
    while (items_ > most && merged < mostMerged) {
        merged *= 1.5;
        items_ = itemsWith(merged);
    }
    if (merged > leastMerged) {
        prune(merged);
    }
}

namespace {

bool isWhole(const SoundingTree::Node& node, double merged) {
    return node.children == 0 ||
           (node.shared == 0.0F &&
            static_cast<double>(node.within) <= merged * static_cast<double>(node.noise));
}

} // namespace

std::size_t SoundingTree::itemsWith(double merged) const {
    std::size_t items = 0;
    std::vector<std::uint32_t> open{0};
    while (!open.empty()) {
        const Node& node = nodes_[open.back()];
        open.pop_back();
        if (node.count == 0) {
            continue;
        }
        if (isWhole(node, merged)) {
            ++items;
            continue;
        }
        for (std::uint32_t which = 0; which < 4; ++which) {
            open.push_back(node.children + which);
        }
    }
    return items;
}

void SoundingTree::prune(double merged) {
    std::vector<Node> kept{nodes_.front()};
    for (std::size_t i = 0; i < kept.size(); ++i) {
        if (isWhole(kept[i], merged)) {
            kept[i].children = 0;
            continue;
        }
        const std::uint32_t from = kept[i].children;
        kept[i].children = static_cast<std::uint32_t>(kept.size());
        kept.insert(kept.end(), nodes_.begin() + from, nodes_.begin() + from + 4);
    }
    kept.shrink_to_fit();
    nodes_ = std::move(kept);
}

namespace {

/// What a depth of a tree is made of: squares that are parted, and those that are not.
struct Depth {
    std::vector<std::uint32_t> parted;
    std::vector<std::uint32_t> whole;

    void add(std::uint32_t number, const SoundingTree::Node& node) {
        if (node.count > 0) {
            (node.children == 0 ? whole : parted).push_back(number);
        }
    }
};

} // namespace

std::vector<std::uint32_t> SoundingTree::cut(std::size_t most) const {
    Depth depth;
    depth.add(0, nodes_.front());
    std::vector<std::uint32_t> chosen;
    // A whole depth at a time: all squares that are parted are of one size.
    for (;;) {
        chosen.insert(chosen.end(), depth.whole.begin(), depth.whole.end());
        Depth next;
        for (const std::uint32_t number : depth.parted) {
            for (std::uint32_t which = 0; which < 4; ++which) {
                const std::uint32_t child = nodes_[number].children + which;
                next.add(child, nodes_[child]);
            }
        }
        if (depth.parted.empty() || chosen.size() + next.parted.size() + next.whole.size() > most) {
            chosen.insert(chosen.end(), depth.parted.begin(), depth.parted.end());
            return chosen;
        }
        depth = std::move(next);
    }
}

double SoundingTree::nearest(Point place, double farthest) const {
    double best = farthest;
    struct Open {
        std::uint32_t node;
        PlaneSquare square;
    };
    std::vector<Open> open{{0, square_}};
    while (!open.empty()) {
        const Open at = open.back();
        open.pop_back();
        const Node& node = nodes_[at.node];
        if (node.count == 0 || at.square.distanceTo(place) >= best) {
            continue;
        }
        if (node.children == 0) {
            for (std::uint32_t i = node.begin; i < node.begin + node.count; ++i) {
                const Point p = data_[i].place;
                best = std::min(best, std::hypot(p.east - place.east, p.north - place.north));
            }
            continue;
        }
        // The quarter that holds the place last, so that it is looked at first.
        const PlaneSquare lower = at.square.quarter(0);
        const unsigned holds = (place.east >= lower.corner.east + lower.side ? 1U : 0U) |
                               (place.north >= lower.corner.north + lower.side ? 2U : 0U);
        for (unsigned i = 1; i <= 4; ++i) {
            const unsigned which = (holds + i) % 4;
            open.push_back({node.children + which, at.square.quarter(which)});
        }
    }
    return best;
}

} // namespace bedlore
