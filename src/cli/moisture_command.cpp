#include "cli/moisture_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "air/wood_moisture.h"
#include "cli/log_call.h"
#include "cli/log_words.h"
#include "cli/moisture_input.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `moisture`, as typed; empty: not given.
struct MoistureOptions {
  std::string piece;
  std::string moisture;
  LogOptions log;
};

Result<LogEntry> moisture_entry(const MoistureOptions& options, const Session& session) {
  const auto moisture = parse_wood_moisture(options.moisture, "the moisture");
  if (!moisture) {
    return pass_on(moisture.error());
  }
  const auto piece = session.store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  auto entry = begun_finding(LogKind::kMoisture, *piece, options.log, session);
  if (entry) {
    entry->moisture = *moisture;
  }
  return entry;
}

std::string answer(const LogEntry& entry, const Session& session) {
  const double comes_to = equilibrium_moisture_content(entry.air->temperature, entry.air->humidity);
  if (session.json) {
    return json_page({{"logged", true},
                      {"equilibrium_percent", rounded(100.0 * comes_to, 1)},
                      {"entry", entry_as_json(entry, session)}});
  }
  return logged_line(entry, session) + wrap(air_words(*entry.air, session.units), 2, 4) +
         wrap(fmt::format("Wood that stays long in this air comes to {}.", moisture_text(comes_to)),
              2,
              4);
}

Result<ExitCode> run_moisture(const MoistureOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  auto entry = moisture_entry(options, *session);
  if (!entry) {
    return pass_on(entry.error());
  }
  if (const auto kept = keep_entry(*entry, global); !kept) {
    return pass_on(kept.error());
  }
  print_out(answer(*entry, *session));
  return ExitCode::kDone;
}

}  // namespace

void add_moisture(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("moisture", "Log the wood's moisture as measured");
  auto options = std::make_shared<MoistureOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_option("moisture", options->moisture, "As the meter shows it: 9%")
      ->required()
      ->type_name("");
  add_log_options(*command, options->log);
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_moisture(*options, global); }; });
}

}  // namespace coatwright
