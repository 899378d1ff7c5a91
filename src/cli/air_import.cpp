#include "cli/air_import.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "air/logger_file.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

AirImport import_of(const AirImportOptions& options, Time now) {
  return {std::filesystem::path(options.file).filename().string(),
          options.place == "shop" ? AirPlace::kShop : AirPlace::kOutdoors,
          options.kind == "logger" ? AirKind::kLogger : AirKind::kForecast,
          now};
}

AirOrigin origin_of(const AirImport& import) {
  if (import.place == AirPlace::kOutdoors) {
    return AirOrigin::kOutdoors;
  }
  return import.kind == AirKind::kLogger ? AirOrigin::kLogger : AirOrigin::kForecast;
}

LoggerFileHints hints_of(const AirImportOptions& options) {
  using Hints = LoggerFileHints;
  Hints hints;
  if (!options.unit.empty()) {
    hints.unit = options.unit == "C" ? Hints::TemperatureUnit::kCelsius
                                     : Hints::TemperatureUnit::kFahrenheit;
  }
  if (!options.date_order.empty()) {
    hints.date_order = options.date_order == "ymd"   ? Hints::DateOrder::kYearMonthDay
                       : options.date_order == "dmy" ? Hints::DateOrder::kDayMonthYear
                                                     : Hints::DateOrder::kMonthDayYear;
  }
  hints.utc = options.utc;
  hints.skip_bad = options.skip_bad;
  return hints;
}

Result<LoggerFileContent> read_file(const AirImportOptions& options,
                                    AirOrigin origin,
                                    const Zone& zone) {
  const auto text = read_input_file(options.file);
  if (!text) {
    return pass_on(text.error());
  }
  auto content = read_logger_file(*text, origin, zone, hints_of(options));
  if (!content) {
    return pass_on(content.error(), options.file);
  }
  if (content->entries.empty()) {
    return pass_on(Error{ErrorCode::kInputFile, "there is no reading in it", {}}, options.file);
  }
  return content;
}

std::string import_as_text(const LoggerFileContent& content,
                           const AirImported& imported,
                           const std::string& file,
                           const Session& session) {
  const auto& entries = content.entries;
  std::string text = wrap(fmt::format("{}: {}.", file, content.understood), 0, 2);
  text += fmt::format("Stored {} of {} readings, {} to {} ({}).\n",
                      imported.stored,
                      entries.size(),
                      show_full(entries.front().at, session.zone),
                      show_full(entries.back().at, session.zone),
                      name_of(entries.front().origin));
  if (content.duplicates > 0) {
    text += fmt::format("Left out: {} whose time stood in the file before.\n", content.duplicates);
  }
  if (imported.replaced > 0) {
    text +=
        fmt::format("Replaced: {} that an older forecast had for their time.\n", imported.replaced);
  }
  if (imported.known_already > 0) {
    text += fmt::format("Left out: {} whose time was stored before; the first is kept.\n",
                        imported.known_already);
  }
  for (const LoggerGap& gap : content.gaps) {
    text += fmt::format("Gap of {} from {} to {}: the usual day fills it.\n",
                        show_duration(gap.to - gap.from),
                        show_full(gap.from, session.zone),
                        show_full(gap.to, session.zone));
  }
  for (const std::string& row : content.skipped) {
    text += fmt::format("Skipped {}\n", row);
  }
  return text;
}

std::string import_as_json(const LoggerFileContent& content,
                           const AirImported& imported,
                           const Session& session) {
  nlohmann::ordered_json gaps = nlohmann::ordered_json::array();
  for (const LoggerGap& gap : content.gaps) {
    gaps.push_back({{"from", show_rfc3339(gap.from, session.zone)},
                    {"to", show_rfc3339(gap.to, session.zone)}});
  }
  const nlohmann::ordered_json whole = {
      {"understood", content.understood},
      {"readings", content.entries.size()},
      {"stored", imported.stored},
      {"replaced", imported.replaced},
      {"known_already", imported.known_already},
      {"duplicates_in_file", content.duplicates},
      {"first", show_rfc3339(content.entries.front().at, session.zone)},
      {"last", show_rfc3339(content.entries.back().at, session.zone)},
      {"from", name_of(content.entries.front().origin)},
      {"gaps", gaps},
      {"skipped", content.skipped}};
  return whole.dump(2) + "\n";
}

}  // namespace

Result<ExitCode> run_air_import(const AirImportOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made for a wrong file
  if (!session) {
    return pass_on(session.error());
  }
  const AirImport import = import_of(options, session->now);
  const auto content = read_file(options, origin_of(import), session->zone);
  if (!content) {
    return pass_on(content.error());
  }
  // A logger knows no tomorrow: such a row is a wrong date order or a forecast.
  if (const Time last = content->entries.back().at;
      import.kind == AirKind::kLogger && last > session->now) {
    return pass_on(Error{ErrorCode::kInputFile,
                         fmt::format("the reading at {} lies ahead of now, {}: is --date-order "
                                     "right, or is it --kind forecast?",
                                     show_full(last, session->zone),
                                     show_full(session->now, session->zone)),
                         {}},
                   options.file);
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto imported = session->store.add_import(import, content->entries);
  if (!imported) {
    return pass_on(imported.error());
  }
  print_out(session->json ? import_as_json(*content, *imported, *session)
                          : import_as_text(*content, *imported, options.file, *session));
  return ExitCode::kDone;
}

}  // namespace coatwright
