#include "rules/bench_file.h"
#include "rules/coil_model_file.h"
#include "rules/fault_file.h"
#include "rules/own_rules.h"
#include "rules/pickup_type_file.h"
#include "toml/toml_files.h"

#include <algorithm>
#include <array>
#include <system_error>
#include <tuple>

#include <fmt/format.h>

namespace coilward {
namespace {

namespace fs = std::filesystem;

std::optional<Complaint> why_not_a_folder(const fs::path& folder, std::string_view holds) {
    std::error_code error;
    const fs::file_status status = fs::status(folder, error);
    if (status.type() == fs::file_type::not_found)
        return complaint_about(folder, ComplaintKind::missing_folder,
                               fmt::format("there is no such folder, expected one that holds {}", holds));
    if (!fs::exists(status))
        return complaint_about(folder, ComplaintKind::unreadable,
                               fmt::format("cannot be read: {}", error.message()));
    if (!fs::is_directory(status))
        return complaint_about(folder, ComplaintKind::not_a_folder,
                               fmt::format("found a file, expected a folder that holds {}", holds));
    return std::nullopt;
}

std::vector<fs::path> shipped_files(const fs::path& folder, std::string_view holds,
                                    std::vector<Complaint>& complaints) {
    if (auto complaint = why_not_a_folder(folder, holds)) {
        complaints.push_back(std::move(*complaint));
        return {};
    }
    std::error_code error;
    auto files = toml_files(folder, error);
    if (error)
        complaints.push_back(complaint_about(folder, ComplaintKind::unreadable,
                                             fmt::format("cannot be read: {}", error.message())));
    else if (files.empty())
        complaints.push_back(complaint_about(folder, ComplaintKind::empty_folder,
                                             fmt::format("found no .toml file, expected {}", holds)));
    return files;
}

/// The files of a part of the rules, as "coils", with those of a person's own.
std::vector<fs::path> files_of(const fs::path& folder, const fs::path& own_folder, const char* part,
                               std::string_view holds, std::vector<Complaint>& complaints) {
    return with_own_files(shipped_files(folder / part, holds, complaints),
                          own_folder.empty() ? fs::path() : own_folder / part, complaints);
}

/// Reads each file of a folder with `read`, which returns nothing for a file that it complained about.
template <typename Item, typename Read>
std::vector<Item> read_each(const std::vector<fs::path>& files, std::vector<Complaint>& complaints,
                            Read read) {
    std::vector<Item> items;
    for (const fs::path& file : files)
        if (const auto source = read_toml(file, complaints))
            if (auto item = read(*source)) items.push_back(std::move(*item));
    return items;
}

/// Diagnosis compares each fault with health and leaves room for what nobody listed.
void require_exactly_one(const fs::path& folder, const std::vector<Fault>& faults, Primitive primitive,
                         std::string_view word, std::vector<Complaint>& complaints) {
    const auto found = std::ranges::count(faults, primitive, &Fault::primitive);
    if (found != 1)
        complaints.push_back(complaint_about(
            folder, ComplaintKind::not_exactly_one_fault,
            fmt::format("found {} faults with primitive = \"{}\", expected exactly one", found, word)));
}

std::vector<Fault> read_faults(const fs::path& folder, const std::vector<fs::path>& files,
                               const IdsInFolder& coil_models, std::vector<Complaint>& complaints) {
    IdsInFolder ids(files);
    auto faults = read_each<Fault>(files, complaints, [&](const TomlSource& source) {
        return read_fault(source, ids, coil_models, complaints);
    });
    const bool all_read = faults.size() == files.size();
    if (all_read && !files.empty()) {
        require_exactly_one(folder, faults, Primitive::none, "none", complaints);
        require_exactly_one(folder, faults, Primitive::unlisted, "unlisted", complaints);
    }
    return faults;
}

/// The file of that name in the own folder, where it is there, else the one that ships.
fs::path own_or_shipped(const fs::path& folder, const fs::path& own_folder, const char* name) {
    std::error_code error;
    const fs::path own = own_folder / name;
    return !own_folder.empty() && fs::exists(own, error) ? own : folder / name;
}

BenchFile read_bench(const fs::path& file, std::vector<Complaint>& complaints) {
    std::error_code error;
    if (fs::status(file, error).type() == fs::file_type::not_found) {
        complaints.push_back(complaint_about(
            file, ComplaintKind::missing_file,
            "there is no such file, expected one that says what each reading costs and how it is taken"));
        return {};
    }
    const auto source = read_toml(file, complaints);
    if (!source) return {};
    return read_bench_file(*source, complaints);
}

void sort_by_place(std::vector<Complaint>& complaints) {
    std::ranges::stable_sort(complaints, {}, [](const Complaint& complaint) {
        return std::tie(complaint.file, complaint.line, complaint.column);
    });
}

} // namespace

LoadedRules read_rules(const fs::path& folder, const fs::path& own_folder) {
    LoadedRules loaded;
    Rules& rules = loaded.rules;
    std::vector<Complaint>& complaints = loaded.complaints;
    if (auto complaint = why_not_a_folder(folder, "coils/, pickups/, faults/ and bench.toml")) {
        complaints.push_back(std::move(*complaint));
        return loaded;
    }
    const auto coil_files = files_of(folder, own_folder, "coils", "a coil model in each file", complaints);
    const auto pickup_files =
        files_of(folder, own_folder, "pickups", "a pickup type in each file", complaints);
    const auto fault_files = files_of(folder, own_folder, "faults", "a fault in each file", complaints);
    IdsInFolder coil_ids(coil_files);
    IdsInFolder pickup_ids(pickup_files);
    rules.coil_models = read_each<CoilModel>(coil_files, complaints, [&](const TomlSource& source) {
        return read_coil_model(source, coil_ids, complaints);
    });
    rules.pickup_types = read_each<PickupType>(pickup_files, complaints, [&](const TomlSource& source) {
        return read_pickup_type(source, pickup_ids, coil_ids, complaints);
    });
    rules.faults = read_faults(folder / "faults", fault_files, coil_ids, complaints);
    BenchFile bench = read_bench(own_or_shipped(folder, own_folder, "bench.toml"), complaints);
    rules.bench_readings = std::move(bench.readings);
    rules.handled_readings = std::move(bench.handled);
    sort_by_place(complaints);
    return loaded;
}

LoadedRules read_rules(const fs::path& folder) {
    return read_rules(folder, {});
}

} // namespace coilward
