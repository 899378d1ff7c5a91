#include "cli/piece_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/time_expression.h"
#include "cli/piece_show.h"
#include "cli/piece_size.h"
#include "cli/piece_ticket.h"
#include "cli/plan_request.h"

namespace coatwright {
namespace {

/// The options of `piece add`, as typed; empty: not given.
struct AddOptions {
  std::string name;
  std::string schedule;
  std::string species;
  SizeOptions size;
  std::string surface = "planed";
  std::string over;
  std::string by;
  std::string from;
  double weight = 1.0;
};

Result<std::optional<Time>> time_option(const std::string& text,
                                        const std::string& option,
                                        const Session& session) {
  if (text.empty()) {
    return std::nullopt;
  }
  const auto time = parse_time(text, session.now, session.zone, Direction::kForward);
  if (!time) {
    return pass_on(time.error(), option);
  }
  return std::optional(*time);
}

/// The date must be ahead of what comes before it.
Result<void> check_dates(const StoredPiece& piece, const Session& session) {
  const Time start = std::max(piece.earliest.value_or(session.now), session.now);
  if (piece.due && *piece.due <= start) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("--by {} is not after {}, when the work may begin",
                            show_full(*piece.due, session.zone),
                            show_full(start, session.zone)));
  }
  return {};
}

Result<void> check_recipes(const AddOptions& options,
                           const StoredPiece& piece,
                           const GlobalOptions& global) {
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto surface = surface_of(options.species, options.surface, options.over, *book);
  if (!surface) {
    return pass_on(surface.error());
  }
  if (const auto schedule = book->schedule_for(options.schedule, *surface); !schedule) {
    return pass_on(schedule.error());
  }
  for (const StoredUnit& unit : piece.units) {
    if (unit.schedule.empty()) {
      continue;
    }
    if (const auto schedule = book->schedule_for(unit.schedule, *surface); !schedule) {
      return pass_on(schedule.error(), unit.name);
    }
  }
  for (const StoredWork& work : piece.work) {
    if (const auto glue = book->glue(work.glue); !work.glue.empty() && !glue) {
      return pass_on(glue.error(), work.name);
    }
  }
  return {};
}

Result<void> check_weight(double weight) {
  constexpr double kLeast = 0.1;
  constexpr double kMost = 100.0;
  if (weight < kLeast || weight > kMost) {
    return fail(
        ErrorCode::kOutOfRange,
        fmt::format(
            "--weight {:g} is out of range: {:g} to {:g} is allowed", weight, kLeast, kMost));
  }
  return {};
}

Result<StoredPiece> piece_from(const AddOptions& options, const Session& session) {
  const auto size = piece_size(options.size);
  if (!size) {
    return pass_on(size.error());
  }
  const auto due = time_option(options.by, "--by", session);
  if (!due) {
    return pass_on(due.error());
  }
  const auto earliest = time_option(options.from, "--from", session);
  if (!earliest) {
    return pass_on(earliest.error());
  }
  StoredPiece piece{options.name,
                    options.species,
                    options.schedule,
                    size->face,
                    size->faces,
                    *due,
                    *earliest,
                    options.weight,
                    session.now,
                    options.surface,
                    options.over.empty() ? std::nullopt : std::optional(options.over),
                    size->units,
                    size->work};
  if (const auto checked = check_weight(piece.weight); !checked) {
    return pass_on(checked.error());
  }
  if (const auto checked = check_dates(piece, session); !checked) {
    return pass_on(checked.error());
  }
  return piece;
}

Result<ExitCode> run_add(const AddOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto piece = piece_from(options, *session);
  if (!piece) {
    return pass_on(piece.error());
  }
  if (const auto checked = check_recipes(options, *piece, global); !checked) {
    return pass_on(checked.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.add_piece(*piece); !done) {
    return pass_on(done.error());
  }
  print_out(piece_page(*piece, *session));
  return ExitCode::kDone;
}

Result<ExitCode> run_show(const std::string& name, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto piece = session->store.piece(name);
  if (!piece) {
    return pass_on(piece.error());
  }
  print_out(piece_page(*piece, *session));
  return ExitCode::kDone;
}

Result<ExitCode> run_list(const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto pieces = session->store.pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  print_out(pieces_page(*pieces, *session));
  return ExitCode::kDone;
}

Result<ExitCode> run_remove(const std::string& name, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto found = session->store.piece(name); !found) {
    return pass_on(found.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.retire_piece(name, session->now); !done) {
    return pass_on(done.error());
  }
  const nlohmann::ordered_json whole = {{"removed", name}};
  print_out(session->json ? whole.dump(2) + "\n"
                          : fmt::format("Removed the piece '{}' from the list; what is known of "
                                        "it stays in the store.\n",
                                        name));
  return ExitCode::kDone;
}

void add_add(CLI::App& piece, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = piece.add_subcommand("add", "Store a piece to be finished");
  auto options = std::make_shared<AddOptions>();
  command->add_option("name", options->name, "What the shop calls it")->required()->type_name("");
  command->add_option("--schedule", options->schedule, "Finishing schedule")
      ->required()
      ->type_name("NAME");
  command->add_option("--species", options->species, "Wood")->required()->type_name("NAME");
  add_size_options(*command, options->size);
  command
      ->add_option(
          "--surface",
          options->surface,
          "How the wood was left: sawn, planed, scraped, old-finish, or its last grit P120 "
          "[planed]")
      ->type_name("SURFACE");
  command
      ->add_option("--over",
                   options->over,
                   "A finish that lies on it and stays: a product, or old-finish [bare wood]")
      ->type_name("PRODUCT");
  command->add_option("--by", options->by, "When it must be finished")->type_name("TIME");
  command->add_option("--from", options->from, "When its work may begin")->type_name("TIME");
  command
      ->add_option("--weight",
                   options->weight,
                   "How much an hour late with it counts against other pieces [1]")
      ->type_name("WEIGHT");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_add(*options, global); }; });
}

using RunOnName = Result<ExitCode> (*)(const std::string& name, const GlobalOptions& global);

/// Adds a command that takes a piece's name and nothing else.
void add_on_name(CLI::App* command, RunOnName run, const GlobalOptions& global, Work& chosen) {
  auto name = std::make_shared<std::string>();
  command->add_option("name", *name, "The piece")->required()->type_name("");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run(*name, global); }; });
}

}  // namespace

void add_piece(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& piece = add_group(app, "piece", "The pieces to be finished");
  add_add(piece, global, chosen);
  CLI::App* list = piece.add_subcommand("list", "List the pieces");
  list->callback([&global, &chosen] { chosen = [&global] { return run_list(global); }; });
  add_on_name(piece.add_subcommand("show", "Show one piece"), run_show, global, chosen);
  add_on_name(
      piece.add_subcommand("remove", "Take a piece off the list"), run_remove, global, chosen);
  add_ticket(piece, global, chosen);
}

}  // namespace coatwright
