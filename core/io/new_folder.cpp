// SPDX-License-Identifier: MIT
#include "core/io/new_folder.hpp"

#include <cerrno>
#include <cstdio>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

std::string named(const fs::path& folder) {
    return "\"" + folder.filename().string() + "\"";
}

/// Without a slash behind it, whose name would be empty, and without a link before it.
fs::path plainPath(const fs::path& path) {
    std::error_code failed;
    fs::path plain = fs::absolute(path, failed).lexically_normal();
    if (!plain.has_filename()) {
        plain = plain.parent_path();
    }
    if (fs::is_symlink(plain, failed)) {
        const fs::path real = fs::weakly_canonical(plain, failed);
        return failed ? plain : real;
    }
    return plain;
}

Error cannotMake(const fs::path& target, int code) {
    return machineError(
        "The folder " + named(target) +
            " cannot be written. Is the disk full, or the place read-only?",
        std::generic_category().message(code));
}

void flushFolder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle >= 0) {
        ::fsync(handle);
        ::close(handle);
    }
}

/// Renames unless something is there. Where the file system cannot do that in one step, looking
/// first is the best that can be done.
int renameIfFree(const fs::path& from, const fs::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) {
        return 0;
    }
    if (errno != EINVAL && errno != ENOSYS) {
        return errno;
    }
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(to, ignored))) {
        return EEXIST;
    }
    return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

Error somethingThere(const fs::path& target) {
    return inputError(
        "Something named " + named(target) + " has appeared there meanwhile. Nothing was written.");
}

} // namespace

Result<void> checkNewFolder(const fs::path& target) {
    const fs::path plain = plainPath(target);
    std::error_code failed;
    const fs::file_status there = fs::status(plain, failed);
    if (!fs::exists(there)) {
        if (plain.has_parent_path() && !fs::is_directory(plain.parent_path(), failed)) {
            return fail(inputError("There is no folder \"" + plain.parent_path().string() + "\"."));
        }
        return {};
    }
    if (!fs::is_directory(there)) {
        return fail(inputError(
            named(plain) + " is a file. The tables need a folder: give it another name."));
    }
    const fs::directory_iterator entries(plain, failed);
    if (failed) {
        return fail(machineError(
            "The folder " + named(plain) + " cannot be looked into.", failed.message()));
    }
    if (entries != fs::directory_iterator()) {
        return fail(inputError(
            "The folder " + named(plain) + " is not empty (it holds \"" +
            entries->path().filename().string() +
            "\"), and nothing in it is written over. Name a new folder or an empty one."));
    }
    return {};
}

Result<NewFolder> NewFolder::create(const fs::path& target) {
    if (Result<void> free = checkNewFolder(target); !free) {
        return fail(free.error());
    }
    NewFolder folder;
    folder.target_ = plainPath(target);
    std::error_code failed;
    folder.wasThere_ = fs::is_directory(folder.target_, failed);
    const fs::path beside = folder.wasThere_ ? folder.target_ : folder.target_.parent_path();
    const fs::path draft = beside / (".bedlore-" + std::to_string(::getpid()) + ".new");
    if (::mkdir(draft.c_str(), 0777) != 0) {
        return fail(cannotMake(folder.target_, errno));
    }
    folder.draft_ = draft;
    return folder;
}

NewFolder::NewFolder(NewFolder&& other) noexcept
    : target_(std::move(other.target_))
    , draft_(std::exchange(other.draft_, {}))
    , wasThere_(other.wasThere_) {}

NewFolder::~NewFolder() {
    if (!draft_.empty()) {
        std::error_code ignored;
        fs::remove_all(draft_, ignored);
    }
}

Result<void> NewFolder::publish(const std::vector<std::string>& names) {
    flushFolder(draft_);
    if (wasThere_) {
        if (Result<void> moved = moveIn(names); !moved) {
            return moved;
        }
        std::error_code ignored;
        fs::remove(draft_, ignored);
    } else if (const int problem = renameIfFree(draft_, target_); problem != 0) {
        return fail(problem == EEXIST ? somethingThere(target_) : cannotMake(target_, problem));
    }
    draft_.clear();
    flushFolder(wasThere_ ? target_ : target_.parent_path());
    return {};
}

Result<void> NewFolder::moveIn(const std::vector<std::string>& names) {
    for (std::size_t i = 0; i < names.size(); ++i) {
        const int problem = renameIfFree(draft_ / names[i], target_ / names[i]);
        if (problem == 0) {
            continue;
        }
        for (std::size_t k = 0; k < i; ++k) {
            std::error_code ignored;
            fs::remove(target_ / names[k], ignored);
        }
        return fail(
            problem == EEXIST ? somethingThere(target_ / names[i]) : cannotMake(target_, problem));
    }
    return {};
}

} // namespace bedlore
