// SPDX-License-Identifier: MIT
#pragma once

#include "gui/document/document.hpp"
#include "gui/jobs/job_board.hpp"
#include "tests/gui/drive.hpp"
#include "tests/support/temp_folder.hpp"

#include <QCoreApplication>
#include <QSignalSpy>
#include <gtest/gtest.h>

#include <csignal>
#include <memory>
#include <string>
#include <sys/resource.h>
#include <vector>

// What the tests of the window share. They wait for signals, never for a time.

namespace bedlore::testing {

/// While it lives no file of this process can grow: every write to the book fails as on a full
/// disk.
class FullDisk {
public:
    FullDisk() {
        before_ = std::signal(SIGXFSZ, SIG_IGN);
        EXPECT_EQ(getrlimit(RLIMIT_FSIZE, &limit_), 0);
        rlimit none = limit_;
        none.rlim_cur = 0;
        EXPECT_EQ(setrlimit(RLIMIT_FSIZE, &none), 0);
    }
    ~FullDisk() {
        EXPECT_EQ(setrlimit(RLIMIT_FSIZE, &limit_), 0);
        std::signal(SIGXFSZ, before_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    FullDisk(FullDisk&&) = delete;
    FullDisk& operator=(FullDisk&&) = delete;

private:
    rlimit limit_{};
    void (*before_)(int) = nullptr;
};

inline std::unique_ptr<Document> newBook(const std::filesystem::path& path) {
    auto document = Document::create(path);
    EXPECT_TRUE(document.has_value()) << document.error().message;
    return document ? std::move(*document) : nullptr;
}

inline std::unique_ptr<Document> openBook(const std::filesystem::path& path) {
    auto document = Document::open(path);
    EXPECT_TRUE(document.has_value()) << document.error().message;
    return document ? std::move(*document) : nullptr;
}

} // namespace bedlore::testing
