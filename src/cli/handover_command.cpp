#include "cli/handover_command.h"

#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/time_expression.h"
#include "cli/handover_facts.h"
#include "cli/learned_shop.h"
#include "cli/printing.h"
#include "report/handover_basis.h"
#include "report/handover_json.h"
#include "report/sheet_text.h"

namespace coatwright {
namespace {

struct HandoverOptions {
  std::string piece;
  std::string at;
  std::string house;
  PrintOptions print;
  bool explain = false;
  bool as_labelled = false;
};

Result<HandoverRequest> request_of(const HandoverOptions& options, const Session& session) {
  HandoverRequest request;
  if (!options.at.empty()) {
    const auto at = parse_time(options.at, session.now, session.zone, Direction::kForward);
    if (!at) {
      return pass_on(at.error(), "--at");
    }
    request.at = *at;
  }
  if (!options.house.empty()) {
    const auto house = parse_air(options.house);
    if (!house) {
      return pass_on(house.error(), "--house");
    }
    request.house = *house;
  }
  return request;
}

/// The page of text; that for the maker begins on a new sheet of paper.
std::string text_of(const HandoverView& view, bool explain) {
  const std::string card = sheet_as_text(handover_sheet(view, false));
  return explain ? card + "\f" + sheet_as_text(handover_basis(view)) : card;
}

Result<void> put_out(const HandoverCard& card,
                     const HandoverOptions& options,
                     const Session& session) {
  const HandoverView view{card, session.zone, session.units};
  if (options.print.is_on_paper()) {
    return put_out_sheet(handover_sheet(view, options.explain), options.print, session);
  }
  return put_out_page(session.json ? handover_as_json(view) : text_of(view, options.explain),
                      options.print);
}

Result<HandoverCard> card_of(const HandoverOptions& options,
                             const GlobalOptions& global,
                             const Session& session) {
  auto request = request_of(options, session);
  if (!request) {
    return pass_on(request.error());
  }
  const auto piece = session.store.piece(options.piece);
  if (!piece) {
    return pass_on(piece.error());
  }
  request->piece = &*piece;
  const auto recipes = open_shop_recipes(global, session, options.as_labelled);
  if (!recipes) {
    return pass_on(recipes.error());
  }
  auto parts = finished_parts(*piece, recipes->book, session);
  if (!parts) {
    return pass_on(parts.error());
  }
  auto card = handover_card(*request, *parts, recipes->book, session);
  if (card) {
    add_new(recipes->remarks, card->remarks);
  }
  return card;
}

Result<ExitCode> run_handover(const HandoverOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto card = card_of(options, global, *session);
  if (!card) {
    return pass_on(card.error());
  }
  if (const auto put = put_out(*card, options, *session); !put) {
    return pass_on(put.error());
  }
  return ExitCode::kDone;
}

}  // namespace

void add_handover(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command = app.add_subcommand(
      "handover", "Print the care card of a piece, for the person who receives it");
  auto options = std::make_shared<HandoverOptions>();
  command->add_option("piece", options->piece, "The piece")->required()->type_name("");
  command
      ->add_option("--at", options->at, "When it is handed over; default as logged, planned or due")
      ->type_name("TIME");
  command->add_option("--house", options->house, "The house's air from then on; default 18C,40%")
      ->type_name("AIR");
  add_print_options(*command, options->print);
  command->add_flag("--explain",
                    options->explain,
                    "Add a page for the maker: what the days and the advice rest on");
  command->add_flag(
      "--as-labelled", options->as_labelled, "Set aside what this shop's touch tests have taught");
  command->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_handover(*options, global); }; });
}

}  // namespace coatwright
