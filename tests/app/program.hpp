// SPDX-License-Identifier: MIT
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <sys/types.h>
#include <vector>

// Runs the real program, as a person or a script would.

namespace bedlore::testing {

struct Ran {
    int status = -1; ///< exit status; -1 where a signal ended it
    int signal = 0;  ///< that ended it, 0 for none
    std::string out;
    std::string err;
};

/// A program that is running.
class Running {
public:
    Running(const std::string& program, const std::vector<std::string>& arguments);
    ~Running();
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;
    Running(Running&&) = delete;
    Running& operator=(Running&&) = delete;

    void signal(int number) const;
    /// Waits until it has `file` open; false where it ends without.
    [[nodiscard]] bool hasOpened(const std::filesystem::path& file) const;
    /// Waits until something whose name begins with `beginning` is in `folder`; false where it ends
    /// without.
    [[nodiscard]] bool
    hasMade(const std::filesystem::path& folder, std::string_view beginning) const;
    /// Waits until its output stream holds anything; false where it ends without.
    [[nodiscard]] bool hasPrinted() const;
    /// Waits until `words` stand so many times in what it said on its error stream; false where it
    /// ends without.
    [[nodiscard]] bool hasSaid(std::string_view words, int times) const;
    /// Waits for its end.
    [[nodiscard]] Ran finish();

private:
    [[nodiscard]] bool hasEnded() const;

    pid_t pid_ = -1;
    std::filesystem::path streams_; ///< folder with what it printed
};

[[nodiscard]] Ran run(const std::string& program, const std::vector<std::string>& arguments);
/// The program under test.
[[nodiscard]] Ran bedlore(const std::vector<std::string>& arguments);

/// A folder that is gone with the test.
class ScratchFolder {
public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    ScratchFolder(ScratchFolder&&) = delete;
    ScratchFolder& operator=(ScratchFolder&&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// The path of `name` in it, as an argument.
    [[nodiscard]] std::string operator/(std::string_view name) const;
    /// Writes a file and gives its path.
    // NOLINTNEXTLINE(modernize-use-nodiscard): often only the file is wanted
    std::string write(std::string_view name, std::string_view text) const;

private:
    std::filesystem::path path_;
};

[[nodiscard]] std::string textOf(const std::filesystem::path& path);
[[nodiscard]] std::vector<std::string> linesOf(const std::string& text);

} // namespace bedlore::testing
