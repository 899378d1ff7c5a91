#include "cli/air_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "air/moist_air.h"
#include "base/quantity_text.h"
#include "base/time_expression.h"
#include "cli/air_import.h"
#include "cli/air_show.h"

namespace coatwright {
namespace {

struct AddOptions {
  std::string temperature;
  std::string humidity;
  std::string at = "now";
  bool replace = false;
};

Result<AirEntry> reading_of(const AddOptions& options, const Session& session) {
  const auto temperature = parse_temperature(options.temperature);
  if (!temperature) {
    return pass_on(temperature.error());
  }
  const auto humidity = parse_humidity(options.humidity);
  if (!humidity) {
    return pass_on(humidity.error());
  }
  const auto at = parse_time(options.at, session.now, session.zone, Direction::kBack);
  if (!at) {
    return pass_on(at.error(), "--at");
  }
  if (*at > session.now) {
    return fail(ErrorCode::kTime,
                fmt::format("--at: {} is still to come (now is {}); a reading is of air that was, "
                            "expected air is a forecast for `air import`",
                            show_full(*at, session.zone),
                            show_full(session.now, session.zone)));
  }
  return AirEntry{*at, *temperature, *humidity, AirOrigin::kReading};
}

std::string show_reading(const AirEntry& reading, const Session& session) {
  return fmt::format("{}, {} at {}",
                     show_temperature(reading.temperature, session.units),
                     show_humidity(reading.humidity),
                     show_full(reading.at, session.zone));
}

std::string reading_as_json(const AirEntry& reading, Temperature dew, const Session& session) {
  const nlohmann::ordered_json whole = {
      {"at", show_rfc3339(reading.at, session.zone)},
      {"temp_c", rounded(reading.temperature.celsius(), 2)},
      {"rh_percent", rounded(reading.humidity.percent(), 1)},
      {"dew_point_c", rounded(dew.celsius(), 2)},
      {"spread_c", rounded((reading.temperature - dew).kelvin(), 2)},
      {"from", name_of(reading.origin)}};
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_add(const AddOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto reading = reading_of(options, *session);
  if (!reading) {
    return pass_on(reading.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto there = session->store.add_reading(*reading, options.replace);
  if (!there) {
    return pass_on(there.error());
  }
  if (*there) {
    return fail(ErrorCode::kNo,
                fmt::format("a reading for that time is stored already: {}; it is kept unless you "
                            "say --replace",
                            show_reading(**there, *session)));
  }
  const Temperature dew = dew_point(reading->temperature, reading->humidity);
  print_out(session->json
                ? reading_as_json(*reading, dew, *session)
                : fmt::format("Stored the reading {}.\nDew point {}, {} below the air.\n",
                              show_reading(*reading, *session),
                              show_temperature(dew, session->units),
                              show_difference(reading->temperature - dew, session->units)));
  return ExitCode::kDone;
}

void add_add(CLI::App& air, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = air.add_subcommand("add", "Store a reading of the shop's air");
  auto options = std::make_shared<AddOptions>();
  command->add_option("temperature", options->temperature, "Such as 14C or 57F")
      ->required()
      ->type_name("");
  command->add_option("humidity", options->humidity, "Such as 62%")->required()->type_name("");
  command->add_option("--at", options->at, "When it was read; a weekday looks back [now]")
      ->type_name("TIME");
  command->add_flag("--replace", options->replace, "Overwrite the reading of that time");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_add(*options, global); }; });
}

void add_import(CLI::App& air, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = air.add_subcommand("import", "Store a file of readings or a forecast");
  auto options = std::make_shared<AirImportOptions>();
  command->add_option("file", options->file, "Text table with times, temperature and humidity")
      ->required()
      ->type_name("FILE");
  command->add_option("--place", options->place, "Where the air was: shop or outdoors")
      ->required()
      ->check(CLI::IsMember({"shop", "outdoors"}))
      ->type_name("PLACE");
  command->add_option("--kind", options->kind, "Measured or expected: logger or forecast")
      ->required()
      ->check(CLI::IsMember({"logger", "forecast"}))
      ->type_name("KIND");
  command->add_option("--unit", options->unit, "Unit of the temperatures: C or F")
      ->check(CLI::IsMember({"C", "F"}))
      ->type_name("UNIT");
  command->add_option("--date-order", options->date_order, "Order in dates: ymd, dmy or mdy")
      ->check(CLI::IsMember({"ymd", "dmy", "mdy"}))
      ->type_name("ORDER");
  command->add_flag("--utc", options->utc, "Times without an offset are UTC");
  command->add_flag("--skip-bad", options->skip_bad, "Leave out rows that cannot be read");
  command->callback([=, &global, &chosen] {
    chosen = [=, &global] { return run_air_import(*options, global); };
  });
}

void add_show(CLI::App& air, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = air.add_subcommand("show", "Show the shop's air hour by hour");
  auto options = std::make_shared<AirShowOptions>();
  command->add_option("--from", options->from, "Start; a weekday looks back [24 h ago]")
      ->type_name("TIME");
  command->add_option("--to", options->to, "End; a weekday looks forward [in 24 h]")
      ->type_name("TIME");
  ColdPieceOptions& piece = options->cold_piece;
  CLI::Option* cold =
      command->add_option("--cold-piece", piece.temperature, "A piece that came in this cold")
          ->type_name("TEMPERATURE");
  CLI::Option* since =
      command->add_option("--since", piece.since, "When it came in")->type_name("TIME");
  CLI::Option* thickness =
      command->add_option("--thickness", piece.thickness, "Its thickness, such as 40mm or 1.5in")
          ->type_name("LENGTH");
  command->add_option("--species", piece.species, "Its wood [600 kg/m3]")
      ->needs(cold)
      ->type_name("NAME");
  cold->needs(since, thickness);
  since->needs(cold);
  thickness->needs(cold);
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_air_show(*options, global); }; });
}

}  // namespace

void add_air(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& air = add_group(app, "air", "The shop's temperature and humidity over time");
  add_add(air, global, chosen);
  add_import(air, global, chosen);
  add_show(air, global, chosen);
}

}  // namespace coatwright
