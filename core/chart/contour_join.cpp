// SPDX-License-Identifier: MIT
#include "core/chart/contour_join.hpp"

#include <algorithm>
#include <limits>

namespace bedlore::detail {

namespace {

/// Makes lines of the pieces of one level.
class LevelJoiner {
public:
    explicit LevelJoiner(const std::vector<Segment>& segments)
        : segments_(segments) {}

    std::vector<JoinedLine> join() {
        order();
        findNext();
        // Lines that begin on an outline first; what is left over is closed.
        for (std::uint32_t i = 0; i < next_.size(); ++i) {
            if (!follows_[i]) {
                follow(i);
            }
        }
        for (std::uint32_t i = 0; i < next_.size(); ++i) {
            if (!used_[i]) {
                follow(i);
                lines_.back().closed = true;
                lines_.back().vertices.pop_back(); // the first again
            }
        }
        return std::move(lines_);
    }

private:
    static constexpr std::uint32_t nobody = std::numeric_limits<std::uint32_t>::max();

    /// By where they begin: the order of lines must not hang on how the pieces were found.
    void order() {
        byFrom_.reserve(segments_.size());
        for (std::size_t i = 0; i < segments_.size(); ++i) {
            byFrom_.emplace_back(segments_[i].from, static_cast<std::uint32_t>(i));
        }
        std::sort(byFrom_.begin(), byFrom_.end());
    }
    [[nodiscard]] const Segment& segment(std::uint32_t i) const {
        return segments_[byFrom_[i].second];
    }
    void findNext() {
        next_.assign(segments_.size(), nobody);
        follows_.assign(segments_.size(), 0);
        used_.assign(segments_.size(), 0);
        std::vector<std::pair<std::uint64_t, std::uint32_t>> byTo;
        byTo.reserve(segments_.size());
        for (std::uint32_t i = 0; i < byFrom_.size(); ++i) {
            byTo.emplace_back(segment(i).to, i);
        }
        std::sort(byTo.begin(), byTo.end());
        std::uint32_t at = 0;
        for (const auto& [to, i] : byTo) {
            while (at < byFrom_.size() && byFrom_[at].first < to) {
                ++at;
            }
            if (at < byFrom_.size() && byFrom_[at].first == to) {
                next_[i] = at;
                follows_[at] = 1;
            }
        }
    }
    void follow(std::uint32_t first) {
        JoinedLine line{
            .closed = false,
            .from = segment(first).from,
            .to = 0,
            .vertices = {segment(first).start}};
        for (std::uint32_t i = first; i != nobody && !used_[i]; i = next_[i]) {
            used_[i] = 1;
            line.vertices.push_back(segment(i).end);
            line.to = segment(i).to;
        }
        lines_.push_back(std::move(line));
    }

    const std::vector<Segment>& segments_;
    std::vector<std::pair<std::uint64_t, std::uint32_t>> byFrom_;
    std::vector<std::uint32_t> next_;
    std::vector<std::uint8_t> follows_;
    std::vector<std::uint8_t> used_;
    std::vector<JoinedLine> lines_;
};

} // namespace

std::vector<JoinedLine> joined(const std::vector<Segment>& segments) {
    return LevelJoiner(segments).join();
}

} // namespace bedlore::detail
