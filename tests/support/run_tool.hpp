// SPDX-License-Identifier: MIT
#pragma once

#include <array>
#include <cstdio>
#include <string>
#include <sys/wait.h>

// Runs another program on a file that we wrote.

namespace bedlore::testing {

struct ToolRun {
    int status = -1;
    std::string output; ///< standard output and error
};

inline ToolRun runTool(const std::string& command) {
    ToolRun run;
    FILE* pipe = ::popen((command + " 2>&1").c_str(), "r");
    if (pipe == nullptr) {
        return run;
    }
    std::array<char, 4096> buffer{};
    std::size_t got = 0;
    while ((got = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0) {
        run.output.append(buffer.data(), got);
    }
    const int ended = ::pclose(pipe);
    run.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return run;
}

} // namespace bedlore::testing
