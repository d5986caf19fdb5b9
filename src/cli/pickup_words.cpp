#include "cli/pickup_words.h"

#include "rules/coils_of_type.h"

#include <algorithm>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

[[noreturn]] void refuse(const char* option, const std::string& why) {
    throw CLI::ValidationError(option, why);
}

/// "slug=slug-coil-42" in its two parts.
PickupCoil coil_in(const std::string& words) {
    const auto sign = words.find('=');
    if (sign == 0 || sign == std::string::npos)
        refuse("--coil", fmt::format("\"{}\" is no NAME=MODEL; write it as slug=slug-coil-42", words));
    return {words.substr(0, sign), words.substr(sign + 1)};
}

/// The coils of a pickup of several must be those of its type, each once. Their models may be left open.
void require_coils_of_type(const PickupType& type, const std::vector<PickupCoil>& coils) {
    std::vector<std::string> given(coils.size());
    std::ranges::transform(coils, given.begin(), &PickupCoil::name);
    if (given.empty() || are_coils_of(type, given)) return;
    refuse(
        "--coil",
        fmt::format("a pickup of the type {} has the coils {}; say --coil NAME=MODEL once for each of them",
                    type.id, fmt::join(coil_names(type), ", ")));
}

} // namespace

void add_pickup_options(CLI::App& command, PickupWords& words) {
    command.add_option("--owner", words.owner, "Whose it is");
    command.add_option("--instrument", words.instrument, "What it is built into");
    command.add_option("--note", words.notes, "Anything else worth knowing");
    command.add_option("--type", words.pickup_type, "Pickup type, an id from the rules")->type_name("TYPE");
    auto* model =
        command.add_option("--model", words.coil_model, "Coil model of its only coil, an id from the rules")
            ->type_name("MODEL");
    command.add_option("--coil", words.coils, "NAME=MODEL, once for each coil of several")
        ->type_name("COIL")
        ->take_all()
        ->allow_extra_args(false)
        ->excludes(model);
}

bool says_nothing(const PickupWords& words) {
    return !words.name && !words.owner && !words.instrument && !words.notes && !words.pickup_type &&
           !words.coil_model && words.coils.empty();
}

bool names_kind(const PickupWords& words) {
    return words.pickup_type || words.coil_model || !words.coils.empty();
}

void apply(const PickupWords& words, Pickup& pickup) {
    pickup.name = words.name.value_or(pickup.name);
    pickup.owner = words.owner.value_or(pickup.owner);
    pickup.instrument = words.instrument.value_or(pickup.instrument);
    pickup.notes = words.notes.value_or(pickup.notes);
    pickup.pickup_type = words.pickup_type.value_or(pickup.pickup_type);
    if (words.coil_model) pickup.coils = {{"", *words.coil_model}};
    if (words.coils.empty()) return;
    pickup.coils.clear();
    for (const auto& coil : words.coils)
        pickup.coils.push_back(coil_in(coil));
}

void require_known_kind(const Rules& rules, const Pickup& pickup) {
    for (const auto& [name, coil_model] : pickup.coils)
        if (!rules.coil_model(coil_model))
            refuse(name.empty() ? "--model" : "--coil",
                   fmt::format("there is no coil model \"{}\"; coilward models lists them", coil_model));
    if (const auto* type = rules.pickup_type(pickup.pickup_type))
        return require_coils_of_type(*type, pickup.coils);
    if (!pickup.pickup_type.empty())
        refuse("--type",
               fmt::format("there is no pickup type \"{}\"; coilward models lists them", pickup.pickup_type));
    if (pickup.coils.size() > 1)
        refuse("--coil", "a pickup of several coils needs its type too; say --type ID");
}

} // namespace coilward
