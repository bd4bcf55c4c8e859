// SPDX-License-Identifier: MIT
#include "core/io/input_file.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace bedlore {

namespace {

constexpr std::size_t pieceBytes = std::size_t{1} << 18U;

Error cannotRead(const std::filesystem::path& path, int code) {
    const std::string name = path.filename().string();
    switch (code) {
    case ENOENT:
    case ENOTDIR:
        return inputError("There is no file " + path.string() + ".");
    case EACCES:
    case EPERM:
        return machineError("There is no permission to read " + name + ".", path.string());
    case ENAMETOOLONG:
    case ELOOP:
        return inputError("There is no file of the name given: the name cannot be followed.");
    default:
        return machineError(
            name + " cannot be read: " + std::generic_category().message(code) + ".",
            path.string());
    }
}

/// Rounded up, so that a file just over a limit never reads as being of it.
std::string megabytes(std::uint64_t bytes) {
    constexpr std::uint64_t megabyte = 1024 * 1024;
    return std::to_string((bytes + megabyte - 1) / megabyte) + " MB";
}

} // namespace

Result<InputFile> InputFile::open(const std::filesystem::path& path) {
    // A pipe would otherwise wait for its other end.
    const int handle = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (handle < 0) {
        return fail(cannotRead(path, errno));
    }
    InputFile file;
    file.file_ = handle;
    file.name_ = path.filename().string();
    struct stat status {};
    if (::fstat(handle, &status) != 0) {
        return fail(cannotRead(path, errno));
    }
    if (!S_ISREG(status.st_mode)) {
        return fail(inputError(
            path.string() + (S_ISDIR(status.st_mode) ? " is a folder" : " is not a plain file") +
            "; name the files to be read."));
    }
    file.size_ = static_cast<std::uint64_t>(status.st_size);
    return file;
}

InputFile::InputFile(InputFile&& other) noexcept
    : name_(std::move(other.name_))
    , size_(other.size_)
    , bytesRead_(other.bytesRead_)
    , sum_(other.sum_)
    , file_(std::exchange(other.file_, -1)) {}

InputFile& InputFile::operator=(InputFile&& other) noexcept {
    if (this != &other) {
        if (file_ >= 0) {
            ::close(file_);
        }
        name_ = std::move(other.name_);
        size_ = other.size_;
        bytesRead_ = other.bytesRead_;
        sum_ = other.sum_;
        file_ = std::exchange(other.file_, -1);
    }
    return *this;
}

InputFile::~InputFile() {
    if (file_ >= 0) {
        ::close(file_);
    }
}

Result<bool> InputFile::readMore(std::string& buffer, std::uint64_t limit) {
    const std::size_t before = buffer.size();
    buffer.resize(before + pieceBytes);
    ssize_t count = -1;
    do {
        count = ::read(file_, buffer.data() + before, pieceBytes);
    } while (count < 0 && errno == EINTR);
    const int failure = errno;
    buffer.resize(before + (count > 0 ? static_cast<std::size_t>(count) : 0));
    if (count < 0) {
        return fail(cannotRead(name_, failure));
    }
    bytesRead_ += static_cast<std::uint64_t>(count);
    if (bytesRead_ > limit) {
        return fail(tooLarge(name_, std::max(size_, bytesRead_), limit));
    }
    sum_.add(std::string_view(buffer).substr(before));
    return count > 0;
}

Result<WholeFile> readWhole(InputFile& file, std::uint64_t limit) {
    if (file.size() > limit) {
        return fail(tooLarge(file.name(), file.size(), limit));
    }
    WholeFile whole;
    whole.bytes.reserve(file.size() + pieceBytes);
    while (true) {
        const auto more = file.readMore(whole.bytes, limit);
        if (!more) {
            return fail(more.error());
        }
        if (!*more) {
            break;
        }
    }
    whole.sha256 = file.sha256();
    return whole;
}

Error tooLarge(const std::string& name, std::uint64_t size, std::uint64_t limit) {
    return inputError(
        name + " is " + megabytes(size) + " long; at most " + megabytes(limit) +
        " of such a file can be read. Split it.");
}

} // namespace bedlore
