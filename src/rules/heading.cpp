#include "rules/heading.h"

#include "toml/utf8.h"

#include <fmt/format.h>

namespace coilward {
namespace {

std::string name_without_ending(const std::filesystem::path& file) {
    return file.stem().string();
}

void check_id(TableReader& reader, const std::string& id, const std::string& file, IdsInFolder& ids) {
    const std::string own = name_without_ending(file);
    if (const auto other = ids.other_owner(id, file))
        reader.complain(
            ComplaintKind::duplicate_id, "id",
            fmt::format("found \"{}\", which is the id of {}; expected \"{}\", as this file is named",
                        shortened(id), *other, own));
    else if (id != own)
        reader.complain(
            ComplaintKind::id_is_not_file_name, "id",
            fmt::format("found \"{}\", expected \"{}\", as this file is named", shortened(id), own));
    ids.claim(id, file);
}

} // namespace

IdsInFolder::IdsInFolder(const std::vector<std::filesystem::path>& files) {
    for (const auto& file : files)
        owner_.emplace(name_without_ending(file), file.string());
}

std::optional<std::string> IdsInFolder::other_owner(const std::string& id, const std::string& file) const {
    const auto found = owner_.find(id);
    if (found == owner_.end() || found->second == file) return std::nullopt;
    return found->second;
}

Heading read_heading(TableReader& reader, const std::string& file, IdsInFolder& ids) {
    Heading heading{.id = reader.text("id", Need::required).value_or(""),
                    .title = reader.text("title", Need::required).value_or(""),
                    .source = reader.text("source", Need::required).value_or("")};
    if (!heading.id.empty()) check_id(reader, heading.id, file, ids);
    return heading;
}

} // namespace coilward
