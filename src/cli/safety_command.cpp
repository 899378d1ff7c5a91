#include "cli/safety_command.h"

#include <memory>
#include <utility>
#include <vector>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "cli/safety_call.h"
#include "report/room_words.h"
#include "report/safety_sheet.h"

namespace coatwright {
namespace {

/// One sheet with its facts.
struct SheetAndFacts {
  SafetyJob job;
  SafetySheet sheet;
  SafetyFacts facts;
};

Result<SheetAndFacts> sheet_for(SafetyJob job, const SafetyTexts& texts, const Session& session) {
  SheetAndFacts one{std::move(job), {}, {}};
  one.sheet = make_safety_sheet(one.job.products, texts);
  if (one.sheet.products.size() > kMostSheetProducts) {
    return fail(ErrorCode::kOutOfRange,
                fmt::format("{} products are too many for one sheet: up to {} are allowed",
                            one.sheet.products.size(),
                            kMostSheetProducts));
  }
  one.facts = {one.job.day,
               one.job.pieces,
               figure_lines(one.job.figures, one.sheet, session.zone, session.units),
               label_lines(one.sheet, session.units),
               storage_lines(one.job.stored, session.shop.cabinet.value_or(false), session.units),
               session.shop.emergency};
  return one;
}

/// The vapour of each coat, or of a litre of each product, with formula, inputs and sources.
std::string vapour_pages(const SheetAndFacts& one, const Session& session) {
  std::string text = "VAPOUR: WHERE EACH FIGURE IS FROM\n\n";
  for (const SheetCoat& coat : one.job.figures.coats) {
    text += vapour_explained(coat.vapour.vapour, one.job.figures.room, session.units);
  }
  for (const Product* product : one.sheet.products) {
    if (one.job.figures.coats.empty() && product->vapour) {
      const CoatVapour litre = vapour_of(*product, Volume::from_litres(1.0), kReferenceTemperature);
      text += vapour_explained(litre, one.job.figures.room, session.units);
    }
  }
  return text;
}

std::string text_of(const std::vector<SheetAndFacts>& sheets,
                    const SafetyOptions& options,
                    const Session& session) {
  std::string text;
  for (const SheetAndFacts& one : sheets) {
    if (session.json) {
      text += safety_sheet_as_json(one.sheet, one.facts);  // one after the other, as JSON lines are
      continue;
    }
    text += (text.empty() ? "" : "\f") + show_safety_sheet(one.sheet, one.facts);
    if (options.explain) {
      text += "\f" + explain_safety_sheet(one.sheet) + "\f" + vapour_pages(one, session);
    }
  }
  return text;
}

/// All sheets in one document, each on pages of its own that say what it is for.
Sheet sheets_on_paper(const std::vector<SheetAndFacts>& sheets, const Session& session) {
  if (sheets.size() == 1) {
    return safety_as_sheet(sheets.front().sheet, sheets.front().facts, session.now);
  }
  Sheet whole;
  for (const SheetAndFacts& one : sheets) {
    Sheet next = safety_as_sheet(one.sheet, one.facts, session.now);
    if (whole.blocks.empty()) {
      whole = next;
      whole.subtitle.clear();
      whole.blocks.clear();
    } else {
      whole.blocks.emplace_back(SheetPageBreak{});
    }
    whole.blocks.emplace_back(SheetText{next.subtitle, SheetSize::kLarge, true});
    whole.blocks.insert(whole.blocks.end(), next.blocks.begin(), next.blocks.end());
  }
  return whole;
}

Result<ExitCode> run_safety(const SafetyOptions& options, const GlobalOptions& global) {
  if (const auto right = check_call(options); !right) {
    return pass_on(right.error());
  }
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  auto jobs = jobs_of_call(options, *book, *session);
  if (!jobs) {
    return pass_on(jobs.error());
  }
  const auto texts = book->safety_texts();
  if (!texts) {
    return pass_on(texts.error());
  }
  std::vector<SheetAndFacts> sheets;
  for (SafetyJob& job : *jobs) {
    auto sheet = sheet_for(std::move(job), **texts, *session);
    if (!sheet) {
      return pass_on(sheet.error());
    }
    sheets.push_back(std::move(*sheet));
  }
  const auto put = options.print.is_on_paper()
                       ? put_out_sheet(sheets_on_paper(sheets, *session), options.print, *session)
                       : put_out_page(text_of(sheets, options, *session), options.print);
  return put.map([] { return ExitCode::kDone; });
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
  safety->add_option("--day", options->day, "What is planned for that day alone")->type_name("DAY");
  safety->add_option("--per", options->per, "A sheet for each: day or piece")
      ->type_name("day|piece")
      ->check(CLI::IsMember({"day", "piece"}));
  add_print_options(*safety, options->print);
  safety->add_flag(
      "--explain", options->explain, "Add each statement's source, and how it is known");
  safety->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_safety(*options, global); }; });
}

}  // namespace coatwright
