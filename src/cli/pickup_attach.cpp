#include "bench/clock.h"
#include "cli/history.h"
#include "cli/input.h"
#include "cli/whole_file.h"

#include <filesystem>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

struct AttachWords {
    std::string pickup, file, note;
};

struct FetchWords {
    std::string pickup, attachment, to;
};

void attach(const AttachWords& words, const Session& session) {
    History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const std::string bytes = read_input(words.file, "a picture or another file");
    const std::string name = std::filesystem::path(words.file).filename();
    const Attachment attachment{.id = random_id(),
                                .pickup = pickup.id,
                                .at = MachineClock().now(),
                                .name = name,
                                .media_type = media_type_of(name),
                                .note = words.note,
                                .content = content_hash(bytes)};
    history.attach(attachment, bytes);
    fmt::print("Pickup {}: {} attached, {} bytes, SHA-256 {}\n", pickup.number, name, bytes.size(),
               text_of(attachment.content));
}

/// By its name, the beginning of its hash, or both where several have one name: the latest.
const Attachment* attachment_in_words(const std::vector<Attachment>& attachments, const std::string& words) {
    const Attachment* found = nullptr;
    for (const Attachment& attachment : attachments)
        if (attachment.name == words || (words.size() >= 6 && text_of(attachment.content).starts_with(words)))
            found = &attachment;
    return found;
}

void fetch(const FetchWords& words, const Session& session) {
    const History history = open_history(session);
    const Pickup pickup = pickup_in_words(history, words.pickup);
    const auto attachments = history.attachments_of(pickup.id);
    const Attachment* attachment = attachment_in_words(attachments, words.attachment);
    if (attachment == nullptr)
        throw CLI::ValidationError(
            "ATTACHMENT", fmt::format("{} has none called \"{}\"; coilward pickup show {} lists them",
                                      pickup.name, words.attachment, pickup.number));
    write_whole_file(words.to, history.content(attachment->content));
    fmt::print("{} is in {}\n", attachment->name, words.to);
}

} // namespace

void add_attachment_commands(CLI::App& pickup, Session& session) {
    auto words = std::make_shared<AttachWords>();
    CLI::App* command = pickup.add_subcommand("attach", "Keep a file, such as a photograph, with a pickup");
    command->add_option("PICKUP", words->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    command->add_option("FILE", words->file, "The file; its bytes go into the history")->required();
    command->add_option("--note", words->note, "What it shows");
    command->callback([words, &session] { attach(*words, session); });
    command->footer(
        "Example:\n  coilward pickup attach neck break.jpg --note \"the break, at the start lead\"");

    auto wanted = std::make_shared<FetchWords>();
    CLI::App* back = pickup.add_subcommand("fetch", "Write an attached file out again");
    back->add_option("PICKUP", wanted->pickup, "Its number, its name, or the beginning of its name")
        ->required();
    back->add_option("ATTACHMENT", wanted->attachment, "Its name, or the beginning of its SHA-256")
        ->required();
    back->add_option("FILE", wanted->to, "Where to; must not exist yet")->required();
    back->callback([wanted, &session] { fetch(*wanted, session); });
    back->footer("Example:\n  coilward pickup fetch neck break.jpg /tmp/break.jpg");
}

} // namespace coilward
