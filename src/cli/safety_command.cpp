#include "cli/safety_command.h"

#include <memory>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/finished_parts.h"
#include "cli/piece_meant.h"
#include "report/safety_sheet.h"

namespace coatwright {
namespace {

/// The options of `safety`, as typed; empty: not given.
struct SafetyOptions {
  std::string piece;
  std::string schedule;
  std::vector<std::string> products;
  std::string out;
  bool plan = false;
  bool explain = false;
};

/// The stored pieces that the call means: the one named, all with --plan, or the only one.
Result<std::vector<StoredPiece>> pieces_meant(const SafetyOptions& options,
                                              const Session& session) {
  const auto pieces = session.store.pieces();
  if (!pieces) {
    return pass_on(pieces.error());
  }
  if (options.plan && !pieces->empty()) {
    return *pieces;
  }
  const auto piece =
      piece_meant(options.piece,
                  session,
                  {"there is no piece: give --schedule or --product, or store a piece "
                   "with `coatwright piece add`",
                   "say which piece, or --plan for all of them"});
  if (!piece) {
    return pass_on(piece.error());
  }
  return std::vector{*piece};
}

/// The schedules of the call, those of pieces as they are for their wood. Errors: from the recipes.
Result<std::vector<const Schedule*>> schedules_meant(const SafetyOptions& options,
                                                     const RecipeBook& book,
                                                     const Session& session) {
  if (!options.schedule.empty()) {
    return book.schedule(options.schedule).map([](const Schedule* one) {
      return std::vector{one};
    });
  }
  const auto pieces = pieces_meant(options, session);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  std::vector<const Schedule*> schedules;
  for (const StoredPiece& piece : *pieces) {
    const auto more = schedules_of(piece, book);
    if (!more) {
      return pass_on(more.error());
    }
    schedules.insert(schedules.end(), more->begin(), more->end());
  }
  return schedules;
}

Result<std::vector<std::string>> product_names(const SafetyOptions& options,
                                               const RecipeBook& book,
                                               const Session& session) {
  const int ways = (options.piece.empty() ? 0 : 1) + (options.schedule.empty() ? 0 : 1) +
                   (options.products.empty() ? 0 : 1) + (options.plan ? 1 : 0);
  if (ways > 1) {
    return fail(ErrorCode::kUsage,
                "give one of these alone: a piece, --plan, --schedule, --product");
  }
  if (!options.products.empty()) {
    return options.products;
  }
  const auto schedules = schedules_meant(options, book, session);
  if (!schedules) {
    return pass_on(schedules.error());
  }
  std::vector<std::string> names;
  for (const Schedule* schedule : *schedules) {
    for (const ScheduleStep& step : schedule->steps) {
      if (step.kind == ScheduleStepKind::kCoat) {
        names.push_back(step.product);
      }
    }
  }
  return names;
}

Result<SafetySheet> sheet_for(const std::vector<std::string>& names, const RecipeBook& book) {
  std::vector<const Product*> products;
  for (const std::string& name : names) {
    const auto product = book.product(name);
    if (!product) {
      return pass_on(product.error());
    }
    products.push_back(*product);
  }
  const auto statements = book.safety_statements();
  if (!statements) {
    return pass_on(statements.error());
  }
  SafetySheet sheet = make_safety_sheet(products, **statements);
  if (sheet.products.size() > kMostSheetProducts) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("{} products are too many for one sheet: up to {} are allowed",
                            sheet.products.size(),
                            kMostSheetProducts));
  }
  return sheet;
}

std::string page_of(const SafetySheet& sheet,
                    const SafetyOptions& options,
                    const Session& session) {
  if (session.json) {
    return safety_sheet_as_json(sheet);
  }
  const std::string page = show_safety_sheet(sheet);
  return options.explain ? page + "\f" + explain_safety_sheet(sheet) : page;
}

Result<ExitCode> run_safety(const SafetyOptions& options, const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto names = product_names(options, *book, *session);
  if (!names) {
    return pass_on(names.error());
  }
  const auto sheet = sheet_for(*names, *book);
  if (!sheet) {
    return pass_on(sheet.error());
  }
  const std::string page = page_of(*sheet, options, *session);
  if (options.out.empty()) {
    print_out(page);
  } else if (const auto written = write_output_file(options.out, page); !written) {
    return pass_on(written.error());
  }
  return ExitCode::kDone;
}

}  // namespace

void add_safety(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App* safety =
      app.add_subcommand("safety", "Print the safety sheet for a job's products, to pin up");
  auto options = std::make_shared<SafetyOptions>();
  safety->add_option("piece", options->piece, "A stored piece; the only one when left out")
      ->type_name("");
  safety->add_flag("--plan", options->plan, "For all stored pieces together");
  safety->add_option("--schedule", options->schedule, "The products of this schedule")
      ->type_name("NAME");
  safety->add_option("--product", options->products, "These products, by name")->type_name("NAME");
  safety->add_option("--out", options->out, "Write there instead of on standard output")
      ->type_name("FILE");
  safety->add_flag(
      "--explain", options->explain, "Add each statement's source, and how it is known");
  safety->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_safety(*options, global); }; });
}

}  // namespace coatwright
