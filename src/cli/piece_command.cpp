#include "cli/piece_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "base/time_expression.h"
#include "cli/piece_size.h"
#include "cli/plan_request.h"
#include "report/text_table.h"

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
};

std::string show(PieceFaces faces) {
  switch (faces) {
    case PieceFaces::kOne:
      return "1";
    case PieceFaces::kTwo:
      return "2";
    case PieceFaces::kOnPoints:
      break;
  }
  return "points";
}

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

Result<void> check_recipes(const AddOptions& options, const GlobalOptions& global) {
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
                    1.0,
                    session.now,
                    options.surface,
                    options.over.empty() ? std::nullopt : std::optional(options.over)};
  if (const auto checked = check_dates(piece, session); !checked) {
    return pass_on(checked.error());
  }
  return piece;
}

std::string show_or(const std::optional<Time>& time, const std::string& none, const Zone& zone) {
  return time ? show_full(*time, zone) : none;
}

std::string show_surface(const StoredPiece& piece) {
  return piece.over ? fmt::format("{} lies on it", *piece.over) : piece.surface;
}

std::string as_text(const StoredPiece& piece, const Session& session) {
  const auto line = [](std::string_view words, const std::string& value) {
    return fmt::format("  {:<9} {}\n", words, value);
  };
  return piece.name + "\n" + line("schedule", piece.schedule) + line("species", piece.species) +
         line("area", show_area(piece.area, session.units) + " a face") +
         line("faces", show(piece.faces)) + line("surface", show_surface(piece)) +
         line("from", show_or(piece.earliest, "as soon as there is time", session.zone)) +
         line("by", show_or(piece.due, "no date", session.zone));
}

nlohmann::ordered_json as_json(const StoredPiece& piece, const Session& session) {
  nlohmann::ordered_json whole = {
      {"name", piece.name},
      {"species", piece.species},
      {"schedule", piece.schedule},
      {"area_m2", rounded(piece.area.square_metres(), 4)},
      {"faces", show(piece.faces)},
      {"surface", piece.surface},
      {"over", piece.over ? nlohmann::ordered_json(*piece.over) : nlohmann::ordered_json()},
      {"from", nullptr},
      {"by", nullptr}};
  if (piece.earliest) {
    whole["from"] = show_rfc3339(*piece.earliest, session.zone);
  }
  if (piece.due) {
    whole["by"] = show_rfc3339(*piece.due, session.zone);
  }
  return whole;
}

void print_piece(const StoredPiece& piece, const Session& session) {
  print_out(session.json ? as_json(piece, session).dump(2) + "\n" : as_text(piece, session));
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
  if (const auto checked = check_recipes(options, global); !checked) {
    return pass_on(checked.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.add_piece(*piece); !done) {
    return pass_on(done.error());
  }
  print_piece(*piece, *session);
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
  print_piece(*piece, *session);
  return ExitCode::kDone;
}

std::string list_as_text(const std::vector<StoredPiece>& pieces, const Session& session) {
  if (pieces.empty()) {
    return "No piece is stored; add one with `piece add`.\n";
  }
  TextTable table({{"piece"},
                   {"schedule"},
                   {"species"},
                   {"area", TextTable::Align::kRight},
                   {"faces"},
                   {"by"}});
  for (const StoredPiece& piece : pieces) {
    table.add({piece.name,
               piece.schedule,
               piece.species,
               show_area(piece.area, session.units),
               show(piece.faces),
               show_or(piece.due, "no date", session.zone)});
  }
  return table.text();
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
  if (!session->json) {
    print_out(list_as_text(*pieces, *session));
    return ExitCode::kDone;
  }
  nlohmann::ordered_json whole = nlohmann::ordered_json::array();
  for (const StoredPiece& piece : *pieces) {
    whole.push_back(as_json(piece, *session));
  }
  print_out(whole.dump(2) + "\n");
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
}

}  // namespace coatwright
