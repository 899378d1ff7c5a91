#include "cli/quantities_command.h"

#include <memory>

#include <CLI/CLI.hpp>

#include "cli/quantities_job.h"
#include "report/quantities_page.h"

namespace coatwright {
namespace {

Result<std::vector<PieceOfJob>> pieces_of(const QuantitiesJob& job) {
  std::vector<PieceOfJob> pieces;
  for (const PieceRequest& piece : job.pieces) {
    const auto coats = film_coats_of(*piece.schedule, job.book);
    if (!coats) {
      return pass_on(coats.error());
    }
    pieces.push_back({piece.name,
                      piece.schedule->name,
                      piece.area,
                      piece.faces == Faces::kOne ? 1 : 2,
                      dry_film_of(*coats)});
  }
  return pieces;
}

Result<std::string> page_for(const QuantitiesOptions& options,
                             const Session& session,
                             const QuantitiesJob& job) {
  const auto application = job.book.application();
  if (!application) {
    return pass_on(application.error());
  }
  const auto coats = coats_of(job, options, session.now);
  if (!coats) {
    return pass_on(coats.error());
  }
  const auto air = batch_air_of(options, session);
  if (!air) {
    return pass_on(air.error());
  }
  const auto pieces = pieces_of(job);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  const auto products = amounts_of(*coats, **application, air->first);
  const auto purchases = purchases_for(products, (*application)->cans_in(session.units));
  const QuantitiesView view{*pieces,
                            products,
                            purchases,
                            (*application)->waste,
                            air->first,
                            air->second,
                            session.now,
                            session.zone,
                            session.units};
  if (session.json) {
    return quantities_as_json(view);
  }
  return show_quantities(view) + (options.explain ? "\n" + explain_quantities(view) : "");
}

Result<ExitCode> run_quantities(const QuantitiesOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto job = job_of(options, global, *session);
  if (!job) {
    return pass_on(job.error());
  }
  const auto page = page_for(options, *session, *job);
  if (!page) {
    return pass_on(page.error());
  }
  print_out(*page);
  return ExitCode::kDone;
}

}  // namespace

void add_quantities(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* command =
      app.add_subcommand("quantities", "What to buy and mix, and how it is reckoned");
  auto options = std::make_shared<QuantitiesOptions>();
  command->add_option("piece", options->piece, "A stored piece; all of them when left out")
      ->type_name("");
  command->add_option("--schedule", options->schedule, "Instead: this finishing schedule")
      ->type_name("NAME");
  command->add_option("--species", options->species, "Its wood")->type_name("NAME");
  add_size_options(*command, options->size);
  command->add_option("--in-air", options->in_air, "Air of the pot life, such as 20C,50%")
      ->type_name("AIR");
  command->add_option("--tool", options->tools, "What puts a coat on, such as hvlp-gun")
      ->type_name("NAME")
      ->allow_extra_args(false);
  command->add_flag(
      "--small-parts", options->small_parts, "Frames, spindles: a gun's mist goes by more of it");
  command->add_flag("--explain", options->explain, "Add each formula, its figures and sources");
  command->callback([=, &global, &chosen] {
    chosen = [=, &global] { return run_quantities(*options, global); };
  });
}

}  // namespace coatwright
