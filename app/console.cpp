// SPDX-License-Identifier: MIT
#include "app/console.hpp"

#include <algorithm>
#include <ostream>
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

void Console::result(const std::string& line) {
    clearProgress();
    out_ << line << '\n';
}

void Console::note(const std::string& sentence) {
    clearProgress();
    err_ << sentence << '\n';
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
