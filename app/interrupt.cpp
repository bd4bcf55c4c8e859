// SPDX-License-Identifier: MIT
#include "app/interrupt.hpp"

#include <csignal>

namespace bedlore {

Interrupt::Interrupt() {
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals, nullptr);
    watcher_ = std::jthread([signals, source = source_](const std::stop_token& end) mutable {
        int signal = 0;
        while (sigwait(&signals, &signal) == 0 && !end.stop_requested()) {
            source.request_stop();
        }
    });
}

Interrupt::~Interrupt() {
    watcher_.request_stop();
    // Wakes the watcher alone, which waits for this signal and takes it.
    // NOLINTNEXTLINE(bugprone-bad-signal-to-kill-thread)
    pthread_kill(watcher_.native_handle(), SIGTERM);
}

} // namespace bedlore
