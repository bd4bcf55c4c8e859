// SPDX-License-Identifier: MIT
#include "core/io/book_lock.hpp"

#include <cerrno>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace bedlore {

namespace {

/// Whether the open file is still the one of that name.
bool isStillAt(int file, const std::filesystem::path& path) {
    struct stat open {};
    struct stat named {};
    return ::fstat(file, &open) == 0 && ::stat(path.c_str(), &named) == 0 &&
           open.st_dev == named.st_dev && open.st_ino == named.st_ino;
}

} // namespace

BookLock::Attempt BookLock::take(const std::filesystem::path& book) {
    std::filesystem::path path = book;
    path += ".lock";
    // The last holder removes the file while it lets go of it: then the lock is on a file that
    // nobody else would find, and it has to be asked for again.
    constexpr int attempts = 100;
    for (int i = 0; i < attempts; ++i) {
        const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
        if (file < 0) {
            return {.lock = std::nullopt, .refusal = Refusal::Impossible};
        }
        if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
            const bool taken = errno == EWOULDBLOCK;
            ::close(file);
            return {.lock = std::nullopt, .refusal = taken ? Refusal::Taken : Refusal::Impossible};
        }
        if (isStillAt(file, path)) {
            return {.lock = BookLock(file, path)};
        }
        ::close(file);
    }
    return {.lock = std::nullopt, .refusal = Refusal::Taken};
}

BookLock::~BookLock() {
    if (file_ >= 0) {
        // Removed while still held, so that nobody's later lock is taken away.
        if (isStillAt(file_, path_)) {
            ::unlink(path_.c_str());
        }
        ::close(file_);
    }
}

} // namespace bedlore
