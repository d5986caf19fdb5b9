#pragma once

#include <filesystem>

namespace coilward {

/// Keeps other programs that open a history in the same folder waiting, from here to the end of its scope.
/// SQLite does not itself wait where two programs turn a new file into a write-ahead-logged one at once. A
/// folder that cannot be locked is left to SQLite, which says what is the matter with it.
class FolderLock {
public:
    /// Waits as long as another holds it. Throws nothing.
    explicit FolderLock(const std::filesystem::path& folder);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

private:
    int folder_;
};

} // namespace coilward
