// SPDX-License-Identifier: MIT
#include "app/display_guard.hpp"
#include "app/headless.hpp"
#include "app/interrupt.hpp"
#include "gui/window/run_window.hpp"

#include <exception>
#include <iostream>
#include <new>
#include <unistd.h>
#include <variant>

namespace {

using namespace bedlore;

int run(int argc, char** argv) {
    const auto options = readCommandLine({argv + 1, argv + argc});
    if (options) {
        if (const auto* window = std::get_if<OpenWindow>(&options->command)) {
            guardAgainstMissingDisplay();
            return runWindow(
                argc, argv, {.book = window->book.value_or(""), .practice = {}, .settings = {}});
        }
    }
    const Interrupt interrupt;
    Console console({std::cout, std::cerr}, isatty(STDERR_FILENO) != 0, interrupt.token());
    if (!options) {
        return static_cast<int>(console.fault(options.error()));
    }
    return static_cast<int>(runHeadless(*options, console));
}

} // namespace

int main(int argc, char** argv) {
    std::ios::sync_with_stdio(false);
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        std::cerr << "There is not enough memory for this.\n";
    } catch (const std::exception& fault) {
        std::cerr << "Something went wrong in the program itself: " << fault.what() << '\n';
    }
    return static_cast<int>(ExitStatus::MachineAtFault);
}
