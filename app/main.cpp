// SPDX-License-Identifier: MIT
#include "app/headless.hpp"
#include "app/interrupt.hpp"

#include <exception>
#include <iostream>
#include <new>
#include <string>
#include <unistd.h>
#include <vector>

namespace {

using namespace bedlore;

int run(const std::vector<std::string>& arguments) {
    const auto options = readCommandLine(arguments);
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
        return run(std::vector<std::string>(argv + 1, argv + argc));
    } catch (const std::bad_alloc&) {
        std::cerr << "There is not enough memory for this.\n";
    } catch (const std::exception& fault) {
        std::cerr << "Something went wrong in the program itself: " << fault.what() << '\n';
    }
    return static_cast<int>(ExitStatus::MachineAtFault);
}
