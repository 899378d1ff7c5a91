#include "cli/can_command.h"

#include <algorithm>
#include <chrono>
#include <memory>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/time_expression.h"
#include "cli/can_age.h"
#include "report/text_table.h"
#include "report/wrap.h"

namespace coatwright {
namespace {

using Json = nlohmann::ordered_json;

/// The options of `product open`, as typed; empty: not given.
struct OpenOptions {
  std::string product;
  std::string at;
  std::string batch;
  std::string made;
  std::string note;
};

/// A day that is over or today: a date, a time, "yesterday", "Fri".
Result<Time> day_of(const std::string& text, const std::string& option, const Session& session) {
  auto time = parse_time(text, session.now, session.zone, Direction::kBack);
  if (!time) {
    const auto midnight = parse_time(text + " 0:00", session.now, session.zone, Direction::kBack);
    time = midnight ? midnight : time;
  }
  if (!time) {
    return pass_on(time.error(), option);
  }
  if (*time > session.now) {
    return fail(ErrorCode::kUsage,
                fmt::format("{}: {} is still to come", option, show_full(*time, session.zone)));
  }
  return time;
}

Result<Can> can_from(const OpenOptions& options, const Session& session) {
  Can can;
  can.product = options.product;
  can.batch = options.batch;
  can.note = options.note;
  can.opened_at = session.now;
  if (!options.at.empty()) {
    const auto at = day_of(options.at, "--at", session);
    if (!at) {
      return pass_on(at.error());
    }
    can.opened_at = *at;
  }
  if (!options.made.empty()) {
    const auto made = day_of(options.made, "--made", session);
    if (!made) {
      return pass_on(made.error());
    }
    if (*made > can.opened_at) {
      return fail(ErrorCode::kUsage, "--made: the can was made before it was opened");
    }
    can.made_at = *made;
  }
  return can;
}

/// A can with what is known of its time.
struct AgedCan {
  Can can;
  std::optional<UseBy> until;
  std::string unknown;  ///< Why the product's file cannot say; empty: it was read.

  [[nodiscard]] bool overdue(Time now) const { return until && now > until->at; }
};

AgedCan aged(const Can& can, const RecipeBook& book) {
  const auto product = book.product(can.product);
  if (!product) {
    return {can, std::nullopt, product.error().text()};
  }
  return {can, use_by(can, **product), ""};
}

std::string age_of(const Can& can, Time now) {
  const auto days =
      std::chrono::duration_cast<std::chrono::hours>(now - can.opened_at).count() / 24;
  return fmt::format("{} d", days);
}

std::string use_by_words(const AgedCan& can, const Session& session) {
  return can.until ? fmt::format("{}: {} [{}]",
                                 show_date(can.until->at, session.zone),
                                 can.until->why,
                                 can.until->source)
                   : "not known, because the product's file does not say how long it keeps";
}

Json can_as_json(const AgedCan& aged_can, const Session& session) {
  const Can& can = aged_can.can;
  Json json = {{"number", can.number},
               {"product", can.product},
               {"opened_at", show_rfc3339(can.opened_at, session.zone)},
               {"batch", can.batch},
               {"note", can.note},
               {"made_at", can.made_at ? Json(show_rfc3339(*can.made_at, session.zone)) : Json()},
               {"use_by", nullptr},
               {"overdue", aged_can.overdue(session.now)}};
  if (aged_can.until) {
    json["use_by"] = {{"at", show_rfc3339(aged_can.until->at, session.zone)},
                      {"why", aged_can.until->why},
                      {"source", aged_can.until->source}};
  }
  return json;
}

std::string list_as_json(const std::vector<AgedCan>& cans, const Session& session) {
  Json whole = Json::array();
  for (const AgedCan& can : cans) {
    whole.push_back(can_as_json(can, session));
  }
  return whole.dump(2) + "\n";
}

std::string list_as_text(const std::vector<AgedCan>& cans, const Session& session) {
  if (cans.empty()) {
    return "No can is noted as open: `coatwright product open PRODUCT` when you open one.\n";
  }
  std::string text;
  bool any_overdue = false;
  for (const AgedCan& each : cans) {
    const bool overdue = each.overdue(session.now);
    any_overdue = any_overdue || overdue;
    std::string line = fmt::format("{} {}, opened {}, {}",
                                   each.can.number,
                                   each.can.product,
                                   show_date(each.can.opened_at, session.zone),
                                   age_of(each.can, session.now));
    line += each.can.batch.empty() ? "" : ", batch " + each.can.batch;
    text += wrap(line, overdue ? "! " : "  ", "    ") +
            wrap((overdue ? "past its time, use by: " : "use by: ") + use_by_words(each, session) +
                     (each.can.note.empty() ? "" : "; " + each.can.note) +
                     (each.unknown.empty() ? "" : "; " + each.unknown),
                 4,
                 6);
  }
  return any_overdue ? text + "\n" + wrap(std::string(kTestDrop) + " [common-practice]", 0, 0)
                     : text;
}

Result<ExitCode> run_open(const OpenOptions& options, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  if (const auto product = book->product(options.product); !product) {
    return pass_on(product.error());
  }
  auto can = can_from(options, *session);
  if (!can) {
    return pass_on(can.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  const auto number = session->store.open_can(*can);
  if (!number) {
    return pass_on(number.error());
  }
  can->number = *number;
  const AgedCan kept = aged(*can, *book);
  print_out(session->json ? can_as_json(kept, *session).dump(2) + "\n"
                          : wrap(fmt::format("Can {} of {}, opened {}; use by: {}.",
                                             can->number,
                                             can->product,
                                             show_date(can->opened_at, session->zone),
                                             use_by_words(kept, *session)),
                                 0,
                                 2));
  return ExitCode::kDone;
}

Result<ExitCode> run_cans(const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto book = open_recipes(global);
  if (!book) {
    return pass_on(book.error());
  }
  const auto cans = session->store.cans();
  if (!cans) {
    return pass_on(cans.error());
  }
  std::vector<AgedCan> all;
  for (const Can& can : *cans) {
    all.push_back(aged(can, *book));
  }
  // What is past its time first, then what will be next.
  std::stable_sort(all.begin(), all.end(), [](const AgedCan& a, const AgedCan& b) {
    return a.until && (!b.until || a.until->at < b.until->at);
  });
  print_out(session->json ? list_as_json(all, *session) : list_as_text(all, *session));
  return ExitCode::kDone;
}

Result<ExitCode> run_empty(std::int64_t number, const GlobalOptions& global) {
  auto session = open_session(global, Store::Mode::kRead);  // nothing is made by a wrong call
  if (!session) {
    return pass_on(session.error());
  }
  const auto can = session->store.can(number);
  if (!can) {
    return pass_on(can.error());
  }
  session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.empty_can(number, session->now); !done) {
    return pass_on(done.error());
  }
  print_out(session->json
                ? Json{{"number", number}, {"product", can->product}, {"emptied", true}}.dump(2) +
                      "\n"
                : fmt::format("Can {} of {} is taken off. Leftovers and the can go where the "
                              "local rules say.\n",
                              number,
                              can->product));
  return ExitCode::kDone;
}

}  // namespace

void add_cans(CLI::App& group, const GlobalOptions& global, Work& chosen) {
  CLI::App* open = group.add_subcommand("open", "Note that a can was opened");
  auto options = std::make_shared<OpenOptions>();
  open->add_option("name", options->product, "The product")->required()->type_name("");
  open->add_option("--at", options->at, "When [now]: yesterday, 2027-03-05")->type_name("DAY");
  open->add_option("--batch", options->batch, "As the can says")->type_name("BATCH");
  open->add_option("--made", options->made, "When it was made, as the can says")->type_name("DAY");
  open->add_option("--note", options->note, "Shown with the can")->type_name("TEXT");
  open->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_open(*options, global); }; });

  CLI::App* cans = group.add_subcommand("cans", "List the open cans, those past their time first");
  cans->callback([&global, &chosen] { chosen = [&global] { return run_cans(global); }; });

  CLI::App* empty = group.add_subcommand("empty", "Take a can off");
  auto number = std::make_shared<std::int64_t>(0);
  empty->add_option("number", *number, "Number of the can, as `product cans` shows it")
      ->required()
      ->type_name("");
  empty->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_empty(*number, global); }; });
}

}  // namespace coatwright
