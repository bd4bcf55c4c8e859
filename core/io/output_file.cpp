// SPDX-License-Identifier: MIT
#include "core/io/output_file.hpp"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <fcntl.h>
#include <string>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace bedlore {

namespace {

namespace fs = std::filesystem;

std::string reason(int code) {
    switch (code) {
    case ENOSPC:
    case EDQUOT:
        return "the disk is full";
    case EACCES:
    case EPERM:
        return "there is no permission to write there";
    case EROFS:
        return "the disk can only be read";
    case ENOENT:
        return "its folder does not exist";
    case ENOTDIR:
        return "its folder is a file";
    case ENAMETOOLONG:
        return "its name is too long";
    default:
        return std::generic_category().message(code);
    }
}

Error cannotWrite(const fs::path& target, int code) {
    const std::string words =
        target.filename().string() + " cannot be written: " + reason(code) + ".";
    // A name that leads nowhere is at fault itself, like a folder in place of a file.
    const bool isTheName = code == ENOENT || code == ENOTDIR || code == ENAMETOOLONG;
    return isTheName ? inputError(words, target.string()) : machineError(words, target.string());
}

/// Where the bytes go: the file that a link leads to, so that the link stays.
fs::path behindLinks(const fs::path& target) {
    std::error_code failed;
    if (!fs::is_symlink(target, failed)) {
        return target;
    }
    const fs::path resolved = fs::weakly_canonical(target, failed);
    return failed ? target : resolved;
}

/// Opens a new file beside `target`, which ends as it does. -1 with `errno` set on failure.
int openBeside(const fs::path& target, fs::path& making) {
    static std::atomic<unsigned> count = 0;
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    for (int attempt = 0; attempt < 1000; ++attempt) {
        const std::string name = ".bedlore-" + std::to_string(::getpid()) + "-" +
                                 std::to_string(++count) + target.extension().string();
        making = folder / name;
        const int file = ::open(making.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) {
            return file;
        }
    }
    return -1;
}

/// Without it a rename may be lost with the power although the file's bytes are safe.
void syncFolder(const fs::path& folder) {
    const int handle = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (handle >= 0) {
        ::fsync(handle);
        ::close(handle);
    }
}

Result<void> syncFile(const fs::path& path, const fs::path& target) {
    const int handle = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (handle < 0) {
        return fail(cannotWrite(target, errno));
    }
    const int failure = ::fsync(handle) == 0 ? 0 : errno;
    ::close(handle);
    if (failure != 0) {
        return fail(cannotWrite(target, failure));
    }
    return {};
}

} // namespace

Result<OutputFile> OutputFile::create(const fs::path& target) {
    OutputFile file;
    file.target_ = behindLinks(target);
    std::error_code failed;
    const fs::file_status there = fs::status(file.target_, failed);
    if (fs::exists(there) && !fs::is_regular_file(there)) {
        return fail(inputError(
            target.filename().string() + " is not a file that can be written. Choose another name.",
            target.string()));
    }
    if (file.target_.filename().empty()) {
        return fail(inputError("A file to write needs a name.", target.string()));
    }
    fs::path making;
    file.file_ = openBeside(file.target_, making);
    if (file.file_ < 0) {
        return fail(cannotWrite(target, errno));
    }
    file.making_ = making;
    // A file that is replaced keeps who may read it.
    if (fs::exists(there) &&
        ::fchmod(file.file_, static_cast<mode_t>(there.permissions()) & 0777U) != 0) {
        return fail(cannotWrite(target, errno));
    }
    return file;
}

OutputFile::OutputFile(OutputFile&& other) noexcept
    : target_(std::move(other.target_))
    , making_(std::exchange(other.making_, {}))
    , file_(std::exchange(other.file_, -1)) {}

OutputFile& OutputFile::operator=(OutputFile&& other) noexcept {
    if (this != &other) {
        abandon();
        target_ = std::move(other.target_);
        making_ = std::exchange(other.making_, {});
        file_ = std::exchange(other.file_, -1);
    }
    return *this;
}

OutputFile::~OutputFile() {
    abandon();
}

void OutputFile::abandon() noexcept {
    if (file_ >= 0) {
        ::close(file_);
        file_ = -1;
    }
    if (!making_.empty()) {
        ::unlink(making_.c_str());
        making_.clear();
    }
}

Result<void> OutputFile::write(std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file_, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) {
            continue;
        }
        if (written < 0) {
            return fail(cannotWrite(target_, errno));
        }
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return {};
}

Result<void> OutputFile::commit() {
    if (auto synced = syncFile(making_, target_); !synced) {
        return synced;
    }
    if (::rename(making_.c_str(), target_.c_str()) != 0) {
        return fail(cannotWrite(target_, errno));
    }
    making_.clear();
    ::close(std::exchange(file_, -1));
    syncFolder(target_.has_parent_path() ? target_.parent_path() : fs::path("."));
    return {};
}

Result<void> OutputFile::finish(std::string_view bytes, const Progress& progress) {
    constexpr std::size_t piece = std::size_t{1} << 20U;
    while (!bytes.empty() && !progress.cancelled()) {
        if (auto written = write(bytes.substr(0, piece)); !written) {
            return written;
        }
        bytes.remove_prefix(std::min(piece, bytes.size()));
    }
    return progress.cancelled() ? fail(cancelledError()) : commit();
}

Result<void> writeWholeFile(const fs::path& target, std::string_view bytes) {
    auto file = OutputFile::create(target);
    if (!file) {
        return fail(std::move(file).error());
    }
    if (auto written = file->write(bytes); !written) {
        return written;
    }
    return file->commit();
}

} // namespace bedlore
