#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>

#include "air/air_record.h"
#include "base/result.h"
#include "base/time.h"
#include "base/units.h"
#include "base/zone.h"
#include "recipe/recipe_book.h"
#include "store/shop_settings.h"
#include "store/store.h"

namespace CLI {
class App;
}

/// What all commands share. Each command lives in a pair of files, with one function
///     void add_x(CLI::App& app, const GlobalOptions& global, Work& chosen);
/// that declares the command and its options below `app`, and whose callback puts what is to be
/// done into `chosen`. main() parses, and then runs the chosen work. A command gives its answer on
/// standard output itself, and hands a failure back; main() prints that.
namespace coatwright {

/// The options that stand before or after any command, as they were typed; empty: not given.
struct GlobalOptions {
  std::string store;
  std::string units;
  std::string time_zone;
  std::string at_clock;
  bool json = false;
};

/// What a parsed call is to do. @return kDone, or kNo where the command's answer is no.
using Work = std::function<Result<ExitCode>()>;

/// Declares the global options, --help and --version.
void add_global_options(CLI::App& app, GlobalOptions& global);

/// Adds a command without an action of its own, such as `air`, which needs one of its commands.
[[nodiscard]] CLI::App& add_group(CLI::App& app, const std::string& name, const std::string& about);

/// Parses the call. @return kDone after --help or --version, kUsage with the message printed after
/// a wrong call, or nothing when the chosen work is to be run.
[[nodiscard]] std::optional<ExitCode> parse_call(CLI::App& app, int count, char** words);

/// Prints "coatwright: ..." on standard error. @return the exit code for it.
ExitCode report_error(const Error& error);

/// What nearly every command starts from: the global options resolved and the store open.
struct Session {
  Store store;
  ShopSettings shop;
  Zone zone;         ///< --time-zone, else the shop's, else the machine's.
  UnitSystem units;  ///< --units, else the shop's, else metric.
  Time now;          ///< --at-clock, else the machine's clock.
  bool json;

  /// The shop's air from its entries and its usual day, good from `from` to `to`. Errors: kStore.
  [[nodiscard]] Result<AirRecord> air(Time from, Time to) const;
  /// The air outdoors, as it is there; none where nothing is known of it. Errors: kStore.
  [[nodiscard]] Result<std::optional<AirRecord>> outdoors(Time from, Time to) const;
};

/// Errors: kStore when the store cannot be used; kUsage or kTime for a wrong global option.
[[nodiscard]] Result<Session> open_session(const GlobalOptions& global, Store::Mode mode);

/// The store's file: --store, else $COATWRIGHT_STORE, else the user's data folder.
/// Errors: kStore when there is no home folder either.
[[nodiscard]] Result<std::filesystem::path> store_path(const GlobalOptions& global);

/// The recipes: the program's own, and those in the folder "recipes" beside the store.
/// Errors: as store_path().
[[nodiscard]] Result<RecipeBook> open_recipes(const GlobalOptions& global);

/// Reads a whole file that the user named. Errors: kInputFile when it cannot be read.
[[nodiscard]] Result<std::string> read_input_file(const std::string& path);

/// Writes a whole file that the user named, beside it first, so that it is there whole or not at
/// all. Errors: kUsage when it cannot be written.
[[nodiscard]] Result<void> write_output_file(const std::string& path, const std::string& text);

/// Errors: kUsage unless "metric" or "us".
[[nodiscard]] Result<UnitSystem> parse_units(const std::string& text);
[[nodiscard]] std::string name_of(UnitSystem units);

/// @return the value rounded for JSON, where more decimals would only pretend to be known.
[[nodiscard]] double rounded(double value, int decimals);

/// Writes to standard output.
void print_out(const std::string& text);

}  // namespace coatwright
