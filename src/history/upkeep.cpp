#include "history/upkeep.h"

#include "history/finished_file.h"
#include "history/history_json.h"

#include <system_error>

#include <fmt/format.h>

namespace coilward {
namespace {

/// A history that is no file, written into one.
void write_file(const History& history, const std::filesystem::path& new_file) {
    auto folder = new_file;
    folder += ".unfinished";
    {
        History copy(folder.string());
        move_history(history, copy);
    }
    give_name(folder / "history.sqlite", new_file);
    std::error_code ignored; // what is left of the folder takes room and does no harm
    std::filesystem::remove_all(folder, ignored);
}

} // namespace

void back_up(const History& history, const std::filesystem::path& new_file) {
    std::error_code ignored; // what cannot be seen cannot be written either, and copying says why
    if (std::filesystem::exists(new_file, ignored))
        throw HistoryError(fmt::format("{}: is there already; choose a name that is free, or move it away",
                                       new_file.string()));
    if (!history.copy_to(new_file)) write_file(history, new_file);
}

Adopted merge(History& into, const History& from) {
    Adopted adopted;
    into.all_or_nothing([&] {
        for (const Pickup& pickup : from.pickups())
            adopt(into, whole_pickup(from, pickup), adopted);
    });
    return adopted;
}

Adopted move_history(const History& from, History& to) {
    Adopted adopted = merge(to, from);
    for (const Pickup& pickup : from.pickups())
        if (!to.pickup(pickup.id) || whole_pickup_to_json(whole_pickup(from, pickup)) !=
                                         whole_pickup_to_json(whole_pickup(to, *to.pickup(pickup.id))))
            throw HistoryError(
                fmt::format("{}: the pickup {} (\"{}\") is not what it is in {}; {} holds more of it, "
                            "use coilward merge the other way first",
                            to.place(), pickup.number, pickup.name, from.place(), to.place()));
    return adopted;
}

} // namespace coilward
