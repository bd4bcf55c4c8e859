// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/progress.hpp"
#include "core/base/result.hpp"

#include <filesystem>
#include <string_view>

// A file that leaves the program: whole or not at all.

namespace bedlore {

/// A file in the making, beside its target. Until `commit` the target is as it was; if that is
/// never reached nothing is left behind. Movable, not copyable.
class OutputFile {
public:
    /// Makes the file in the making. Fails in a sentence when the folder is not there or may not
    /// be written to, or when `target` is a folder or a device.
    [[nodiscard]] static Result<OutputFile> create(const std::filesystem::path& target);

    OutputFile(OutputFile&& other) noexcept;
    OutputFile& operator=(OutputFile&& other) noexcept;
    OutputFile(const OutputFile&) = delete;
    OutputFile& operator=(const OutputFile&) = delete;
    ~OutputFile();

    /// The file in the making, for a library that writes by name. It ends as the target does, and
    /// may be replaced.
    [[nodiscard]] const std::filesystem::path& path() const { return making_; }

    /// Appends. Fails when the disk is full or the device fails.
    [[nodiscard]] Result<void> write(std::string_view bytes);

    /// Puts the finished file in the target's place, durably. Fails with the target untouched.
    [[nodiscard]] Result<void> commit();

    /// Writes `bytes` piece by piece and commits; stopped before that, the target is untouched.
    [[nodiscard]] Result<void> finish(std::string_view bytes, const Progress& progress);

private:
    OutputFile() = default;
    void abandon() noexcept;

    std::filesystem::path target_;
    std::filesystem::path making_;
    int file_ = -1;
};

/// `bytes` as the whole of `target`, or no change at all.
[[nodiscard]] Result<void>
writeWholeFile(const std::filesystem::path& target, std::string_view bytes);

} // namespace bedlore
