#pragma once

#include "toml/table_reader.h"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace coilward {

/// Which file of a folder has which id. Two files with one id would leave it to chance which of them counts.
class IdsInFolder {
public:
    /// Every file is entitled to its own name without ".toml".
    explicit IdsInFolder(const std::vector<std::filesystem::path>& files);

    /// The file that has the id, if it is another one.
    std::optional<std::string> other_owner(const std::string& id, const std::string& file) const;

    /// True where a file of that name exists, whether or not it could be read.
    bool has_file_for(const std::string& id) const { return owner_.contains(id); }

    /// The file has that id from now on.
    void claim(const std::string& id, const std::string& file) { owner_.emplace(id, file); }

private:
    std::map<std::string, std::string> owner_;
};

/// What coil models, pickup types and faults begin with.
struct Heading {
    std::string id;     ///< empty where the file has none
    std::string title;  ///< for people; likewise
    std::string source; ///< where the numbers come from; likewise
};

/// Reads `id`, which must be the file's own name and nobody else's, `title` and `source`. What is wrong
/// becomes a complaint.
Heading read_heading(TableReader&, const std::string& file, IdsInFolder&);

} // namespace coilward
