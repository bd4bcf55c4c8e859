// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/error.hpp"
#include "core/base/progress.hpp"

#include <atomic>
#include <iosfwd>
#include <stop_token>
#include <string>

// What a run without a window says, and where.

namespace bedlore {

enum class ExitStatus : int {
    Done = 0,
    InputAtFault = 1,
    WrongUsage = 2,
    MachineAtFault = 3,
    Interrupted = 130,
};

[[nodiscard]] ExitStatus exitStatusOf(Fault fault);

/// Results go to `out`, faults and everything else to `err`, so that the result alone can be piped.
class Console {
public:
    struct Streams {
        std::ostream& out;
        std::ostream& err;
    };
    /// `errIsTerminal`: how far the work is gets shown on `err`.
    Console(Streams streams, bool errIsTerminal, std::stop_token stop)
        : out_(streams.out)
        , err_(streams.err)
        , errIsTerminal_(errIsTerminal)
        , stop_(std::move(stop)) {}

    /// The result, or a line of it.
    void result(const std::string& line);
    /// A sentence that is not the result.
    void note(const std::string& sentence);
    /// Says the fault and gives the exit status that belongs to it.
    ExitStatus fault(const Error& error);

    /// For work that is called `what` ("Fitting the bed").
    [[nodiscard]] Progress progress(std::string what);
    [[nodiscard]] bool interrupted() const { return stop_.stop_requested(); }

    /// `Done` only if everything could be written out.
    [[nodiscard]] ExitStatus finish(ExitStatus status);

private:
    void clearProgress();

    std::ostream& out_;
    std::ostream& err_;
    bool errIsTerminal_;
    std::stop_token stop_;
    std::atomic<int> shown_{-1}; ///< per cent on the terminal, −1 for none
};

} // namespace bedlore
