#pragma once

#include "toml/complaint.h"
#include "toml/toml_node.h"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coilward {

/// A TOML file that was read: its text for excerpts, its values with their places.
struct TomlSource {
    std::string file; ///< as complaints name it
    std::string text; ///< UTF-8, whole
    TomlTable root;   ///< what the file holds
};

/// Reads and parses a file. Where that cannot be done there is one complaint more and nothing is returned.
std::optional<TomlSource> read_toml(const std::filesystem::path& file, std::vector<Complaint>& complaints);

/// Parses the text of a file; `file` is for complaints.
std::optional<TomlSource> toml_from_text(std::string text, const std::string& file,
                                         std::vector<Complaint>& complaints);

/// A complaint about a place in the file, with the line. What cannot be printed in it is replaced.
Complaint complaint_at(const TomlSource&, Place, ComplaintKind, std::string_view key,
                       std::string_view sentence);

/// A complaint about a whole file or folder.
Complaint complaint_about(const std::filesystem::path&, ComplaintKind, std::string sentence);

} // namespace coilward
