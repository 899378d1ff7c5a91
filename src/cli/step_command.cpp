#include "cli/step_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include "cli/log_call.h"
#include "cli/log_words.h"
#include "cli/piece_meant.h"
#include "cli/step_words.h"

namespace coatwright {
namespace {

/// The options of `done` and `skip`, as typed; empty: not given.
struct StepOptions {
  std::vector<std::string> words;
  std::string piece;
  std::string why;
  LogOptions log;
  LogKind kind = LogKind::kStep;
};

/// The air at the time of what was done; what was left out has none.
Result<std::optional<LoggedAir>> air_for(LogKind kind, Time at, const Session& session) {
  if (kind == LogKind::kSkip) {
    return std::nullopt;
  }
  const auto air = air_logged_at(at, session);
  if (!air) {
    return pass_on(air.error());
  }
  return *air;
}

Result<std::vector<LogEntry>> entries_from(const StepOptions& options,
                                           const RecipeBook& book,
                                           const Session& session) {
  const bool skip = options.kind == LogKind::kSkip;
  const auto steps = parse_steps(options.words, skip, book);
  if (!steps) {
    return pass_on(steps.error());
  }
  const auto piece = piece_meant(
      options.piece,
      session,
      {"no piece is stored; add one with `coatwright piece add`", "say which piece with --piece"});
  if (!piece) {
    return pass_on(piece.error());
  }
  auto entry = begun_entry(*piece, options.log, session);
  if (!entry) {
    return pass_on(entry.error());
  }
  entry->kind = options.kind;
  if (skip) {
    const auto why = reason(options.why);
    if (!why) {
      return pass_on(why.error());
    }
    entry->why = *why;
  }
  const auto air = air_for(options.kind, entry->at, session);
  if (!air) {
    return pass_on(air.error());
  }
  entry->air = *air;
  std::vector<LogEntry> entries;
  for (const NamedStep& step : *steps) {
    entries.push_back(*entry);
    entries.back().step = step.kind;
    entries.back().grit = step.grit;
    entries.back().product = step.product;
  }
  return entries;
}

std::string answer(const std::vector<LogEntry>& entries, const Session& session) {
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  std::string text;
  for (const LogEntry& entry : entries) {
    whole.push_back(entry_as_json(entry, session));
    text += logged_line(entry, session);
  }
  return session.json ? json_page({{"logged", true}, {"entries", whole}}) : text;
}

Result<ExitCode> run_step(const StepOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  auto entries = entries_from(options, *book, *session);
  if (!entries) {
    return pass_on(entries.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto ids = session->store.log_steps(*entries);
  if (!ids) {
    return pass_on(ids.error());
  }
  for (std::size_t i = 0; i < ids->size(); ++i) {
    (*entries)[i].id = (*ids)[i];
  }
  print_out(answer(*entries, *session));
  return ExitCode::kDone;
}

CLI::App* add_step_command(CLI::App& app,
                           const char* name,
                           const char* about,
                           const std::shared_ptr<StepOptions>& options) {
  CLI::App* command = app.add_subcommand(name, about);
  command
      ->add_option(
          "step", options->words, "A plan's word, with the grit: sand P150, rags, clean_gun")
      ->required()
      ->type_name("");
  command->add_option("--piece", options->piece, "The piece [the only one stored]")
      ->type_name("NAME");
  add_log_options(*command, options->log);
  return command;
}

}  // namespace

void add_done(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  auto options = std::make_shared<StepOptions>();
  CLI::App* command =
      add_step_command(app, "done", "Log steps that were done, other than coats", options);
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_step(*options, global); }; });
}

void add_skip(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  auto options = std::make_shared<StepOptions>();
  options->kind = LogKind::kSkip;
  CLI::App* command =
      add_step_command(app, "skip", "Log steps that were left out, with why", options);
  command->add_option("--why", options->why, "Why it was left out")->required()->type_name("TEXT");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_step(*options, global); }; });
}

}  // namespace coatwright
