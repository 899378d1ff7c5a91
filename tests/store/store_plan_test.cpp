#include <catch2/catch.hpp>

#include "store/database.h"
#include "store/log_samples.h"
#include "store/migrations.h"
#include "store/store.h"
#include "store/temporary_folder.h"

namespace coatwright {
namespace {

using samples::at;

const Time kMade = at("2027-03-06T10:00:00Z");

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

const std::string kRevision = "00c0ffee00c0ffee";

KeptStep coat(int number, const std::string& face, Time start) {
  return {
      StepKind::kApply, face, "dewaxed-shellac", "Dewaxed shellac", number, "", start, kRevision};
}

/// One step of each kind that a plan keeps.
KeptPlan some_plan() {
  KeptPlan plan{kMade, kMade + std::chrono::hours(30), {}};
  plan.steps = {
      {StepKind::kSample, "", "", "", 0, "", kMade, ""},
      {StepKind::kSand, "both", "", "", 0, "P150", kMade + std::chrono::minutes(10), ""},
      {StepKind::kRaiseGrain, "both", "", "", 0, "P220", kMade + std::chrono::hours(1), ""},
      coat(1, "back", kMade + std::chrono::hours(2)),
      {StepKind::kFlip, "front", "", "", 0, "", kMade + std::chrono::hours(3), ""},
      {StepKind::kAbrade,
       "front",
       "dewaxed-shellac",
       "Dewaxed shellac",
       2,
       "P320",
       kMade + std::chrono::hours(4),
       ""},
      coat(2, "front", kMade + std::chrono::seconds(18001))};
  return plan;
}

void check_equal(const std::optional<KeptPlan>& kept, const KeptPlan& given) {
  REQUIRE(kept);
  CHECK(kept->made_at == given.made_at);
  CHECK(kept->finish == given.finish);
  REQUIRE(kept->steps.size() == given.steps.size());
  for (std::size_t i = 0; i < given.steps.size(); ++i) {
    INFO("step " << i);
    CHECK(kept->steps[i].kind == given.steps[i].kind);
    CHECK(kept->steps[i].face == given.steps[i].face);
    CHECK(kept->steps[i].product == given.steps[i].product);
    CHECK(kept->steps[i].product_title == given.steps[i].product_title);
    CHECK(kept->steps[i].coat == given.steps[i].coat);
    CHECK(kept->steps[i].grit == given.steps[i].grit);
    CHECK(kept->steps[i].start == given.steps[i].start);
    CHECK(kept->steps[i].revision == given.steps[i].revision);
    CHECK(kept->steps[i].part == given.steps[i].part);
  }
}

std::int64_t count(const std::filesystem::path& path, const std::string& table) {
  const auto database = Database::open(path, Database::Access::kExisting);
  REQUIRE(database);
  return database->integer_of("SELECT count(*) FROM " + table).value();
}

}  // namespace

TEST_CASE("A kept plan comes back as it was, also when the store is opened again", "[store]") {
  Shop shop;
  CHECK_FALSE(shop.store.kept_plan("table").value());
  REQUIRE(shop.store.keep_plan("table", some_plan()));
  check_equal(shop.store.kept_plan("table").value(), some_plan());
  CHECK_FALSE(shop.store.kept_plan("chair").value());
  for (const Store::Mode mode : {Store::Mode::kRead, Store::Mode::kWrite}) {
    const auto again = Store::open(shop.path, mode);
    REQUIRE(again);
    check_equal(again->kept_plan("table").value(), some_plan());
  }
}

TEST_CASE("A kept step knows its part", "[store]") {
  Shop shop;
  KeptPlan plan = some_plan();
  plan.steps.front().part = "door 1";
  REQUIRE(shop.store.keep_plan("table", plan));
  check_equal(shop.store.kept_plan("table").value(), plan);
}

TEST_CASE("The next plan takes the place of the one before, steps and all", "[store]") {
  Shop shop;
  REQUIRE(shop.store.keep_plan("chair", some_plan()));
  REQUIRE(shop.store.keep_plan("table", some_plan()));
  KeptPlan next{kMade + std::chrono::hours(5), std::nullopt, {coat(2, "", kMade)}};
  REQUIRE(shop.store.keep_plan("table", next));
  check_equal(shop.store.kept_plan("table").value(), next);
  check_equal(shop.store.kept_plan("chair").value(), some_plan());
  CHECK(count(shop.path, "kept_plan") == 2);
  CHECK(count(shop.path, "kept_step") == static_cast<std::int64_t>(some_plan().steps.size()) + 1);
  next.steps.clear();  // all is done
  REQUIRE(shop.store.keep_plan("table", next));
  check_equal(shop.store.kept_plan("table").value(), next);
}

TEST_CASE("A plan that cannot be kept leaves the one before as it was", "[store]") {
  Shop shop;
  REQUIRE(shop.store.keep_plan("table", some_plan()));
  KeptPlan wrong = some_plan();
  wrong.steps.back().face = "left";
  const auto done = shop.store.keep_plan("table", wrong);
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::kStore);
  check_equal(shop.store.kept_plan("table").value(), some_plan());
}

TEST_CASE("No plan is kept of a piece that is not stored", "[store]") {
  Shop shop;
  const auto done = shop.store.keep_plan("shelf", some_plan());
  REQUIRE_FALSE(done);
  CHECK(done.error().code == ErrorCode::kNotFound);
  CHECK_THAT(done.error().text(), Catch::Contains("'shelf'"));
  CHECK(count(shop.path, "kept_plan") == 0);
  const auto none = shop.store.kept_plan("shelf");
  REQUIRE(none);
  CHECK_FALSE(*none);
}

TEST_CASE("A retired piece's plan is not that of the next one with its name", "[store]") {
  Shop shop;
  REQUIRE(shop.store.keep_plan("table", some_plan()));
  REQUIRE(shop.store.retire_piece("table", kMade + std::chrono::hours(50)));
  CHECK_FALSE(shop.store.kept_plan("table").value());
  CHECK(shop.store.keep_plan("table", some_plan()).error().code == ErrorCode::kNotFound);
  REQUIRE(shop.store.add_piece(samples::piece("table")));
  CHECK_FALSE(shop.store.kept_plan("table").value());
  KeptPlan own{kMade + std::chrono::hours(60), std::nullopt, {}};
  REQUIRE(shop.store.keep_plan("table", own));
  check_equal(shop.store.kept_plan("table").value(), own);
}

TEST_CASE("Asking for a kept plan makes no store", "[store]") {
  const TemporaryFolder folder;
  const auto store = Store::open(folder / "new.db", Store::Mode::kRead).value();
  CHECK_FALSE(store.kept_plan("table").value());
  CHECK_FALSE(std::filesystem::exists(folder / "new.db"));
}

TEST_CASE("A store that kept no plans is brought up to date and keeps its log", "[store]") {
  const TemporaryFolder folder;
  const auto path = folder / "shop.db";
  {
    const auto database = Database::open(path, Database::Access::kCreate);
    REQUIRE(database);
    REQUIRE(migrate(*database, path, built_in_migrations().subspan(0, 2)));
    REQUIRE(database->run(
        "INSERT INTO piece (name, species, schedule, area_m2, faces, created_at) VALUES "
        "('table', 'red-oak', 'stain-and-lacquer', 1.9, 'one', '2027-03-01T08:00:00Z')"));
  }
  auto store = Store::open(path, Store::Mode::kWrite);
  REQUIRE(store);
  CHECK_FALSE(store->kept_plan("table").value());
  REQUIRE(store->keep_plan("table", some_plan()));
  check_equal(store->kept_plan("table").value(), some_plan());
}

}  // namespace coatwright
