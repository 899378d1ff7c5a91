#pragma once

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "air/air_record.h"
#include "base/result.h"
#include "base/special_days.h"
#include "base/time.h"
#include "base/units.h"
#include "plan/plan_changes.h"
#include "store/can.h"
#include "store/log_entry.h"
#include "store/stored_piece.h"

namespace coatwright {

/// What the shop says about itself.
enum class ShopSetting {
  kUsualDay,
  kHours,
  kTimeZone,
  kUnits,
  kPeople,
  kSprayPlaces,
  kRackPlaces,
  kBenches,
  kFinishingRoom,
  kLearnedRecoat,
  kRoom,
  kFan,
  kFanRated,
  kMixing,
  kIgnition,
  kEmergency,
  kCabinet
};

/// What becomes of days: what holds on them, or nothing where they are as usual again.
using DayChanges = std::map<date::local_days, std::optional<SpecialDay>>;

/// Where a file's air was, and how it is known.
enum class AirPlace { kShop, kOutdoors };
enum class AirKind { kLogger, kForecast };

/// An import of a file of air readings.
struct AirImport {
  std::string file_name;  ///< Without its folder.
  AirPlace place = AirPlace::kShop;
  AirKind kind = AirKind::kLogger;
  Time imported_at;
};

/// What became of a file's readings.
struct AirImported {
  std::size_t stored = 0;
  std::size_t replaced = 0;       ///< They took the place of an older forecast.
  std::size_t known_already = 0;  ///< Measured before for their time and origin; the first is kept.
};

/// A piece of which touch tests were logged.
struct TouchedPiece {
  StoredPiece piece;
  std::vector<LogEntry> log;  ///< By time, those struck out too.
};

/// All that a shop keeps, in one file. Every change is whole or not made. All failures of the file
/// are kStore.
class Store {
 public:
  enum class Mode {
    kRead,   ///< Makes no file: where none exists, everything is empty.
    kWrite,  ///< Makes the file and its folder.
  };

  /// Errors: kStore for a file of another program or of a newer version of this one, naming both
  /// versions and the remedy. An older store is copied and brought up to date.
  [[nodiscard]] static Result<Store> open(const std::filesystem::path& path, Mode mode);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  [[nodiscard]] const std::filesystem::path& path() const;

  /// @return the text as it was typed, or nothing.
  [[nodiscard]] Result<std::optional<std::string>> setting(ShopSetting which) const;
  /// Changes settings and days, all or none.
  [[nodiscard]] Result<void> set(const std::map<ShopSetting, std::string>& values,
                                 const DayChanges& days = {});
  /// @return the days that are not as usual.
  [[nodiscard]] Result<SpecialDays> special_days() const;

  /// @return the reading that is there for that time already and was kept, or nothing when this one
  /// was stored. @param replace whether to overwrite it instead.
  [[nodiscard]] Result<std::optional<AirEntry>> add_reading(const AirEntry& reading, bool replace);
  /// Stores a file's readings in one transaction.
  [[nodiscard]] Result<AirImported> add_import(const AirImport& import,
                                               const std::vector<AirEntry>& entries);
  /// @return the entries from `from` to `to`, both included, by time.
  [[nodiscard]] Result<std::vector<AirEntry>> air_entries(Time from, Time to) const;

  /// Stores a piece with its units and its work. Errors: also kUsage when a piece of that name is
  /// there.
  [[nodiscard]] Result<void> add_piece(const StoredPiece& piece);
  /// @return those that are not retired, in the order they were added.
  [[nodiscard]] Result<std::vector<StoredPiece>> pieces() const;
  /// Errors: also kNotFound, naming the pieces that are there.
  [[nodiscard]] Result<StoredPiece> piece(const std::string& name) const;
  /// @return the pieces of which touch tests were logged, retired ones too, with their logs.
  [[nodiscard]] Result<std::vector<TouchedPiece>> touched_pieces() const;
  /// Takes a piece out of the lists; it stays in the file. Errors: also kNotFound.
  [[nodiscard]] Result<void> retire_piece(const std::string& name, Time at);

  /// Logs a coat with its findings, and keeps the recipe that it was judged by, once per revision.
  /// @param product_text the product's recipe file; entry's revision is its content_hash().
  /// @return the entry's number: when it is there, the entry is on the disk.
  /// Errors: also kNotFound when there is no piece of its name.
  [[nodiscard]] Result<std::int64_t> log_coat(const LogEntry& coat,
                                              const std::string& product_text);
  /// Logs steps that were done or left out, all or none. @return their numbers, in order.
  /// Errors: also kNotFound when there is no piece of a name.
  [[nodiscard]] Result<std::vector<std::int64_t>> log_steps(const std::vector<LogEntry>& steps);
  /// @return what was logged of a piece, those struck out too, by time and then by number. Of a
  /// name that is free again, the piece that had it last. Errors: also kNotFound.
  [[nodiscard]] Result<std::vector<LogEntry>> log(const std::string& piece) const;
  /// @return one entry by its number. Errors: also kNotFound.
  [[nodiscard]] Result<LogEntry> log_entry(std::int64_t id) const;
  /// Strikes an entry out; it stays in the log. Errors: also kNotFound, and kUsage when it was
  /// struck out already.
  [[nodiscard]] Result<void> strike(std::int64_t id, const std::string& why, Time at);
  /// @return the recipe that a logged coat was judged by. Errors: also kNotFound.
  [[nodiscard]] Result<std::string> product_text(const std::string& product,
                                                 const std::string& revision) const;

  /// Keeps the last plan of a piece in place of the one before; of its steps the part, but not the
  /// piece, which is the one that it is kept for. Errors: also kNotFound.
  [[nodiscard]] Result<void> keep_plan(const std::string& piece, const KeptPlan& plan);
  /// @return the plan kept of a piece, or nothing.
  [[nodiscard]] Result<std::optional<KeptPlan>> kept_plan(const std::string& piece) const;

  /// Keeps a can that was opened. @return its number.
  [[nodiscard]] Result<std::int64_t> open_can(const Can& can);
  /// @return the cans in use, by number.
  [[nodiscard]] Result<std::vector<Can>> cans() const;
  /// @return one can, also one that was taken off. Errors: also kNotFound.
  [[nodiscard]] Result<Can> can(std::int64_t number) const;
  /// Takes a can off; its row stays. Errors: also kNotFound, and kUsage when it was off already.
  [[nodiscard]] Result<void> empty_can(std::int64_t number, Time at);

 private:
  struct State;
  explicit Store(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace coatwright
