#include "cli/common.h"

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include "base/time_expression.h"

namespace coatwright {
namespace {

constexpr std::chrono::hours kAirReach{24};

/// @return an environment variable's value; nothing when it is unset or empty.
std::optional<std::string> environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr || *value == '\0' ? std::nullopt : std::optional<std::string>(value);
}

Result<Zone> zone_for(const GlobalOptions& global, const ShopSettings& shop) {
  if (!global.time_zone.empty()) {
    return Zone::find(global.time_zone);
  }
  return shop.time_zone ? Zone::find(*shop.time_zone) : Zone::of_machine();
}

Result<UnitSystem> units_for(const GlobalOptions& global, const ShopSettings& shop) {
  return global.units.empty() ? shop.units.value_or(UnitSystem::kMetric)
                              : parse_units(global.units);
}

Result<Time> now_for(const GlobalOptions& global, const Zone& zone) {
  const Time machine = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  if (global.at_clock.empty()) {
    return machine;
  }
  const auto time = parse_time(global.at_clock, machine, zone, Direction::kBack);
  return time ? time : pass_on(time.error(), "--at-clock");
}

/// The command as far as it was understood.
struct Understood {
  const CLI::App* command;
  std::string words;  ///< "coatwright air add"
};

Understood understood_of(const CLI::App& app) {
  Understood understood{&app, app.get_name()};
  while (!understood.command->get_subcommands().empty()) {
    understood.command = understood.command->get_subcommands().front();
    understood.words += " " + understood.command->get_name();
  }
  return understood;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  return fmt::format("{}", fmt::join(words, between));
}

/// What is wrong where a command is missing or unknown.
std::string words_on_command(const CLI::App& command, const std::vector<std::string>& left_over) {
  std::vector<std::string> names;
  for (const CLI::App* each : command.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(each->get_name());
  }
  const std::string known = joined(names, ", ");
  return left_over.empty()
             ? fmt::format("a command is needed: {}", known)
             : fmt::format("there is no command '{}'; there are: {}", left_over.front(), known);
}

/// CLI11 gives a message of its own for a wrong call; ours is one line that ends in what to do.
std::string one_line(const CLI::App& app, const CLI::ParseError& wrong) {
  const auto [command, words] = understood_of(app);
  const auto left_over = app.remaining(true);
  std::string message = wrong.what();
  const bool without_command = command->get_subcommands().empty();
  const bool has_commands = !command->get_subcommands([](const CLI::App*) { return true; }).empty();
  const bool wrong_word = !left_over.empty() && !left_over.front().starts_with('-');
  if (has_commands && without_command &&
      (wrong_word || (left_over.empty() && command->get_require_subcommand_min() > 0))) {
    message = words_on_command(*command, left_over);
  } else if (!left_over.empty()) {
    message = fmt::format("not expected: {}", joined(left_over, " "));
  }
  for (char& c : message) {
    c = c == '\n' ? ' ' : c;
  }
  return fmt::format("{}; see `{} --help`", message, words);
}

/// An option that is given again overrules, so that an alias with options can be overruled.
void add_global(CLI::App& app,
                const std::string& name,
                std::string& value,
                const std::string& about,
                const std::string& type) {
  app.add_option(name, value, about)->type_name(type)->take_last();
}

}  // namespace

void add_global_options(CLI::App& app, GlobalOptions& global) {
  app.fallthrough();
  app.require_subcommand(0, 1);
  app.set_version_flag("--version", "coatwright " COATWRIGHT_VERSION);
  add_global(app, "--store", global.store, "File that keeps the shop's data", "FILE");
  add_global(app, "--units", global.units, "How quantities are shown: metric or us", "SYSTEM");
  add_global(app, "--time-zone", global.time_zone, "Zone, such as Europe/Berlin", "AREA/CITY");
  add_global(app, "--at-clock", global.at_clock, "Take this time for now", "TIME");
  app.add_flag("--json", global.json, "Give the answer as JSON");
}

CLI::App& add_group(CLI::App& app, const std::string& name, const std::string& about) {
  CLI::App* group = app.add_subcommand(name, about);
  group->require_subcommand(1);
  return *group;
}

std::optional<ExitCode> parse_call(CLI::App& app, int count, char** words) {
  try {
    app.parse(count, words);
    return std::nullopt;
  } catch (const CLI::Success& asked_for) {  // --help, --version
    app.exit(asked_for);
    return ExitCode::kDone;
  } catch (const CLI::ParseError& wrong) {
    return report_error({ErrorCode::kUsage, one_line(app, wrong), {}});
  }
}

ExitCode report_error(const Error& error) {
  std::fflush(stdout);
  std::fputs(fmt::format("coatwright: {}\n", error.text()).c_str(), stderr);
  return exit_code_of(error.code);
}

Result<AirRecord> Session::air(Time from, Time to) const {
  // Entries outside matter only as far as air runs on from them, which is hours.
  auto entries = store.air_entries(from - kAirReach, to + kAirReach);
  if (!entries) {
    return pass_on(entries.error());
  }
  return AirRecord(std::move(*entries), shop.usual_day_or_assumed(), zone);
}

Result<std::optional<AirRecord>> Session::outdoors(Time from, Time to) const {
  auto entries = store.air_entries(from - kAirReach, to + kAirReach);
  if (!entries) {
    return pass_on(entries.error());
  }
  std::erase_if(*entries, [](const AirEntry& one) { return one.origin != AirOrigin::kOutdoors; });
  if (entries->empty()) {
    return std::nullopt;
  }
  for (AirEntry& one : *entries) {
    one.origin = AirOrigin::kForecast;  // as it is, not to be turned into shop air
  }
  return AirRecord(std::move(*entries), shop.usual_day_or_assumed(), zone);
}

Result<Session> open_session(const GlobalOptions& global, Store::Mode mode) {
  const auto path = store_path(global);
  if (!path) {
    return pass_on(path.error());
  }
  auto store = Store::open(*path, mode);
  if (!store) {
    return pass_on(store.error());
  }
  auto shop = read_shop_settings(*store);
  if (!shop) {
    return pass_on(shop.error());
  }
  const auto zone = zone_for(global, *shop);
  if (!zone) {
    return pass_on(zone.error());
  }
  const auto units = units_for(global, *shop);
  if (!units) {
    return pass_on(units.error());
  }
  const auto now = now_for(global, *zone);
  if (!now) {
    return pass_on(now.error());
  }
  return Session{std::move(*store), std::move(*shop), *zone, *units, *now, global.json};
}

Result<std::filesystem::path> store_path(const GlobalOptions& global) {
  if (!global.store.empty()) {
    return std::filesystem::path(global.store);
  }
  if (const auto named = environment("COATWRIGHT_STORE")) {
    return std::filesystem::path(*named);
  }
  // The base directory rules have a relative $XDG_DATA_HOME ignored.
  const auto data = environment("XDG_DATA_HOME");
  if (data && std::filesystem::path(*data).is_absolute()) {
    return std::filesystem::path(*data) / "coatwright" / "shop.db";
  }
  if (const auto home = environment("HOME")) {
    return std::filesystem::path(*home) / ".local" / "share" / "coatwright" / "shop.db";
  }
  return fail(ErrorCode::kStore, "there is no home folder to keep the store in; name a --store");
}

Result<RecipeBook> open_recipes(const GlobalOptions& global) {
  const auto path = store_path(global);
  if (!path) {
    return pass_on(path.error());
  }
  return RecipeBook(path->parent_path() / "recipes");
}

Result<std::string> read_input_file(const std::string& path) {
  std::error_code failed;
  std::ifstream file(path, std::ios::binary);
  if (!file || std::filesystem::is_directory(path, failed)) {
    return fail(ErrorCode::kInputFile, fmt::format("the file '{}' cannot be read", path));
  }
  std::ostringstream content;
  content << file.rdbuf();
  return content.str();
}

Result<void> write_output_file(const std::string& path, const std::string& text) {
  const std::filesystem::path beside = path + ".part";
  std::error_code failed;
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file << text;
    file.close();
    failed = file ? std::error_code() : std::make_error_code(std::errc::io_error);
  }
  if (!failed) {
    std::filesystem::rename(beside, path, failed);
  }
  if (failed) {
    std::error_code ignored;
    std::filesystem::remove(beside, ignored);
    return fail(ErrorCode::kUsage, fmt::format("the file '{}' cannot be written", path));
  }
  return {};
}

Result<UnitSystem> parse_units(const std::string& text) {
  if (text == "metric" || text == "us") {
    return text == "us" ? UnitSystem::kUs : UnitSystem::kMetric;
  }
  return fail(ErrorCode::kUsage, fmt::format("--units '{}': metric or us is allowed", text));
}

std::string name_of(UnitSystem units) {
  return units == UnitSystem::kUs ? "us" : "metric";
}

double rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale;
}

void print_out(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stdout);  // a PDF has zeros in it
}

}  // namespace coatwright
