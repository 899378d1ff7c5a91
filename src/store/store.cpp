#include "store/store.h"

#include <array>
#include <system_error>

#include <fmt/format.h>

#include "base/zone.h"
#include "store/migrations.h"
#include "store/store_state.h"

namespace coatwright {
namespace {

constexpr std::array<std::string_view, 17> kSettingKeys = {"usual_day",
                                                           "hours",
                                                           "time_zone",
                                                           "units",
                                                           "people",
                                                           "spray_places",
                                                           "rack_places",
                                                           "benches",
                                                           "finishing_room",
                                                           "learned_recoat",
                                                           "room",
                                                           "fan",
                                                           "fan_rated",
                                                           "mixing",
                                                           "ignition",
                                                           "emergency",
                                                           "cabinet"};
static_assert(kSettingKeys.size() == static_cast<std::size_t>(ShopSetting::kCabinet) + 1);

std::string_view key_of(ShopSetting which) {
  return kSettingKeys[static_cast<std::size_t>(which)];
}

/// Whether there is anything to be read. An empty file is what a program leaves that was stopped
/// between making a file and writing to it.
bool has_content(const std::filesystem::path& path) {
  std::error_code failed;
  return std::filesystem::exists(path, failed) && (std::filesystem::is_directory(path, failed) ||
                                                   std::filesystem::file_size(path, failed) > 0);
}

Result<void> make_folder_of(const std::filesystem::path& path) {
  std::error_code failed;
  if (path.has_parent_path()) {
    std::filesystem::create_directories(path.parent_path(), failed);
  }
  if (failed) {
    return fail(ErrorCode::kStore,
                fmt::format("its folder cannot be made: {}; name another file with --store",
                            failed.message()));
  }
  return {};
}

/// Opens the file and makes it current.
Result<Database> open_database(const std::filesystem::path& path, Database::Access access) {
  auto database = Database::open(path, access);
  if (!database) {
    return database;
  }
  const auto state = examine(*database, built_in_migrations());
  if (!state) {
    return pass_on(state.error());
  }
  if (*state != StoreState::kCurrent) {
    if (const auto done = database->use_write_ahead_log(); !done) {
      return pass_on(done.error());
    }
    if (const auto done = migrate(*database, path, built_in_migrations()); !done) {
      return pass_on(done.error());
    }
  }
  return database;
}

}  // namespace

tl::unexpected<Error> in_store(Error error, const std::filesystem::path& path) {
  return pass_on(std::move(error), fmt::format("store '{}'", path.string()));
}

Result<Time> time_from_store(const std::string& text) {
  const auto time = parse_rfc3339(text);
  if (!time) {
    return fail(ErrorCode::kStore, time.error().message);
  }
  return *time;
}

std::optional<std::string> or_null(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(text);
}

std::optional<std::string> optional_text_of(const std::optional<Time>& time) {
  return time ? std::optional(show_utc(*time)) : std::nullopt;
}

Result<const Database*> Store::State::to_write() const {
  if (!database) {
    return fail(ErrorCode::kFault, "the store was opened for reading, and is to be changed");
  }
  return &*database;
}

Store::Store(std::unique_ptr<State> state) : state_(std::move(state)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

const std::filesystem::path& Store::path() const {
  return state_->path;
}

Result<Store> Store::open(const std::filesystem::path& path, Mode mode) {
  auto state = std::make_unique<State>();
  state->path = path;
  if (mode == Mode::kRead && !has_content(path)) {
    return Store(std::move(state));
  }
  if (mode == Mode::kWrite) {
    if (const auto made = make_folder_of(path); !made) {
      return in_store(made.error(), path);
    }
  }
  const auto access =
      mode == Mode::kWrite ? Database::Access::kCreate : Database::Access::kExisting;
  auto database = open_database(path, access);
  if (!database) {
    return in_store(database.error(), path);
  }
  state->database = std::move(*database);
  if (mode == Mode::kRead) {
    if (const auto done = state->database->run("PRAGMA query_only = ON"); !done) {
      return in_store(done.error(), path);
    }
  }
  return Store(std::move(state));
}

Result<std::optional<std::string>> Store::setting(ShopSetting which) const {
  if (!state_->database) {
    return std::nullopt;
  }
  auto query = state_->database->prepare("SELECT value FROM shop_setting WHERE key = ?");
  if (!query) {
    return in_store(query.error(), state_->path);
  }
  const auto step = query->bind(1, key_of(which)).step();
  if (!step) {
    return in_store(step.error(), state_->path);
  }
  return *step == Statement::Step::kRow ? std::optional(query->text(0)) : std::nullopt;
}

namespace {

Result<void> write_settings(const Database& database,
                            const std::map<ShopSetting, std::string>& values) {
  auto change = database.prepare(
      "INSERT INTO shop_setting (key, value) VALUES (?, ?) "
      "ON CONFLICT (key) DO UPDATE SET value = excluded.value");
  if (!change) {
    return pass_on(change.error());
  }
  for (const auto& [which, value] : values) {
    change->reset();
    if (const auto step = change->bind(1, key_of(which)).bind(2, std::string_view(value)).step();
        !step) {
      return pass_on(step.error());
    }
  }
  return {};
}

}  // namespace

Result<void> Store::set(const std::map<ShopSetting, std::string>& values, const DayChanges& days) {
  const auto database = state_->to_write();
  if (!database) {
    return pass_on(database.error());
  }
  auto transaction = Transaction::begin(**database);
  if (!transaction) {
    return in_store(transaction.error(), state_->path);
  }
  if (const auto done = write_settings(**database, values); !done) {
    return in_store(done.error(), state_->path);
  }
  if (const auto done = write_days(**database, days); !done) {
    return in_store(done.error(), state_->path);
  }
  if (const auto done = transaction->commit(); !done) {
    return in_store(done.error(), state_->path);
  }
  return {};
}

}  // namespace coatwright
