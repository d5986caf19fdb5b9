#include "cli/command.h"
#include "cli/input.h"
#include "units/engineering.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

namespace coilward {
namespace {

void list_coil_models(const Rules& rules) {
    for (const CoilModel& model : rules.coil_models)
        fmt::print("{:<24} {:<18} {}\n", model.id,
                   engineering_range(model.dc_resistance_ohm.low, model.dc_resistance_ohm.high, "ohm"),
                   model.title);
}

void list_pickup_types(const Rules& rules) {
    for (const PickupType& type : rules.pickup_types) {
        std::string coils;
        for (const CoilPlace& coil : type.coils)
            coils += (coils.empty() ? "" : ", ") + coil.name;
        fmt::print("{:<24} {:<18} {}\n", type.id, coils, type.title);
    }
}

void list_models(const Session& session) {
    const Rules rules = rules_of(session);
    fmt::print("Coil models\n");
    list_coil_models(rules);
    fmt::print("\nPickup types\n");
    list_pickup_types(rules);
}

} // namespace

void add_models_command(CLI::App& app, Session& session) {
    CLI::App* command = app.add_subcommand("models", "List the coil models and pickup types that are known");
    command->callback([&session] { list_models(session); });
    command->footer("Example:\n  coilward models");
}

} // namespace coilward
