#include "cli/piece_ticket.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/quantity_text.h"
#include "cli/printing.h"
#include "cli/ticket_steps.h"

namespace coatwright {
namespace {

/// The options of `piece ticket`, as typed.
struct TicketOptions {
  std::string name;
  PrintOptions print;
};

std::string area_text(const StoredPiece& piece, UnitSystem units) {
  const std::string area = show_area(piece.area, units);
  switch (piece.faces) {
    case PieceFaces::kOne:
      return area;
    case PieceFaces::kTwo:
      return area + " a face, 2 faces, one after the other";
    case PieceFaces::kOnPoints:
      break;
  }
  return area + " a face, 2 faces in one session (on points or hung)";
}

Result<JobTicket> ticket_of(const StoredPiece& piece,
                            const RecipeBook& book,
                            const Session& session) {
  JobTicket ticket;
  ticket.piece = piece.name;
  ticket.species = piece.species;
  ticket.schedule = piece.schedule;
  ticket.area = area_text(piece, session.units);
  ticket.due = piece.due;
  ticket.made_at = session.now;
  const auto kept = session.store.kept_plan(piece.name);
  if (!kept) {
    return pass_on(kept.error());
  }
  TicketWriter writer(piece, book, ticket);
  if (*kept) {
    ticket.planned_at = (*kept)->made_at;
    if (const auto added = writer.add_kept(**kept); !added) {
      return pass_on(added.error());
    }
    return ticket;
  }
  const auto parts = finished_parts(piece, book, session);
  if (!parts) {
    return pass_on(parts.error());
  }
  if (const auto added = writer.add_scheduled(*parts, session.now); !added) {
    return pass_on(added.error());
  }
  return ticket;
}

std::string ticket_as_json(const JobTicket& ticket, const Zone& zone) {
  using nlohmann::ordered_json;
  const auto moment = [&](const std::optional<Time>& time) {
    return time ? ordered_json(show_rfc3339(*time, zone)) : ordered_json(nullptr);
  };
  ordered_json whole = {{"piece", ticket.piece},
                        {"species", ticket.species},
                        {"schedule", ticket.schedule},
                        {"due", moment(ticket.due)},
                        {"planned_at", moment(ticket.planned_at)},
                        {"steps", ordered_json::array()},
                        {"cautions", ticket.cautions}};
  for (const TicketStep& step : ticket.steps) {
    whole["steps"].push_back({{"what", step.what},
                              {"at", moment(step.at)},
                              {"product", step.product},
                              {"grit", step.grit},
                              {"note", step.note}});
  }
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_ticket(const TicketOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto piece = session->store.piece(options.name);
  if (!piece) {
    return pass_on(piece.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto ticket = ticket_of(*piece, *book, *session);
  if (!ticket) {
    return pass_on(ticket.error());
  }
  const bool as_json = session->json && !options.print.is_on_paper();
  const auto put =
      as_json ? put_out_page(ticket_as_json(*ticket, session->zone), options.print)
              : put_out_sheet(
                    ticket_sheet(*ticket, session->zone, session->units), options.print, *session);
  if (!put) {
    return pass_on(put.error());
  }
  return ExitCode::kDone;
}

}  // namespace

void add_ticket(CLI::App& piece, const GlobalOptions& global, Work& chosen) {
  CLI::App* ticket =
      piece.add_subcommand("ticket", "Print a piece's job ticket: its steps, to be ticked off");
  auto options = std::make_shared<TicketOptions>();
  ticket->add_option("name", options->name, "The piece")->required()->type_name("");
  add_print_options(*ticket, options->print);
  ticket->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_ticket(*options, global); }; });
}

}  // namespace coatwright
