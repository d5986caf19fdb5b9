#include "guide/bench_meter.h"

namespace coilward {

MeterSession& BenchMeter::conversation() {
    if (!session) session = std::make_unique<MeterSession>(*driver, open());
    return *session;
}

BenchMeter bench_meter(const Driver& driver, const Port& port, const std::string& port_text) {
    BenchMeter meter;
    meter.driver = &driver;
    meter.port = port_text;
    meter.open = [port, settings = driver.serial] { return open_port(port, settings); };
    if (const auto* replay = std::get_if<ReplayPort>(&port)) meter.replay = read_capture(replay->file);
    return meter;
}

} // namespace coilward
