// SPDX-License-Identifier: MIT
#pragma once

#include <stop_token>
#include <thread>

// Ctrl-C as a request to stop cleanly.

namespace bedlore {

/// While it lives, SIGINT and SIGTERM end nothing but ask `token` to stop. Made before any other
/// thread, so that all inherit the blocked signals.
class Interrupt {
public:
    Interrupt();
    ~Interrupt();
    Interrupt(const Interrupt&) = delete;
    Interrupt& operator=(const Interrupt&) = delete;
    Interrupt(Interrupt&&) = delete;
    Interrupt& operator=(Interrupt&&) = delete;

    [[nodiscard]] std::stop_token token() const { return source_.get_token(); }

private:
    std::stop_source source_;
    std::jthread watcher_;
};

} // namespace bedlore
