#pragma once

#include <cstdint>
#include <filesystem>
#include <span>

#include "base/embedded_file.h"
#include "base/result.h"
#include "store/database.h"

namespace coatwright {

/// Marks an SQLite file as this program's store: "CWRT" in ASCII.
inline constexpr std::int64_t kApplicationId = 0x43575254;

/// The migrations built into the program, by number; the file's number is the version it leads to.
[[nodiscard]] std::span<const EmbeddedFile> built_in_migrations();

/// What a file is, seen from this program.
enum class StoreState {
  kEmpty,    ///< Nothing in it yet.
  kOlder,    ///< A store that migrations are missing in.
  kCurrent,  ///< As this program writes it.
};

/// Errors: kStore for a file of another program, and for a store newer than the migrations, naming
/// both versions and the remedy.
[[nodiscard]] Result<StoreState> examine(const Database& database,
                                         std::span<const EmbeddedFile> migrations);

/// Brings a store to the last version. Each migration is one transaction that also sets the
/// version, so that a failure leaves the version before it. A store with something in it is copied
/// first, to FILE.before-version-N. Errors: kStore.
[[nodiscard]] Result<void> migrate(const Database& database,
                                   const std::filesystem::path& path,
                                   std::span<const EmbeddedFile> migrations);

}  // namespace coatwright
