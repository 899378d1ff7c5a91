#include "cli/safety_call.h"

#include <utility>

#include <date/date.h>
#include <fmt/format.h>

#include "base/time_expression.h"
#include "cli/finished_parts.h"
#include "cli/piece_meant.h"

namespace coatwright {
namespace {

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

Result<std::vector<const Product*>> products_named(const std::vector<std::string>& names,
                                                   const RecipeBook& book) {
  std::vector<const Product*> products;
  for (const std::string& name : names) {
    const auto product = book.product(name);
    if (!product) {
      return pass_on(product.error());
    }
    products.push_back(*product);
  }
  return products;
}

/// The products of schedules, in the order of their coats. Errors: from the recipes.
Result<std::vector<const Product*>> products_of(const std::vector<const Schedule*>& schedules,
                                                const RecipeBook& book) {
  std::vector<std::string> names;
  for (const Schedule* schedule : schedules) {
    for (const ScheduleStep& step : schedule->steps) {
      if (step.kind == ScheduleStepKind::kCoat) {
        names.push_back(step.product);
      }
    }
  }
  return products_named(names, book);
}

/// A sheet for products without a piece.
Result<std::vector<SafetyJob>> job_without_piece(const SafetyOptions& options,
                                                 const RecipeBook& book,
                                                 const Session& session) {
  SafetyJob job;
  job.figures.room = session.shop.room;
  auto products = products_named(options.products, book);
  if (options.products.empty()) {
    const auto schedule = book.schedule(options.schedule);
    if (!schedule) {
      return pass_on(schedule.error());
    }
    products = products_of({*schedule}, book);
  }
  if (!products) {
    return pass_on(products.error());
  }
  job.products = std::move(*products);
  return std::vector{std::move(job)};
}

/// One sheet for all: of every product of the pieces' schedules, also where its coats are on.
Result<void> name_all_products(const std::vector<StoredPiece>& pieces,
                               const RecipeBook& book,
                               SafetyJob& job) {
  std::vector<const Schedule*> schedules;
  for (const StoredPiece& piece : pieces) {
    const auto more = schedules_of(piece, book);
    if (!more) {
      return pass_on(more.error());
    }
    schedules.insert(schedules.end(), more->begin(), more->end());
  }
  auto products = products_of(schedules, book);
  if (!products) {
    return pass_on(products.error());
  }
  job.products = std::move(*products);
  return {};
}

/// Noon of a day as typed: "2027-03-06", "today", "tomorrow", "Sat", which may be today.
Result<Time> noon_of(const std::string& day, const Session& session) {
  const auto today = date::floor<date::days>(session.zone.to_local(session.now));
  const Time midnight = session.zone.to_time_leniently(LocalTime(today));
  return parse_time(day + " 12:00", midnight, session.zone, Direction::kForward);
}

Result<std::vector<SafetyJob>> jobs_of_pieces(const SafetyOptions& options,
                                              const RecipeBook& book,
                                              const Session& session) {
  const auto pieces = pieces_meant(options, session);
  if (!pieces) {
    return pass_on(pieces.error());
  }
  std::optional<Time> day;
  if (!options.day.empty()) {
    const auto typed = noon_of(options.day, session);
    if (!typed) {
      return pass_on(typed.error(), "--day");
    }
    day = *typed;
  }
  const SheetPer per = options.per == "day"     ? SheetPer::kDay
                       : options.per == "piece" ? SheetPer::kPiece
                                                : SheetPer::kJob;
  auto jobs = safety_jobs(*pieces, per, day, book, session);
  const bool whole = per == SheetPer::kJob && !day;
  if (!jobs && !(whole && jobs.error().code == ErrorCode::kNo)) {
    return pass_on(jobs.error());
  }
  if (whole) {
    jobs = jobs ? std::move(*jobs) : std::vector<SafetyJob>(1);
    jobs->front().figures.room = session.shop.room;
    if (const auto named = name_all_products(*pieces, book, jobs->front()); !named) {
      return pass_on(named.error());
    }
  }
  return jobs;
}

}  // namespace

Result<void> check_call(const SafetyOptions& options) {
  const int ways = (options.piece.empty() ? 0 : 1) + (options.schedule.empty() ? 0 : 1) +
                   (options.products.empty() ? 0 : 1) + (options.plan ? 1 : 0);
  if (ways > 1) {
    return fail(ErrorCode::kUsage,
                "give one of these alone: a piece, --plan, --schedule, --product");
  }
  if (!options.is_of_pieces() && !(options.day.empty() && options.per.empty())) {
    return fail(ErrorCode::kUsage, "--day and --per are for pieces that are stored and planned");
  }
  return {};
}

Result<std::vector<SafetyJob>> jobs_of_call(const SafetyOptions& options,
                                            const RecipeBook& book,
                                            const Session& session) {
  return options.is_of_pieces() ? jobs_of_pieces(options, book, session)
                                : job_without_piece(options, book, session);
}

}  // namespace coatwright
