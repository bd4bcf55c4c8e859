// SPDX-License-Identifier: MIT
#pragma once

#include "core/base/result.hpp"

#include <filesystem>
#include <string>
#include <vector>

// A folder of files that leaves the program: all of them or none, and never among others.

namespace bedlore {

/// Whether a folder of files can be made at `target`: nothing is there, or an empty folder. Fails
/// with a sentence that says what stands in the way.
[[nodiscard]] Result<void> checkNewFolder(const std::filesystem::path& target);

/// A folder in the making, beside its target or inside it where it is there already. If `publish`
/// is never reached nothing is left behind.
class NewFolder {
public:
    [[nodiscard]] static Result<NewFolder> create(const std::filesystem::path& target);

    NewFolder(NewFolder&& other) noexcept;
    NewFolder& operator=(NewFolder&&) = delete;
    NewFolder(const NewFolder&) = delete;
    NewFolder& operator=(const NewFolder&) = delete;
    ~NewFolder();

    /// Where the files are written, durably, before `publish`.
    [[nodiscard]] const std::filesystem::path& draft() const { return draft_; }

    /// Gives the folder its name, with the files in it; into a folder that was there they move in
    /// the order of `names`, which are all of them. Fails with nothing left behind.
    [[nodiscard]] Result<void> publish(const std::vector<std::string>& names);

private:
    NewFolder() = default;
    [[nodiscard]] Result<void> moveIn(const std::vector<std::string>& names);

    std::filesystem::path target_;
    std::filesystem::path draft_; ///< empty once it is published
    bool wasThere_ = false;
};

} // namespace bedlore
