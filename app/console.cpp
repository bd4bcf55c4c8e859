// SPDX-License-Identifier: MIT
#include "app/console.hpp"

#include "core/io/import_text.hpp"

#include <algorithm>
#include <cstddef>
#include <ostream>
#include <string_view>
#include <utility>

namespace bedlore {

ExitStatus exitStatusOf(Fault fault) {
    switch (fault) {
    case Fault::Input:
        return ExitStatus::InputAtFault;
    case Fault::Usage:
        return ExitStatus::WrongUsage;
    case Fault::Machine:
        return ExitStatus::MachineAtFault;
    case Fault::Cancelled:
        return ExitStatus::Interrupted;
    }
    return ExitStatus::MachineAtFault;
}

namespace {

/// Names and notes may hold what a terminal would obey.
std::string fitForTerminal(std::string_view text) {
    std::string fit;
    while (true) {
        const std::size_t end = text.find('\n');
        fit += shown(text.substr(0, end), std::string_view::npos);
        if (end == std::string_view::npos) {
            return fit;
        }
        fit += '\n';
        text.remove_prefix(end + 1);
    }
}

} // namespace

void Console::result(const std::string& line) {
    clearProgress();
    out_ << fitForTerminal(line) << '\n';
}

void Console::note(const std::string& sentence) {
    clearProgress();
    err_ << fitForTerminal(sentence) << '\n';
}

ExitStatus Console::fault(const Error& error) {
    note(error.message);
    return exitStatusOf(error.fault);
}

Progress Console::progress(std::string what) {
    if (!errIsTerminal_) {
        return Progress(stop_);
    }
    return Progress(stop_, [this, what = std::move(what)](double share) {
        const int percent = std::clamp(static_cast<int>(share * 100.0), 0, 100);
        if (shown_.exchange(percent) != percent) {
            err_ << '\r' + what + " … " + std::to_string(percent) + " %" << std::flush;
        }
    });
}

ExitStatus Console::finish(ExitStatus status) {
    clearProgress();
    out_.flush();
    if (!out_ && status == ExitStatus::Done) {
        return fault(machineError("The result could not be written out: is the disk full?"));
    }
    return status;
}

void Console::clearProgress() {
    if (shown_.exchange(-1) >= 0) {
        err_ << "\r\033[K";
    }
}

} // namespace bedlore
