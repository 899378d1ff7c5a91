#include "cli/strike_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/log_call.h"
#include "cli/log_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `strike`, as typed.
struct StrikeOptions {
  std::int64_t number = 0;
  std::string why;
};

std::string as_text(const LogEntry& entry, const Session& session) {
  std::string text = wrap(fmt::format("Struck out entry {} of {}: {}, {}; because: {}",
                                      entry.id,
                                      entry.piece,
                                      deed_of(entry),
                                      show_full(entry.at, session.zone),
                                      entry.strike->why),
                          0,
                          2);
  text += "It stays in the story, and counts no longer.\n";
  if (entry.kind == LogKind::kCoat) {
    text += "Verdicts given on coats logged after it stay as they were given.\n";
  }
  return text;
}

Result<ExitCode> run_strike(const StrikeOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto why = reason(options.why);
  if (!why) {
    return pass_on(why.error());
  }
  auto entry = session->store.log_entry(options.number);
  if (!entry) {
    return pass_on(entry.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.strike(entry->id, *why, session->now); !done) {
    return pass_on(done.error());
  }
  entry->strike = LogStrike{*why, session->now};
  print_out(session->json
                ? json_page({{"struck", true}, {"entry", entry_as_json(*entry, *session)}})
                : as_text(*entry, *session));
  return ExitCode::kDone;
}

}  // namespace

void add_strike(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("strike", "Strike out a log entry; nothing is erased");
  auto options = std::make_shared<StrikeOptions>();
  command->add_option("number", options->number, "Number of the entry, as `story` shows it")
      ->required()
      ->type_name("");
  command->add_option("--why", options->why, "Why it is struck out")->required()->type_name("TEXT");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_strike(*options, global); }; });
}

}  // namespace coatwright
