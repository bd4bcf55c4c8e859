// SPDX-License-Identifier: MIT
#include "core/io/new_file.hpp"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <string>
#include <system_error>
#include <unistd.h>

namespace bedlore {

namespace {

std::string named(const std::filesystem::path& path) {
    return "\"" + path.filename().string() + "\"";
}

Error existsError(const std::filesystem::path& target) {
    return inputError(
        "There is already something named " + named(target) +
        " in that folder. Choose another name.");
}

/// Waits until a file or a folder's list of names is on the disk.
bool flush(const std::filesystem::path& path, int flags) {
    const int file = ::open(path.c_str(), flags | O_CLOEXEC);
    if (file < 0) {
        return false;
    }
    const bool done = ::fsync(file) == 0;
    ::close(file);
    return done;
}

/// Renames unless `target` is there. Where the file system cannot do that in one step, a second
/// name and the removal of the first do the same.
int renameIfFree(const std::filesystem::path& draft, const std::filesystem::path& target) {
    if (::renameat2(AT_FDCWD, draft.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE) == 0) {
        return 0;
    }
    if (errno != EINVAL && errno != ENOSYS) {
        return errno;
    }
    if (::link(draft.c_str(), target.c_str()) != 0) {
        return errno;
    }
    ::unlink(draft.c_str());
    return 0;
}

} // namespace

Result<std::filesystem::path> draftFor(const std::filesystem::path& target) {
    std::error_code ignored;
    const std::filesystem::path folder = target.parent_path();
    if (!std::filesystem::is_directory(folder, ignored)) {
        return fail(inputError("There is no folder \"" + folder.string() + "\"."));
    }
    if (std::filesystem::exists(std::filesystem::symlink_status(target, ignored))) {
        return fail(existsError(target));
    }
    const std::filesystem::path draft =
        folder / ("." + target.filename().string() + "." + std::to_string(::getpid()) + ".new");
    std::filesystem::remove(draft, ignored);
    return draft;
}

Result<void> publishDraft(const std::filesystem::path& draft, const std::filesystem::path& target) {
    const int problem = flush(draft, O_RDONLY) ? renameIfFree(draft, target) : errno;
    if (problem != 0) {
        std::error_code ignored;
        std::filesystem::remove(draft, ignored);
        return fail(
            problem == EEXIST ? existsError(target)
                              : machineError(
                                    named(target) + " could not be written. Is the disk full?",
                                    std::generic_category().message(problem)));
    }
    flush(target.parent_path(), O_RDONLY | O_DIRECTORY);
    return {};
}

std::error_code
replaceByDraft(const std::filesystem::path& draft, const std::filesystem::path& target) {
    if (!flush(draft, O_RDONLY) || !flush(target.parent_path(), O_RDONLY | O_DIRECTORY) ||
        ::rename(draft.c_str(), target.c_str()) != 0) {
        return {errno, std::generic_category()};
    }
    flush(target.parent_path(), O_RDONLY | O_DIRECTORY);
    return {};
}

} // namespace bedlore
