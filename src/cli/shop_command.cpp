#include "cli/shop_command.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace coatwright {
namespace {

/// The options of `shop set`, as typed; empty: not given.
struct SetOptions {
  std::string usual_day;
  std::string hours;
  std::string time_zone;
  std::string units;
};

/// Adds one given option to what is to be stored, once its parser has read it.
template <class Parse>
Result<void> take(const std::string& text,
                  ShopSetting which,
                  Parse parse,
                  std::map<ShopSetting, std::string>& into) {
  if (text.empty()) {
    return {};
  }
  if (const auto value = parse(text); !value) {
    return pass_on(value.error());
  }
  into[which] = text;
  return {};
}

Result<std::map<ShopSetting, std::string>> checked(const SetOptions& options) {
  std::map<ShopSetting, std::string> values;
  const Result<void> results[] = {
      take(options.usual_day, ShopSetting::kUsualDay, UsualDay::parse, values),
      take(options.hours, ShopSetting::kHours, WeekHours::parse, values),
      take(options.time_zone, ShopSetting::kTimeZone, Zone::find, values),
      take(options.units, ShopSetting::kUnits, parse_units, values)};
  for (const auto& result : results) {
    if (!result) {
      return pass_on(result.error());
    }
  }
  if (values.empty()) {
    return fail(ErrorCode::kUsage,
                "shop set needs at least one of --usual-day, --hours, --time-zone and --units");
  }
  return values;
}

/// One setting as `shop show` gives it.
struct Row {
  std::string words;
  std::string key;
  std::string value;
  std::string is_default;  ///< Empty: the shop has set it; else what kind of default it is.
};

/// @param hours as they were typed; their read form names every day on its own.
std::vector<Row> rows_of(const Session& session, const std::optional<std::string>& hours) {
  const ShopSettings& shop = session.shop;
  return {
      {"usual day",
       "usual_day",
       shop.usual_day_or_assumed().text(session.units),
       shop.usual_day ? "" : "default, assumed: set it with --usual-day"},
      {"hours",
       "hours",
       hours.value_or(std::string(kAssumedHours)),
       hours ? "" : "default, assumed"},
      {"time zone",
       "time_zone",
       shop.time_zone.value_or(session.zone.name()),
       shop.time_zone ? "" : "default, of this machine or call"},
      {"units", "units", name_of(shop.units.value_or(session.units)), shop.units ? "" : "default"}};
}

std::string as_text(const Session& session, const std::vector<Row>& rows) {
  std::string text;
  for (const Row& row : rows) {
    const std::string note = row.is_default.empty() ? "" : fmt::format("  ({})", row.is_default);
    text += fmt::format("{:<10} {}{}\n", row.words, row.value, note);
  }
  return text + fmt::format("{:<10} {}\n", "store", session.store.path().string());
}

std::string as_json(const Session& session, const std::vector<Row>& rows) {
  nlohmann::ordered_json whole;
  for (const Row& row : rows) {
    whole[row.key] = {{"value", row.value}, {"default", !row.is_default.empty()}};
  }
  whole["store"] = session.store.path().string();
  return whole.dump(2) + "\n";
}

Result<ExitCode> run_show(const GlobalOptions& global) {
  const auto session = open_session(global, Store::Mode::kRead);
  if (!session) {
    return pass_on(session.error());
  }
  const auto hours = session->store.setting(ShopSetting::kHours);
  if (!hours) {
    return pass_on(hours.error());
  }
  const auto rows = rows_of(*session, *hours);
  print_out(session->json ? as_json(*session, rows) : as_text(*session, rows));
  return ExitCode::kDone;
}

Result<ExitCode> run_set(const SetOptions& options, const GlobalOptions& global) {
  const auto values = checked(options);
  if (!values) {
    return pass_on(values.error());
  }
  auto session = open_session(global, Store::Mode::kWrite);
  if (!session) {
    return pass_on(session.error());
  }
  if (const auto done = session->store.set(*values); !done) {
    return pass_on(done.error());
  }
  return run_show(global);
}

}  // namespace

void add_shop(CLI::App& app, const GlobalOptions& global, Work& chosen) {
  CLI::App& shop = add_group(app, "shop", "What plans need to know of the shop");
  CLI::App* set = shop.add_subcommand("set", "Change settings");
  auto options = std::make_shared<SetOptions>();
  set->add_option(
         "--usual-day", options->usual_day, "Air on the clock: \"7:00 19C 50%; 22:00 15C 60%\"")
      ->type_name("POINTS");
  set->add_option("--hours", options->hours, "When people work: \"Mon-Fri 8:00-17:00\"")
      ->type_name("HOURS");
  set->add_option("--time-zone", options->time_zone, "The shop's IANA time zone")
      ->type_name("AREA/CITY");
  set->add_option("--units", options->units, "How quantities are shown: metric or us")
      ->type_name("SYSTEM");
  set->callback(
      [=, &global, &chosen] { chosen = [=, &global] { return run_set(*options, global); }; });
  CLI::App* show = shop.add_subcommand("show", "Show the settings, and which are defaults");
  show->callback([&global, &chosen] { chosen = [&global] { return run_show(global); }; });
}

}  // namespace coatwright
