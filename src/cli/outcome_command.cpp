#include "cli/outcome_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "cli/coat_tested.h"
#include "cli/log_call.h"
#include "cli/log_words.h"
#include "recipe/defect_words.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

/// The options of `outcome`, as typed; empty: not given.
struct OutcomeOptions {
  std::string piece;
  std::string outcome;
  LogOptions log;
};

/// An outcome with the coats that it may be of. `coats` points into the log.
struct PreparedOutcome {
  LogEntry entry;
  DefectWord word;
  std::vector<LogEntry> log;
  std::vector<CoatBeneath> coats;
};

Result<PreparedOutcome> prepare_outcome(const OutcomeOptions& options, const Session& session) {
  const auto word = outcome_named(options.outcome);
  if (!word) {
    return pass_on(word.error());
  }
  const auto piece = session.store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  auto entry = begun_finding(LogKind::kOutcome, *piece, options.log, session);
  if (!entry) {
    return pass_on(entry.error());
  }
  entry->outcome = word->word;
  auto log = session.store.log(piece->name);
  if (!log) {
    return pass_on(log.error());
  }
  auto coats = coats_found_on(*entry, *piece, *log);
  return PreparedOutcome{std::move(*entry), *word, std::move(*log), std::move(coats)};
}

std::string as_text(const PreparedOutcome& outcome, const Session& session) {
  const LogEntry& entry = outcome.entry;
  std::string text = logged_line(entry, session);
  const auto add = [&text](const std::string& words) { text += wrap(words, 2, 4); };
  add(std::string(outcome.word.means));
  add(air_words(*entry.air, session.units));
  for (const CoatBeneath& beneath : outcome.coats) {
    add(tested_words(beneath, entry.at, session.zone));
  }
  if (outcome.coats.empty()) {
    add("no coat is logged there before it");
  }
  return text;
}

std::string as_json(const PreparedOutcome& outcome, const Session& session) {
  nlohmann::ordered_json coats = nlohmann::ordered_json::array();
  for (const CoatBeneath& beneath : outcome.coats) {
    coats.push_back(beneath.coat->id);
  }
  return json_page({{"logged", true},
                    {"means", outcome.word.means},
                    {"coats", coats},
                    {"entry", entry_as_json(outcome.entry, session)}});
}

Result<ExitCode> run_outcome(const OutcomeOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  auto outcome = prepare_outcome(options, *session);
  if (!outcome) {
    return pass_on(outcome.error());
  }
  if (const auto kept = keep_entry(outcome->entry, global); !kept) {
    return pass_on(kept.error());
  }
  print_out(session->json ? as_json(*outcome, *session) : as_text(*outcome, *session));
  return ExitCode::kDone;
}

}  // namespace

void add_outcome(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand("outcome", "Log how a coat or the finish came out");
  auto options = std::make_shared<OutcomeOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command->add_option("outcome", options->outcome, "good, or what is wrong: runs, blush ...")
      ->required()
      ->type_name("");
  add_log_options(*command, options->log);
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_outcome(*options, global); }; });
}

}  // namespace coatwright
