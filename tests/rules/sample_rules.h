#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace coilward {

/// A folder of small rules without a fault, invented for tests: coils/a.toml, pickups/pair.toml,
/// faults/sound.toml, faults/leaky.toml, faults/other.toml and bench.toml. It is removed with the object.
class SampleRules {
public:
    SampleRules();
    ~SampleRules();
    SampleRules(const SampleRules&) = delete;
    SampleRules& operator=(const SampleRules&) = delete;

    const std::filesystem::path& folder() const { return folder_; }

    void write(std::string_view file, std::string_view text) const;
    std::string text_of(std::string_view file) const;

    /// Replaces the only occurrence of `old_text`; throws std::logic_error where there is none or more than
    /// one.
    void replace(std::string_view file, std::string_view old_text, std::string_view new_text) const;

    /// The text with "rules" in place of the folder's path.
    std::string relative(std::string text) const;

private:
    std::filesystem::path folder_;
};

} // namespace coilward
