// SPDX-License-Identifier: MIT
#include "tests/app/program.hpp"

#include <gtest/gtest.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <fstream>
#include <iterator>
#include <spawn.h>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace bedlore::testing {

namespace {

std::filesystem::path newFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "bedlore-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) {
        throw std::runtime_error("no temporary folder can be made");
    }
    return name;
}

} // namespace

Running::Running(const std::string& program, const std::vector<std::string>& arguments)
    : streams_(newFolder()) {
    std::vector<std::string> words{program};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    argv.reserve(words.size() + 1);
    for (std::string& word : words) {
        argv.push_back(word.data());
    }
    argv.push_back(nullptr);

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    const std::array<std::pair<int, const char*>, 2> streams{
        {{STDOUT_FILENO, "out"}, {STDERR_FILENO, "err"}}};
    for (const auto& [stream, name] : streams) {
        posix_spawn_file_actions_addopen(
            &actions, stream, (streams_ / name).c_str(), O_WRONLY | O_CREAT, 0600);
    }
    const int fault = posix_spawnp(&pid_, program.c_str(), &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (fault != 0) {
        throw std::runtime_error("cannot start " + program);
    }
}

Running::~Running() {
    if (pid_ > 0) {
        kill(pid_, SIGKILL);
        waitpid(pid_, nullptr, 0);
    }
    std::error_code ignored;
    std::filesystem::remove_all(streams_, ignored);
}

void Running::signal(int number) const {
    kill(pid_, number);
}

bool Running::hasEnded() const {
    siginfo_t ended{};
    waitid(P_PID, static_cast<id_t>(pid_), &ended, WEXITED | WNOHANG | WNOWAIT);
    return ended.si_pid == pid_;
}

bool Running::hasSaid(std::string_view words, int times) const {
    while (!hasEnded()) {
        const std::string said = textOf(streams_ / "err");
        int found = 0;
        for (std::size_t at = said.find(words); at != std::string::npos;
             at = said.find(words, at + words.size())) {
            ++found;
        }
        if (found >= times) {
            return true;
        }
        std::this_thread::yield();
    }
    return false;
}

bool Running::hasMade(const std::filesystem::path& folder, std::string_view beginning) const {
    while (!hasEnded()) {
        for (const auto& entry : std::filesystem::directory_iterator(folder)) {
            if (entry.path().filename().string().starts_with(beginning)) {
                return true;
            }
        }
        std::this_thread::yield();
    }
    return false;
}

bool Running::hasPrinted() const {
    while (!hasEnded()) {
        std::error_code notYet;
        if (std::filesystem::file_size(streams_ / "out", notYet) > 0 && !notYet) {
            return true;
        }
        std::this_thread::yield();
    }
    return false;
}

bool Running::hasOpened(const std::filesystem::path& file) const {
    // It may be one that the program has yet to make.
    const std::filesystem::path wanted = std::filesystem::weakly_canonical(file);
    const std::filesystem::path open = "/proc/" + std::to_string(pid_) + "/fd";
    while (true) {
        if (hasEnded()) {
            return false;
        }
        std::error_code gone;
        for (std::filesystem::directory_iterator at(open, gone), end; !gone && at != end;
             at.increment(gone)) {
            std::error_code closed;
            if (std::filesystem::read_symlink(at->path(), closed) == wanted) {
                return true;
            }
        }
        std::this_thread::yield();
    }
}

Ran Running::finish() {
    int state = 0;
    waitpid(pid_, &state, 0);
    pid_ = -1;
    return {
        .status = WIFEXITED(state) ? WEXITSTATUS(state) : -1,
        .signal = WIFSIGNALED(state) ? WTERMSIG(state) : 0,
        .out = textOf(streams_ / "out"),
        .err = textOf(streams_ / "err")};
}

Ran run(const std::string& program, const std::vector<std::string>& arguments) {
    return Running(program, arguments).finish();
}

Ran bedlore(const std::vector<std::string>& arguments) {
    return run(BEDLORE_PROGRAM, arguments);
}

ScratchFolder::ScratchFolder()
    : path_(newFolder()) {}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

std::string ScratchFolder::operator/(std::string_view name) const {
    return (path_ / name).string();
}

std::string ScratchFolder::write(std::string_view name, std::string_view text) const {
    const std::filesystem::path path = path_ / name;
    std::ofstream out(path, std::ios::binary);
    out << text;
    if (!out.flush()) {
        throw std::runtime_error("cannot write " + path.string());
    }
    return path.string();
}

std::string textOf(const std::filesystem::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        lines.push_back(line);
    }
    return lines;
}

} // namespace bedlore::testing
