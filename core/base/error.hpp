// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <string>
#include <utility>

// What went wrong, in a sentence for the angler.

namespace bedlore {

/// Whose fault it was: decides the exit status of the command line and whether trying again can
/// help.
enum class Fault : std::uint8_t {
    Input,     ///< what was given cannot be used (exit status 1)
    Usage,     ///< asked in the wrong way, or for something not built yet (exit status 2)
    Machine,   ///< disk full, no permission, locked by another program (exit status 3)
    Cancelled, ///< stopped by the user (exit status 130)
};

/// `message` is a sentence for the angler: what, where, what to do. `context` is for whoever mends
/// the program and is never needed to understand the message.
struct Error {
    Fault fault = Fault::Input;
    std::string message;
    std::string context = {};

    friend bool operator==(const Error&, const Error&) = default;
};

[[nodiscard]] inline Error inputError(std::string message, std::string context = {}) {
    return {.fault = Fault::Input, .message = std::move(message), .context = std::move(context)};
}

[[nodiscard]] inline Error machineError(std::string message, std::string context = {}) {
    return {.fault = Fault::Machine, .message = std::move(message), .context = std::move(context)};
}

[[nodiscard]] inline Error cancelledError() {
    return {.fault = Fault::Cancelled, .message = "Stopped."};
}

} // namespace bedlore
