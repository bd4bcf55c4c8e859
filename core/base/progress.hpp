// SPDX-License-Identifier: MIT
#pragma once

#include <functional>
#include <stop_token>
#include <utility>

// How far a long computation is, and whether to go on.

namespace bedlore {

/// Passed as the last argument to whatever may take longer than 50 ms. Cheap to copy; a default one
/// reports to nobody and is never cancelled. Reports come from the computing thread.
class Progress {
public:
    using Sink = std::function<void(double share)>;

    Progress() = default;
    explicit Progress(std::stop_token stop, Sink sink = {})
        : stop_(std::move(stop))
        , sink_(std::move(sink)) {}

    /// Says that `share` (0 to 1) of this step is done.
    void at(double share) const {
        if (sink_) {
            sink_(from_ + share * (to_ - from_));
        }
    }
    [[nodiscard]] bool cancelled() const { return stop_.stop_requested(); }

    /// The progress of a sub-step that covers `from` to `to` of this one.
    [[nodiscard]] Progress part(double from, double to) const {
        Progress result = *this;
        result.from_ = from_ + from * (to_ - from_);
        result.to_ = from_ + to * (to_ - from_);
        return result;
    }

private:
    std::stop_token stop_;
    Sink sink_;
    double from_ = 0.0;
    double to_ = 1.0;
};

} // namespace bedlore
