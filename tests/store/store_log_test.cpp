#include <thread>

#include <catch2/catch.hpp>

#include "base/content_hash.h"
#include "store/database.h"
#include "store/log_samples.h"
#include "store/migrations.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;
using samples::coat;
using samples::step;

const std::string kRecipe = "format = 1\nname = \"dewaxed-shellac\"\n";

/// A store in a folder of its own, with the pieces "table" and "chair".
struct Shop {
  TemporaryFolder folder;
  std::filesystem::path path = folder / "shop.db";
  Store store = make(path);

  static Store make(const std::filesystem::path& path) {
    auto store = Store::open(path, Store::Mode::kWrite);
    REQUIRE(store);
    REQUIRE(store->add_piece(samples::piece("table")));
    REQUIRE(store->add_piece(samples::piece("chair")));
    return std::move(*store);
  }
};

std::int64_t count(const std::filesystem::path& path, const std::string& table) {
  const auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  return database->integer_of("SELECT count(*) FROM " + table).value();
}

}  // namespace

TEST_CASE("A coat comes back from the log with all that was kept", "[store]") {
  Shop shop;
  const LogEntry given = coat("table", at("2027-03-06T10:00:00Z"));
  const auto id = shop.store.log_coat(given, kRecipe);
  REQUIRE(id);
  const auto log = shop.store.log("table").value();
  REQUIRE(log.size() == 1);
  const LogEntry& kept = log.front();
  CHECK(kept.id == *id);
  CHECK(kept.piece == "table");
  CHECK(kept.kind == LogKind::kCoat);
  CHECK(kept.step == "apply");
  CHECK(kept.product == "dewaxed-shellac");
  CHECK(kept.revision == content_hash(kRecipe));
  CHECK(kept.part == "top");
  CHECK(kept.face == "front");
  CHECK(kept.at == given.at);
  CHECK(kept.amount->litres() == Approx(0.2));
  CHECK(kept.by == "Ines");
  CHECK(kept.batch == "7");
  CHECK(kept.note == "thin");
  CHECK(kept.abraded);
  CHECK(kept.logged_at == given.logged_at);
  CHECK_FALSE(kept.struck());
}

TEST_CASE("A coat's air and findings come back as they were given", "[store]") {
  Shop shop;
  REQUIRE(shop.store.log_coat(coat("table", at("2027-03-06T10:00:00Z")), kRecipe));
  const LogEntry kept = shop.store.log("table").value().at(0);
  REQUIRE(kept.air);
  CHECK(kept.air->temperature.celsius() == Approx(19.5));
  CHECK(kept.air->humidity.percent() == Approx(45.0));
  CHECK(kept.air->origin == AirOrigin::kUsualDay);
  REQUIRE(kept.findings.size() == 2);
  const LoggedFinding given = samples::early_finding();
  CHECK(kept.findings[0].kind == given.kind);
  CHECK(kept.findings[0].by == given.by);
  CHECK(kept.findings[0].moment == given.moment);
  CHECK(*kept.findings[0].chance == Approx(*given.chance));
  CHECK(kept.findings[0].text == given.text);
  CHECK(kept.findings[0].may_happen == given.may_happen);
  CHECK(kept.findings[0].to_do == given.to_do);
  CHECK(kept.findings[0].source == given.source);
  CHECK(kept.findings[1].kind == "outside limits");
  CHECK_FALSE(kept.findings[1].moment);
}

TEST_CASE("Steps and skips are kept together and read in order of time", "[store]") {
  Shop shop;
  LogEntry sand = step("table", "sand", at("2027-03-06T10:00:00Z"));
  sand.grit = "P150";
  LogEntry skip = step("table", "flip", at("2027-03-06T09:00:00Z"));
  skip.kind = LogKind::kSkip;
  skip.why = "one face only";
  const auto ids = shop.store.log_steps({sand, skip});
  REQUIRE(ids);
  REQUIRE(ids->size() == 2);
  const auto log = shop.store.log("table").value();
  REQUIRE(log.size() == 2);
  CHECK(log[0].id == ids->at(1));
  CHECK(log[0].kind == LogKind::kSkip);
  CHECK(log[0].why == "one face only");
  CHECK(log[1].grit == "P150");
  CHECK_FALSE(log[1].air);
  CHECK(shop.store.log("chair").value().empty());
}

TEST_CASE("Of steps logged together none is kept when one cannot be", "[store]") {
  Shop shop;
  const LogEntry sand = step("table", "sand", at("2027-03-06T10:00:00Z"));
  LogEntry nowhere = sand;
  nowhere.piece = "shelf";
  const auto done = shop.store.log_steps({sand, nowhere});
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::kNotFound);
  CHECK_THAT(done.error().text(), Catch::Contains("'shelf'") && Catch::Contains("table, chair"));
  LogEntry wrong = sand;
  wrong.face = "left";
  REQUIRE_FALSE(shop.store.log_steps({sand, wrong}));
  CHECK(shop.store.log("table").value().empty());
}

TEST_CASE("A coat whose findings cannot be kept is not kept either", "[store]") {
  Shop shop;
  LogEntry wrong = coat("table", at("2027-03-06T10:00:00Z"));
  wrong.findings.back().kind = "whatever";
  REQUIRE_FALSE(shop.store.log_coat(wrong, kRecipe));
  CHECK(count(shop.path, "log_entry") == 0);
  CHECK(count(shop.path, "product_revision") == 0);
}

TEST_CASE("A recipe is kept once per revision and stays when it changes", "[store]") {
  Shop shop;
  const LogEntry given = coat("table", at("2027-03-06T10:00:00Z"));
  const std::string changed = kRecipe + "# another label\n";
  for (const std::string& text : {kRecipe, kRecipe, changed}) {
    REQUIRE(shop.store.log_coat(given, text));
  }
  CHECK(count(shop.path, "product_revision") == 2);
  const auto log = shop.store.log("table").value();
  CHECK(shop.store.product_text("dewaxed-shellac", log[0].revision).value() == kRecipe);
  CHECK(shop.store.product_text("dewaxed-shellac", log[2].revision).value() == changed);
  CHECK(shop.store.product_text("dewaxed-shellac", "0000000000000000").error().code ==
        ErrorCode::kNotFound);
}

TEST_CASE("A struck entry stays with its reason and cannot be struck again", "[store]") {
  Shop shop;
  const auto id = shop.store.log_coat(coat("table", at("2027-03-06T10:00:00Z")), kRecipe).value();
  const Time when = at("2027-03-06T11:00:00Z");
  REQUIRE(shop.store.strike(id, "wrong piece", when));
  const LogEntry kept = shop.store.log("table").value().at(0);
  REQUIRE(kept.struck());
  CHECK(kept.strike->why == "wrong piece");
  CHECK(kept.strike->at == when);
  CHECK(kept.product == "dewaxed-shellac");

  const auto again = shop.store.strike(id, "changed my mind", when);
  REQUIRE_FALSE(again);
  CHECK(again.error().code == ErrorCode::kUsage);
  CHECK(shop.store.log_entry(id).value().strike->why == "wrong piece");

  const auto none = shop.store.strike(id + 1, "no such", when);
  REQUIRE_FALSE(none);
  CHECK(none.error().code == ErrorCode::kNotFound);
  CHECK_THAT(none.error().text(), Catch::Contains(std::to_string(id + 1)));
}

TEST_CASE("The file itself refuses that anything in the log is erased or changed", "[store]") {
  Shop shop;
  const auto id = shop.store.log_coat(coat("table", at("2027-03-06T10:00:00Z")), kRecipe).value();
  REQUIRE(shop.store.strike(id, "wrong piece", at("2027-03-06T11:00:00Z")));
  const auto database = Database::open(shop.path, Database::Access::kExisting);
  REQUIRE(database);
  for (const char* sql : {"DELETE FROM log_entry",
                          "DELETE FROM log_verdict",
                          "DELETE FROM log_strike",
                          "DELETE FROM product_revision",
                          "UPDATE log_entry SET note = 'x'",
                          "UPDATE log_verdict SET text = 'x'",
                          "UPDATE log_strike SET why = 'x'",
                          "UPDATE product_revision SET text = 'x'",
                          "DELETE FROM piece"}) {
    INFO(sql);
    CHECK_FALSE(database->run(sql));
  }
  CHECK(count(shop.path, "log_entry") == 1);
}

TEST_CASE("A piece's log is its own when its name was used before", "[store]") {
  Shop shop;
  const Time time = at("2027-03-06T10:00:00Z");
  REQUIRE(shop.store.log_steps({step("table", "sand", time)}));
  REQUIRE(shop.store.retire_piece("table", at("2027-03-07T10:00:00Z")));
  CHECK(shop.store.log("table").value().size() == 1);  // the story of what was delivered
  REQUIRE_FALSE(shop.store.log_steps({step("table", "sand", time)}));
  REQUIRE(shop.store.add_piece(samples::piece("table")));
  CHECK(shop.store.log("table").value().empty());
  CHECK(shop.store.log("shelf").error().code == ErrorCode::kNotFound);
}

TEST_CASE("Reading the log of a store that does not exist finds no piece", "[store]") {
  const TemporaryFolder folder;
  const auto store = Store::open(folder / "new.db", Store::Mode::kRead).value();
  CHECK(store.log("table").error().code == ErrorCode::kNotFound);
  CHECK(store.log_entry(1).error().code == ErrorCode::kNotFound);
  CHECK_FALSE(std::filesystem::exists(folder / "new.db"));
}

TEST_CASE("Two makers who log through two connections both keep their entries", "[store]") {
  Shop shop;
  constexpr int kEntries = 60;
  const auto write = [&](const std::string& piece, int& logged) {
    auto store = Store::open(shop.path, Store::Mode::kWrite);
    for (int i = 0; store && i < kEntries; ++i) {
      const auto id = store->log_coat(coat(piece, at("2027-03-06T10:00:00Z")), kRecipe);
      logged += id ? 1 : 0;
    }
  };
  int one = 0;
  int other = 0;
  std::thread first(write, "table", std::ref(one));
  std::thread second(write, "chair", std::ref(other));
  first.join();
  second.join();
  CHECK(one == kEntries);
  CHECK(other == kEntries);
  CHECK(shop.store.log("table").value().size() == kEntries);
  CHECK(shop.store.log("chair").value().size() == kEntries);
  CHECK(count(shop.path, "log_verdict") == 4 * kEntries);
}

TEST_CASE("A store without a log is brought up to date and keeps its pieces", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto database = Database::open(path, Database::Access::kCreate);
    REQUIRE(database);
    REQUIRE(migrate(*database, path, built_in_migrations().subspan(0, 1)));
    REQUIRE(database->run(
        "INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) VALUES "
        "('table', 'red-oak', 'stain-and-lacquer', 1.9, 'one', '2027-03-01T08:00:00Z')"));
  }
  auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE(store);
  CHECK(store->log("table").value().empty());
  REQUIRE(store->log_coat(coat("table", at("2027-03-06T10:00:00Z")), kRecipe));
  CHECK(store->log("table").value().size() == 1);
}

}  // namespace coatwright
