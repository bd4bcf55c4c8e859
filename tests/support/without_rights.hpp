// SPDX-License-Identifier: MIT
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <system_error>
#include <unistd.h>
#include <utility>

// A superuser may write anywhere, so what a folder forbids shows only to somebody else.

namespace bedlore::testing {

/// While it lives this process is a user who owns nothing, where it may do anything otherwise.
/// What it starts meanwhile stays that user.
class WithoutRights {
public:
    WithoutRights() {
        if (may_) {
            EXPECT_EQ(::setresgid(nobody, nobody, 0), 0);
            EXPECT_EQ(::setresuid(nobody, nobody, 0), 0);
        }
    }
    ~WithoutRights() {
        if (may_) {
            EXPECT_EQ(::setresuid(0, 0, 0), 0);
            EXPECT_EQ(::setresgid(0, 0, 0), 0);
        }
    }
    WithoutRights(const WithoutRights&) = delete;
    WithoutRights& operator=(const WithoutRights&) = delete;
    WithoutRights(WithoutRights&&) = delete;
    WithoutRights& operator=(WithoutRights&&) = delete;

private:
    static constexpr uid_t nobody = 65534;
    bool may_ = ::geteuid() == 0;
};

/// The permissions of a folder and of the book in it, put back to what they were in the end.
class Rights {
public:
    Rights(std::filesystem::path book, std::filesystem::perms folder, std::filesystem::perms file)
        : book_(std::move(book)) {
        std::filesystem::permissions(book_, file);
        std::filesystem::permissions(book_.parent_path(), folder);
    }
    ~Rights() { giveBack(); }
    Rights(const Rights&) = delete;
    Rights& operator=(const Rights&) = delete;
    Rights(Rights&&) = delete;
    Rights& operator=(Rights&&) = delete;

    /// Everybody may do everything.
    void giveBack() const {
        std::error_code gone;
        std::filesystem::permissions(book_.parent_path(), std::filesystem::perms::all, gone);
        std::filesystem::permissions(book_, std::filesystem::perms::all, gone);
    }

private:
    std::filesystem::path book_;
};

inline constexpr auto mayEnter = std::filesystem::perms{0555};
inline constexpr auto mayRead = std::filesystem::perms{0444};
inline constexpr auto mayDoAll = std::filesystem::perms{0777};

} // namespace bedlore::testing
