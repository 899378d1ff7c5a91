#include "store/migrations.h"

#include <charconv>

#include <fmt/format.h>

namespace coatwright {

extern const EmbeddedFile kMigrationFiles[];
extern const std::size_t kMigrationFiles_count;

namespace {

/// The number that a migration's file name begins with.
std::int64_t version_of(const EmbeddedFile& migration) {
  std::int64_t version = 0;
  std::from_chars(migration.path.data(), migration.path.data() + migration.path.size(), version);
  return version;
}

/// What stands in the file's header.
struct Marks {
  std::int64_t application_id = 0;
  std::int64_t version = 0;
  std::int64_t tables = 0;
};

/// Reads them in one transaction: another process may be making the file.
Result<Marks> read_marks(const Database& database) {
  auto transaction = Transaction::begin(database, Transaction::Lock::kRead);
  if (!transaction) {
    return pass_on(transaction.error());
  }
  const auto application_id = database.integer_of("PRAGMA application_id");
  const auto version = database.integer_of("PRAGMA user_version");
  const auto tables = database.integer_of("SELECT count(*) FROM sqlite_master");
  for (const auto* each : {&application_id, &version, &tables}) {
    if (!*each) {
      return pass_on(each->error());
    }
  }
  return Marks{*application_id, *version, *tables};
}

std::filesystem::path free_copy_name(const std::filesystem::path& path, std::int64_t version) {
  const std::string stem = fmt::format("{}.before-version-{}", path.string(), version);
  std::filesystem::path name = stem;
  for (int i = 2; std::filesystem::exists(name); ++i) {
    name = fmt::format("{}.{}", stem, i);
  }
  return name;
}

/// One migration, unless another process has made it in the meantime.
Result<void> apply(const Database& database, const EmbeddedFile& migration) {
  auto transaction = Transaction::begin(database);
  if (!transaction) {
    return pass_on(transaction.error());
  }
  const auto version = database.integer_of("PRAGMA user_version");
  if (!version) {
    return pass_on(version.error());
  }
  if (*version >= version_of(migration)) {
    return {};
  }
  const std::string marks = fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};",
                                        kApplicationId,
                                        version_of(migration));
  for (const std::string& sql : {std::string(migration.text), marks}) {
    if (const auto done = database.run(sql); !done) {
      return pass_on(done.error());
    }
  }
  return transaction->commit();
}

}  // namespace

std::span<const EmbeddedFile> built_in_migrations() {
  return {kMigrationFiles, kMigrationFiles_count};
}

Result<StoreState> examine(const Database& database, std::span<const EmbeddedFile> migrations) {
  const auto marks = read_marks(database);
  if (!marks) {
    return pass_on(marks.error());
  }
  if (marks->application_id == 0 && marks->version == 0 && marks->tables == 0) {
    return StoreState::kEmpty;
  }
  if (marks->application_id != kApplicationId) {
    return fail(ErrorCode::kStore,
                fmt::format("it is a database of another program (application id {}, a coatwright "
                            "store has {}); name another file with --store",
                            marks->application_id,
                            kApplicationId));
  }
  const std::int64_t known = version_of(migrations.back());
  if (marks->version > known) {
    return fail(ErrorCode::kStore,
                fmt::format("the store has version {}, and this program knows versions up to {}; "
                            "update the program, or name another file with --store",
                            marks->version,
                            known));
  }
  return marks->version < known ? StoreState::kOlder : StoreState::kCurrent;
}

Result<void> migrate(const Database& database,
                     const std::filesystem::path& path,
                     std::span<const EmbeddedFile> migrations) {
  const auto state = examine(database, migrations);
  if (!state) {
    return pass_on(state.error());
  }
  if (*state == StoreState::kOlder) {
    const auto copy = free_copy_name(path, version_of(migrations.back()));
    if (const auto copied = database.copy_to(copy); !copied) {
      return pass_on(copied.error(), "copying the store before it is brought up to date");
    }
  }
  for (const EmbeddedFile& migration : migrations) {
    if (const auto done = apply(database, migration); !done) {
      return pass_on(done.error(),
                     fmt::format("bringing the store to version {}", version_of(migration)));
    }
  }
  return {};
}

}  // namespace coatwright
