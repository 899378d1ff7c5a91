#include "store/migrations.h"

#include <array>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include <catch2/catch.hpp>

#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

constexpr EmbeddedFile kFirst{"0001_first.sql", "CREATE TABLE shelf (name TEXT) STRICT;"};
constexpr EmbeddedFile kSecond{"0002_second.sql",
                               "ALTER TABLE shelf ADD COLUMN width_m REAL;"
                               "CREATE TABLE rack (name TEXT) STRICT;"};
/// Its first statement works and its second cannot.
constexpr EmbeddedFile kBroken{
    "0002_broken.sql", "CREATE TABLE rack (name TEXT) STRICT; INSERT INTO nowhere VALUES (1);"};

Database open_new(const std::filesystem::path& path) {
  auto database = Database::open(path, Database::Access::kCreate);
  REQUIRE(database);
  return std::move(*database);
}

std::int64_t integer(const Database& database, std::string_view sql) {
  const auto value = database.integer_of(sql);
  REQUIRE(value);
  return *value;
}

std::int64_t tables_named(const Database& database, const std::string& name) {
  return integer(database, "SELECT count(*) FROM sqlite_master WHERE name = '" + name + "'");
}

TEST_CASE("Migrations run in order and set version and application id", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_new(folder / "shop.db");
  const std::array migrations = {kFirst, kSecond};
  REQUIRE(migrate(database, folder / "shop.db", migrations));
  CHECK(integer(database, "PRAGMA user_version") == 2);
  CHECK(integer(database, "PRAGMA application_id") == kApplicationId);
  CHECK(tables_named(database, "rack") == 1);
  // Nothing stood in the file, so there was nothing to copy.
  CHECK_FALSE(std::filesystem::exists(folder / "shop.db.before-version-2"));
}

TEST_CASE("A failure in the middle of a migration leaves the version before it", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_new(folder / "shop.db");
  REQUIRE(migrate(database, folder / "shop.db", std::array{kFirst}));
  REQUIRE(database.run("INSERT INTO shelf VALUES ('oak')"));

  const std::array broken = {kFirst, kBroken};
  const auto failed = migrate(database, folder / "shop.db", broken);
  REQUIRE_FALSE(failed);
  CHECK(failed.error().code == ErrorCode::kStore);
  CHECK_THAT(failed.error().text(), Catch::Contains("to version 2") && Catch::Contains("nowhere"));
  CHECK(integer(database, "PRAGMA user_version") == 1);
  CHECK(tables_named(database, "rack") == 0);
  CHECK(integer(database, "SELECT count(*) FROM shelf WHERE name = 'oak'") == 1);

  // The repaired migration then runs on the same file.
  const std::array repaired = {kFirst, kSecond};
  REQUIRE(migrate(database, folder / "shop.db", repaired));
  CHECK(integer(database, "PRAGMA user_version") == 2);
}

TEST_CASE("A failure in the first migration leaves an empty file", "[store]") {
  const TemporaryFolder folder;
  const auto database = open_new(folder / "shop.db");
  REQUIRE_FALSE(migrate(database, folder / "shop.db", std::array{kBroken}));
  CHECK(integer(database, "SELECT count(*) FROM sqlite_master") == 0);
  CHECK(integer(database, "PRAGMA application_id") == 0);
}

TEST_CASE("An older store is copied before it is brought up to date", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  const auto database = open_new(path);
  REQUIRE(database.run("PRAGMA journal_mode = WAL"));
  REQUIRE(migrate(database, path, std::array{kFirst}));
  REQUIRE(database.run("INSERT INTO shelf VALUES ('ash')"));  // still in the write-ahead log
  REQUIRE(migrate(database, path, std::array{kFirst, kSecond}));

  const auto copy =
      Database::open(folder / "shop.db.before-version-2", Database::Access::kExisting);
  REQUIRE(copy);
  CHECK(integer(*copy, "PRAGMA user_version") == 1);
  CHECK(integer(*copy, "PRAGMA application_id") == kApplicationId);
  CHECK(integer(*copy, "SELECT count(*) FROM shelf WHERE name = 'ash'") == 1);
}

TEST_CASE("A copy never overwrites an earlier one", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  std::ofstream(folder / "shop.db.before-version-2") << "kept";
  const auto database = open_new(path);
  REQUIRE(migrate(database, path, std::array{kFirst}));
  REQUIRE(migrate(database, path, std::array{kFirst, kSecond}));
  CHECK(std::filesystem::file_size(folder / "shop.db.before-version-2") == 4);
  CHECK(std::filesystem::exists(folder / "shop.db.before-version-2.2"));
}

TEST_CASE("A newer store is refused with both versions and the remedy", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  const std::string newer = std::to_string(built_in_migrations().size() + 1);
  REQUIRE(Store::open(path, Store::Mode::kWrite));
  {
    const auto database = open_new(path);
    REQUIRE(database.run("PRAGMA user_version = " + newer));
  }
  for (const auto mode : {Store::Mode::kRead, Store::Mode::kWrite}) {
    const auto store = Store::open(path, mode);
    REQUIRE_FALSE(store);
    CHECK(store.error().code == ErrorCode::kStore);
    CHECK_THAT(store.error().text(),
               Catch::Contains("version " + newer) &&
                   Catch::Contains("up to " + std::to_string(built_in_migrations().size())) &&
                   Catch::Contains("update the program") && Catch::Contains("--store"));
  }
  CHECK(std::to_string(integer(open_new(path), "PRAGMA user_version")) == newer);
}

TEST_CASE("A database of another program is refused and not touched", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "other.db";
  const bool has_id = GENERATE(true, false);
  {
    const auto database = open_new(path);
    REQUIRE(database.run("CREATE TABLE note (text TEXT)"));
    if (has_id) {
      REQUIRE(database.run("PRAGMA application_id = 252006674"));
    }
  }
  const auto before = std::filesystem::last_write_time(path);
  const auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE_FALSE(store);
  CHECK(store.error().code == ErrorCode::kStore);
  CHECK_THAT(store.error().text(), Catch::Contains("another program"));
  CHECK(std::filesystem::last_write_time(path) == before);
  CHECK(integer(open_new(path), "SELECT count(*) FROM sqlite_master") == 1);
}

TEST_CASE("A text file is refused as a store and not touched", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "notes.txt";
  const std::string words = "Oil the bench top on Friday, and hang the rags outside to dry flat.\n";
  std::ofstream(path) << words;
  const auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE_FALSE(store);
  CHECK(store.error().code == ErrorCode::kStore);
  CHECK_THAT(store.error().text(), Catch::Contains("not a coatwright store"));
  std::ifstream file(path);
  CHECK(std::string(std::istreambuf_iterator<char>(file), {}) == words);
}

/// The statements that make up a store's schema, in a fixed order.
std::string dump_schema(const Database& database) {
  std::string text =
      "-- The schema of a fresh store, all migrations run. A test compares it; do not edit by "
      "hand.\n";
  text += "PRAGMA application_id = " + std::to_string(integer(database, "PRAGMA application_id"));
  text += ";\nPRAGMA user_version = " + std::to_string(integer(database, "PRAGMA user_version"));
  text += ";\n";
  auto query = database.prepare(
      "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL ORDER BY type DESC, name");
  REQUIRE(query);
  while (query->step().value() == Statement::Step::kRow) {
    text += "\n" + query->text(0) + ";\n";
  }
  return text;
}

// Consistency check: the file is there for readers, and must not lag behind the migrations.
TEST_CASE("schema/current.sql is the schema of a fresh store", "[store]") {
  const TemporaryFolder folder;
  REQUIRE(Store::open(folder / "shop.db", Store::Mode::kWrite));
  const std::string schema = dump_schema(open_new(folder / "shop.db"));
  const std::string path = COATWRIGHT_SOURCE_DIR "/schema/current.sql";
  if (std::getenv("COATWRIGHT_WRITE_SCHEMA") != nullptr) {
    std::ofstream(path) << schema;
  }
  std::ifstream file(path);
  CHECK(std::string(std::istreambuf_iterator<char>(file), {}) == schema);
}

TEST_CASE("The names of the built-in migrations count up from 0001", "[store]") {
  int number = 0;
  for (const EmbeddedFile& migration : built_in_migrations()) {
    ++number;
    CHECK(std::stoi(std::string(migration.path.substr(0, 4))) == number);
  }
  CHECK(number >= 1);
}

}  // namespace
}  // namespace coatwright
