// SPDX-License-Identifier: MIT
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <utility>

// The right to write in a book, for one program at a time.

namespace bedlore {

/// Held through the operating system on a file beside the book (`NAME.lock`), so it is gone the
/// moment its process is, killed or not; a left-over lock file means nothing.
class BookLock {
public:
    enum class Refusal : std::uint8_t {
        Taken,      ///< another program, or another window, has the book
        Impossible, ///< no lock file can be made there
    };
    /// What `take` gives: a lock, or why there is none.
    struct Attempt;

    [[nodiscard]] static Attempt take(const std::filesystem::path& book);

    BookLock(BookLock&& other) noexcept
        : file_(std::exchange(other.file_, -1))
        , path_(std::move(other.path_)) {}
    BookLock& operator=(BookLock&& other) noexcept {
        std::swap(file_, other.file_);
        std::swap(path_, other.path_);
        return *this;
    }
    ~BookLock();

private:
    BookLock(int file, std::filesystem::path path)
        : file_(file)
        , path_(std::move(path)) {}

    int file_ = -1; ///< descriptor; −1 for none
    std::filesystem::path path_;
};

struct BookLock::Attempt {
    std::optional<BookLock> lock;
    Refusal refusal = Refusal::Taken; ///< only without a lock
};

} // namespace bedlore
